// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window.h"

#include <QApplication>
#include <QDir>
#include <QFile>
#include <QPointer>
#include <QStandardPaths>
#include <QTimer>
#include <iostream>

#include "app/commands.h"
#include "casework/safekeeping.h"
#include "casework/store_log.h"
#include "checkin/call_page.h"
#include "controls/wheel_guard.h"
#include "course/course_page.h"
#include "diary/diary_page.h"
#include "papers/papers_page.h"
#include "plan/plan_page.h"
#include "record/record_page.h"
#include "shell/caseload_pane.h"
#include "shell/unlock.h"
#include "stabilization/stabilization_page.h"
#include "texts/render.h"
#include "theme/theme.h"
#include "trust/backup_keeper.h"
#include "trust/safety_note.h"
#include "trust/trust_window.h"

namespace evenfall::app {
namespace {

template <class MadePage>
ui::PageMaker page(const char* id, const QString& title, bool wide = false) {
    return {QString::fromLatin1(id), title,
            [](ui::Workbench& workbench, QWidget* parent) -> ui::Page* {
                return new MadePage(workbench, parent);
            },
            wide};
}

/// Qt's warnings go to standard error, but for one that the off-screen platform repeats for every window.
void say_what_matters(QtMsgType type, const QMessageLogContext& context, const QString& message) {
    if (message.contains(QStringLiteral("propagateSizeHints"))) return;
    std::cerr << qFormatLogMessage(type, context, message).toStdString() << std::endl;
}

/// Where a store lives that nobody named.
std::filesystem::path usual_store() {
    const QString folder = QStandardPaths::writableLocation(QStandardPaths::AppLocalDataLocation);
    QDir().mkpath(folder);
    QFile::setPermissions(folder, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
    return std::filesystem::path(folder.toStdString()) / "clinic.evenfall";
}

/// What the window may ask of the store behind its desk.
ui::WindowServices services_of(StoreLog& log) {
    ui::WindowServices services;
    Store& store = log.store();
    services.prove = store.passphrase_proof();
    services.lock = {store.unlocking(), [&store] { store.forget_keys(); }};
    services.users = [&store] { return store.users(); };
    services.grant = [&store](const NewUser& wanted, const std::string& passphrase) {
        return store.grant(wanted, passphrase);
    };
    services.close_user = [&store](const UserId& id) { return store.close_user(id); };
    services.granting = store.granting();
    return services;
}

using RestoreWanted = std::function<void(const std::filesystem::path&)>;

Instant instant_now() {
    return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
}

/// Begins to keep back-ups, and says in the window where something is to be done about them.
void keep_safe(Workplace& place, Store& store, QPointer<ui::BackupKeeper>& keeper) {
    ui::Workbench& workbench = place.workbench();
    keeper = new ui::BackupKeeper(
        store, [&workbench]() -> const Rules& { return workbench.desk().rules(); }, instant_now,
        &place.window());
    QObject::connect(&workbench, &ui::Workbench::clinic_changed, keeper, &ui::BackupKeeper::look_at_schedule);
    if (ui::LockCover* cover = place.window().lock_cover())
        QObject::connect(cover, &ui::LockCover::uncovered, keeper, &ui::BackupKeeper::unlocked);
    auto* note = new ui::SafetyNote(workbench, *keeper, &place.window().caseload());
    QObject::connect(note, &QPushButton::clicked, &place.window(), &ui::MainWindow::show_trust);
    place.window().caseload().add_notice(note);
}

/// Sits down at an opened store. On failure the faults are on standard error.
std::unique_ptr<Workplace> sit_down(Store opened, const QString& new_clinic, const Resources& resources,
                                    const RestoreWanted& restore) {
    const Worker worker = worker_of(opened);
    auto log = std::make_unique<StoreLog>(std::move(opened));
    Store& store = log->store();
    ui::WindowServices services = services_of(*log);
    // The keeper is the window's child, so that it ends before the store does.
    const auto keeper = std::make_shared<QPointer<ui::BackupKeeper>>();
    services.make_trust = [&store, keeper, restore](ui::Workbench& workbench, QWidget* parent) -> QWidget* {
        return new ui::TrustWindow(workbench, store, **keeper, restore, parent);
    };
    auto desk = Desk::open(std::move(log), resources.formulary, resources.rules, worker);
    if (!desk) {
        print_faults(desk.faults(), resources.texts);
        return nullptr;
    }
    if (!new_clinic.isEmpty()) {
        Clinic clinic;
        clinic.name = new_clinic.toStdString();
        if (auto set = desk->carry_out({}, {clinic}, {}, machine_time()); !set)
            print_faults(set.faults(), resources.texts);
    }
    auto place =
        std::make_unique<Workplace>(std::move(*desk), resources.texts, machine_time, std::move(services));
    keep_safe(*place, store, *keeper);
    return place;
}

/// Puts a back-up in the store's place once the window is gone, and says at the door how it went.
void restore_behind_door(ui::UnlockWindow& door, std::unique_ptr<Workplace>& place,
                         const std::filesystem::path& backup, const std::filesystem::path& store,
                         const Texts& texts) {
    door.show();  // before the window goes, so that the program does not end with it
    place.reset();
    const auto kept = restore_store(backup, store, file_stamp(instant_now()));
    QStringList lines;
    if (!kept) {
        for (const Fault& fault : kept.faults()) lines << ui::to_text(texts.text(fault));
    } else {
        lines << ui::to_text(texts.text("app-restore-done"));
        if (!kept->empty()) lines << ui::to_text(texts.text("app-restore-kept", {{"file", kept->string()}}));
    }
    door.tell(lines.join(u'\n'), kept ? ui::Tone::ink : ui::Tone::danger);
}

}  // namespace

std::vector<ui::PageMaker> all_pages() {
    return {page<ui::CoursePage>("course", QObject::tr("Course")),
            page<ui::DiaryPage>("diary", QObject::tr("Diary")),
            page<ui::StabilizationPage>("stabilization", QObject::tr("Stabilization")),
            page<ui::PlanPage>("plan", QObject::tr("Plan"), true),
            page<ui::RecordPage>("record", QObject::tr("Record")),
            page<ui::PapersPage>("papers", QObject::tr("Papers")),
            page<ui::CallPage>("call", QObject::tr("Call"))};
}

Workplace::Workplace(Desk desk, Texts texts, std::function<LocalTime()> now, ui::WindowServices services)
    : workbench_(std::make_unique<ui::Workbench>(std::move(desk), std::move(texts), std::move(now))),
      window_(std::make_unique<ui::MainWindow>(*workbench_, all_pages(), std::move(services))) {
}

Workplace::~Workplace() = default;

void prepare_application() {
    qInstallMessageHandler(say_what_matters);
    QApplication::setApplicationName(QStringLiteral("evenfall"));
    QApplication::setApplicationDisplayName(QStringLiteral("Evenfall"));
    qApp->installEventFilter(new ui::WheelGuard(qApp));
    ui::apply_theme(*qApp, ui::theme_of_system(QApplication::palette()));
}

Exit open_window(const QString& file) {
    prepare_application();
    const auto resources = load_resources();
    if (!resources) return Exit::our_fault;
    const std::filesystem::path path =
        file.isEmpty() ? usual_store() : std::filesystem::path(file.toStdString());
    ui::UnlockWindow door(path, resources->texts, store_options(resources->rules));
    std::unique_ptr<Workplace> place;
    bool failed = false;
    QObject::connect(&door, &ui::UnlockWindow::opened, &door, [&] {
        auto store = door.take_store();
        if (!store) return;
        const RestoreWanted restore = [&](const std::filesystem::path& backup) {
            // Later, from the event loop: the window that asks for it is about to go.
            QTimer::singleShot(0, &door, [&door, &place, &resources, path, backup] {
                restore_behind_door(door, place, backup, path, resources->texts);
            });
        };
        place = sit_down(std::move(*store), door.new_clinic(), *resources, restore);
        failed = !place;
        if (failed) return QApplication::quit();
        place->window().show();
        door.close();
    });
    door.show();
    const int left = QApplication::exec();
    return failed ? Exit::store_refuses : left == 0 ? Exit::done : Exit::our_fault;
}

Exit open_demo(std::future<std::optional<Demo>> loading) {
    prepare_application();
    std::optional<Demo> demo = loading.get();
    if (!demo) return Exit::our_fault;
    Workplace place(std::move(demo->desk), std::move(demo->resources.texts), machine_time);
    place.window().show();
    return QApplication::exec() == 0 ? Exit::done : Exit::our_fault;
}

}  // namespace evenfall::app
