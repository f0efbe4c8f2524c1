// SPDX-License-Identifier: GPL-3.0-or-later
// What Enter does with the day: the fields are checked, what is new is collected, and saved.
#include <QCheckBox>
#include <QLineEdit>
#include <algorithm>

#include "controls/label.h"
#include "controls/typed_field.h"
#include "diary/day_entry.h"
#include "diary/days.h"
#include "diary/diary_words.h"
#include "diary/dose_entry.h"
#include "diary/score_cell.h"
#include "exchange/diary_import.h"
#include "shell/workbench.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

template <class T>
bool holds(const std::vector<T>& entries, const T& entry) {
    return std::ranges::any_of(entries, [&](const T& each) { return same_entry(each, entry); });
}

}  // namespace

bool DayEntry::fields_are_right() {
    bool right = day_->check();
    for (DoseEntry* dose : doses_) right = dose->check() && right;
    const bool scored =
        std::ranges::any_of(scores_, [](const ScoreCell* cell) { return cell->score().has_value(); });
    if (scored && !rated_at_->time()) {
        rated_at_->set_required(true);
        right = rated_at_->check() && right;
        rated_at_->set_required(false);
        rated_at_->edit()->setFocus();
    }
    if (!right) say(tr("Something above is not right yet; nothing was saved."), true);
    return right;
}

std::vector<Change> DayEntry::collect() {
    const Day day = *day_->day();
    IntakeNoted taken;
    SymptomsNoted rated;
    for (const DoseEntry* dose : doses_) {
        if (!dose->is_taken()) continue;
        Intake entry = dose->intake(day, begins_);
        if (!holds(diary_.intake, entry)) taken.entries.push_back(std::move(entry));
    }
    if (nothing_->isChecked() && taken.entries.empty()) taken.kept_empty.push_back(day);
    for (const ScoreCell* cell : scores_) {
        if (!cell->score()) continue;
        Rating rating{time_in_diary_day(day, *rated_at_->time(), begins_), cell->item(), *cell->score()};
        if (!holds(diary_.ratings, rating)) rated.entries.push_back(std::move(rating));
    }
    std::ranges::stable_sort(taken.entries, {}, &Intake::taken_at);
    std::vector<Change> changes;
    if (!taken.entries.empty() || !taken.kept_empty.empty()) changes.emplace_back(std::move(taken));
    if (!rated.entries.empty()) changes.emplace_back(std::move(rated));
    return changes;
}

bool DayEntry::commit() {
    if (!fields_are_right()) return false;
    const Day day = *day_->day();
    const bool any_dose = std::ranges::any_of(doses_, &DoseEntry::is_taken);
    if (nothing_->isChecked() && any_dose) {
        say(tr("“Nothing was taken” is ticked, and so are doses. Untick the one or the other."), true);
        return false;
    }
    if (day > running_day()) {
        say(tr("This day lies ahead. A diary says what was taken."), true);
        return false;
    }
    std::vector<Change> changes = collect();
    for (const Change& change : changes)
        if (const auto* taken = std::get_if<IntakeNoted>(&change))
            for (const Intake& entry : taken->entries)
                if (entry.taken_at > workbench_.now()) {
                    say(tr("%1 lies ahead. A diary says what was taken.").arg(entry_words(entry)), true);
                    return false;
                }
    if (changes.empty()) {
        say(tr("There is nothing new to save: press P for the planned doses, add one, or tick “Nothing was "
               "taken”."),
            true);
        return false;
    }
    if (!workbench_.carry_out(std::move(changes))) return false;
    show_day();
    say(tr("Saved for %1. Another day: type it, or arrow down for the day before.")
            .arg(text_with_weekday(day)),
        false);
    day_->edit()->setFocus();
    day_->edit()->selectAll();
    return true;
}

}  // namespace evenfall::ui
