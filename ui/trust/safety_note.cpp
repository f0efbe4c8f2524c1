// SPDX-License-Identifier: GPL-3.0-or-later
#include "trust/safety_note.h"

#include "controls/buttons.h"
#include "theme/icons.h"
#include "trust/backup_keeper.h"

namespace evenfall::ui {

SafetyNote::SafetyNote(Workbench& workbench, BackupKeeper& keeper, QWidget* parent)
    : QPushButton(parent), workbench_(workbench), keeper_(keeper) {
    setObjectName(QStringLiteral("safety-note"));
    set_button_kind(this, ButtonKind::plain);
    setIcon(ui::icon(QStringLiteral("safe"), Tone::presses));
    connect(&keeper_, &BackupKeeper::looked, this, &SafetyNote::refresh);
    connect(&keeper_, &BackupKeeper::finished, this, &SafetyNote::refresh);
    connect(&keeper_, &BackupKeeper::failed, this, &SafetyNote::refresh);
    connect(&workbench_, &Workbench::clinic_changed, this, &SafetyNote::refresh);
    refresh();
}

void SafetyNote::refresh() {
    const std::vector<Flag> reminders = keeper_.reminders();
    setVisible(!reminders.empty());
    if (reminders.empty()) return;
    QStringList sentences;
    for (const Flag& flag : reminders) sentences << workbench_.sentence(flag);
    setText(tr("%1 (Ctrl+B)").arg(workbench_.caption(reminders.front())));
    setToolTip(sentences.join(u'\n'));
    setAccessibleName(text());
    setAccessibleDescription(sentences.join(u' '));
}

}  // namespace evenfall::ui
