// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/take_back.h"

#include <QLineEdit>
#include <QPushButton>
#include <QRadioButton>

#include "controls/buttons.h"
#include "controls/form.h"
#include "diary/diary_words.h"
#include "diary/sheet.h"
#include "exchange/diary_import.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

/// Finds `chosen` in the entries and writes the rest of its entry again.
template <class Noted, class T>
std::optional<WrittenEntry> find_written(const std::vector<Entry<Noted>>& entries, const T& chosen) {
    for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry) {
        Noted rest = entry->value;
        const auto found = std::find_if(rest.entries.begin(), rest.entries.end(),
                                        [&](const T& each) { return same_entry(each, chosen); });
        if (found == rest.entries.end()) continue;
        rest.entries.erase(found);
        WrittenEntry written{entry->id, entry->stamp, {}, entry->value.entries.size(), {}};
        if (!(rest == Noted{})) written.rest.emplace_back(std::move(rest));
        return written;
    }
    return std::nullopt;
}

}  // namespace

std::optional<WrittenEntry> written_entry(const PatientRecord& record, const Intake& chosen) {
    auto written = find_written(record.intake, chosen);
    if (written)
        written->chosen =
            QObject::tr("%1, %2").arg(text_with_weekday(day_of(chosen.taken_at)), entry_words(chosen));
    return written;
}

std::optional<WrittenEntry> written_entry(const PatientRecord& record, const Rating& chosen) {
    auto written = find_written(record.symptoms, chosen);
    if (written)
        written->chosen = QObject::tr("%1, %2: %3 %4")
                              .arg(text_with_weekday(day_of(chosen.rated_at)),
                                   text_of(clock_of(chosen.rated_at)), symptom_name(chosen.item))
                              .arg(chosen.severity);
    return written;
}

TakeBackDialog::TakeBackDialog(WrittenEntry entry, const QString& author, QWidget* parent)
    : QuietDialog(tr("Take an entry back"),
                  tr("Written by %1, %2. It stays in the history as taken back, with your reason; it no "
                     "longer counts.")
                      .arg(author, text_of_minute(entry.stamp.at)),
                  parent),
      entry_(std::move(entry)),
      one_(new QRadioButton(tr("Only this: %1").arg(entry_.chosen))),
      all_(new QRadioButton(tr("All %1 that were written with it").arg(entry_.count))),
      reason_(make_line(tr("Reason"), tr("Reason: read wrongly on the phone"))) {
    one_->setChecked(true);
    all_->setVisible(entry_.count > 1);
    body()->addWidget(one_);
    body()->addWidget(all_);
    body()->addWidget(reason_);
    commit_ = set_buttons(tr("Take it back"), tr("Leave it"));
    const auto judge = [this] {
        set_reason_disabled(commit_,
                            reason_->text().trimmed().isEmpty() ? tr("Write the reason first.") : QString());
    };
    connect(reason_, &QLineEdit::textChanged, this, judge);
    judge();
    reason_->setFocus();
}

std::vector<Change> TakeBackDialog::changes() const {
    std::vector<Change> changes{EntryAmended{entry_.event, to_utf8(reason_->text().trimmed())}};
    if (one_->isChecked()) changes.insert(changes.end(), entry_.rest.begin(), entry_.rest.end());
    return changes;
}

}  // namespace evenfall::ui
