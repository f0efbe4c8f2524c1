// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "controls/messages.h"
#include "record/patient_record.h"

class QLineEdit;
class QRadioButton;

namespace evenfall::ui {

/// A written entry of the diary in which something chosen stands.
struct WrittenEntry {
    EventId event;
    Stamp stamp;
    QString chosen;            ///< the one thing, in words
    std::size_t count = 0;     ///< of things written with that entry
    std::vector<Change> rest;  ///< the entry again without the one thing; empty where nothing else was in it
};

/// Where a dose or a rating of a record's diary was written down, the newest writing first.
std::optional<WrittenEntry> written_entry(const PatientRecord& record, const Intake& chosen);
std::optional<WrittenEntry> written_entry(const PatientRecord& record, const Rating& chosen);

/// Asks for the reason of taking an entry back: the one thing alone, or all that was written with it.
class TakeBackDialog : public QuietDialog {
    Q_OBJECT

  public:
    TakeBackDialog(WrittenEntry entry, const QString& author, QWidget* parent = nullptr);
    QLineEdit* reason() const { return reason_; }
    QRadioButton* everything() const { return all_; }
    QPushButton* commit() const { return commit_; }
    /// The amendment, and what of the entry is written again.
    std::vector<Change> changes() const;

  private:
    WrittenEntry entry_;
    QRadioButton* one_;
    QRadioButton* all_;
    QLineEdit* reason_;
    QPushButton* commit_;
};

}  // namespace evenfall::ui
