// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLabel>
#include <QPushButton>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

#include "casework/store_log.h"
#include "trust/backup_keeper.h"
#include "trust/trust_window.h"
#include "ui/support/invented_clinic.h"

namespace evenfall::ui {

inline const std::string kPassphrase = "four unrelated words here";

/// A window of safe keeping over a store in a folder, with one person in it.
class TrustTest : public testing::Test {
  protected:
    TrustTest() {
        StoreOptions options;
        options.kdf = crypto::Kdf::least();
        file = folder_path() / "clinic.evenfall";
        auto created =
            Store::create(file, "Harbour Lane", {"Mara Keel", Role::prescriber, "L-1"}, kPassphrase, options);
        if (!created) throw std::runtime_error("no store");
        auto log = std::make_unique<StoreLog>(std::move(created->store));
        store = &log->store();
        const Worker worker = worker_of(*store);
        auto formulary = load_formulary(resources_folder() / "formulary.json");
        auto rules = Rules::load(resources_folder() / "rules.json");
        auto texts = Texts::load(resources_folder(), "en");
        if (!formulary || !rules || !texts) throw std::runtime_error("the shipped resources do not load");
        auto desk = Desk::open(std::move(log), *formulary, *rules, worker);
        if (!desk) throw std::runtime_error("no desk");
        workbench = std::make_unique<Workbench>(std::move(*desk), *texts, invented_now);
        patient = add_person(*workbench, "Jonas Hale", "0417");
        keeper = std::make_unique<BackupKeeper>(
            *store, [this]() -> const Rules& { return workbench->desk().rules(); }, [this] { return now; });
        window = std::make_unique<TrustWindow>(
            *workbench, *store, *keeper, [this](const std::filesystem::path& backup) { restored = backup; });
        std::filesystem::create_directory(folder_path() / "stick");
    }
    std::filesystem::path folder_path() const { return folder.path().toStdString(); }
    QString shown() const {
        QStringList lines;
        for (const QLabel* label : window->findChildren<QLabel*>()) lines << label->text();
        return lines.join(u'\n');
    }
    QPushButton* button(QWidget& root, const char* text) {
        for (QPushButton* each : root.findChildren<QPushButton*>())
            if (each->text().startsWith(QString::fromLatin1(text))) return each;
        return nullptr;
    }
    std::string back_up() {
        QSignalSpy finished(keeper.get(), &BackupKeeper::finished);
        QTest::mouseClick(button(*window, "Back up now"), Qt::LeftButton);
        if (!QTest::qWaitFor([&] { return !finished.isEmpty(); })) return "";
        return keeper->kept().last_file;
    }

    QTemporaryDir folder;
    std::filesystem::path file;
    Store* store = nullptr;
    std::unique_ptr<Workbench> workbench;
    std::unique_ptr<BackupKeeper> keeper;
    std::unique_ptr<TrustWindow> window;
    PatientId patient;
    std::filesystem::path restored;
    Instant now{std::chrono::seconds(1'795'512'600)};
};

}  // namespace evenfall::ui
