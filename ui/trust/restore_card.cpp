// SPDX-License-Identifier: GPL-3.0-or-later
#include "trust/restore_card.h"

#include <QFileDialog>
#include <QHBoxLayout>

#include "controls/buttons.h"
#include "controls/label.h"
#include "controls/messages.h"
#include "texts/render.h"
#include "theme/theme.h"
#include "trust/backup_keeper.h"

namespace evenfall::ui {

QString name_in_lists(Workbench& workbench, const PatientId& patient) {
    const Texts& texts = workbench.texts();
    if (patient.empty()) return to_text(texts.text("app-restore-clinic"));
    if (patient == kAccessLog) return to_text(texts.text("app-restore-accesses"));
    const auto record = workbench.desk().record(patient);
    if (record && (*record)->person) return to_text((*record)->person->value.reference);
    return to_text(texts.text("app-restore-unknown", {{"id", patient.substr(0, 8)}}));
}

RestoreCard::RestoreCard(Workbench& workbench, Store& store, BackupKeeper& keeper,
                         std::function<void(const std::filesystem::path&)> restore, QWidget* parent)
    : Card(parent), workbench_(workbench), store_(store), keeper_(keeper), restore_(std::move(restore)) {
    const auto words = [this](const char* id) { return to_text(workbench_.texts().text(id)); };
    body()->addWidget(new Label(words("trust-restore"), Type::heading));
    body()->addWidget((new Label(words("trust-restore-about"), Type::text, Tone::soft_ink))->wrapped());
    auto* row = new QHBoxLayout;
    auto* button = make_button(tr("Restore from a back-up…"));
    row->addWidget(button);
    row->addStretch();
    body()->addLayout(row);
    if (!restore_ || workbench_.desk().worker().role != Role::prescriber)
        set_reason_disabled(button, tr("Only a prescriber restores."));
    connect(button, &QPushButton::clicked, this, &RestoreCard::choose);
}

void RestoreCard::choose() {
    const QString file =
        QFileDialog::getOpenFileName(this, tr("Which back-up"), to_text(keeper_.kept().folder),
                                     tr("Back-ups (*.evenfall-backup *.evenfall);;All files (*)"));
    if (!file.isEmpty()) offer(to_utf8(file));
}

void RestoreCard::offer(const std::filesystem::path& backup) {
    const auto preview = store_.preview_restore(backup);
    if (!preview) {
        emit failed(preview.faults());
        return;
    }
    if (ask_once(tr("Put this back-up in the place of the present records?"), preview_words(*preview),
                 tr("Restore"), this) &&
        restore_)
        restore_(backup);
}

QString RestoreCard::preview_words(const RestorePreview& preview) const {
    const auto words = [this](const char* id, const Args& args = {}) {
        return to_text(workbench_.texts().text(id, args));
    };
    QStringList lines{words(preview.patients.empty() ? "app-restore-same" : "app-restore-changes")};
    const auto line = [&](const QString& what, const RestorePreview::Count& count) {
        lines << words("app-restore-line", {{"what", to_utf8(what)},
                                            {"gained", std::to_string(count.gained)},
                                            {"lost", std::to_string(count.lost)}});
    };
    for (const auto& [patient, count] : preview.patients) line(name_in_lists(workbench_, patient), count);
    for (const auto& [author, count] : preview.authors)
        line(words("app-restore-by", {{"name", to_utf8(workbench_.worker_name(author))}}), count);
    lines << words("trust-restore-kept");
    return lines.join(u'\n');
}

}  // namespace evenfall::ui
