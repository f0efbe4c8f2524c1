// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/dosing.h"

#include <algorithm>
#include <cstdlib>
#include <set>

#include "diary/assignment.h"
#include "stabilization/intended.h"

namespace evenfall::stabilization {

namespace {

std::set<std::string> agents_of_row(const Context& context, const DayRow& row) {
    std::set<std::string> agents;
    for (const DoseTime& dose : row.intended) agents.insert(dose.drug);
    for (const RowEntry& entry : row.entries) agents.insert(context.intake(entry.intake).drug);
    return agents;
}

/// How far from its time a dose may be and still be that dose: a share of the mean interval.
int match_window(const Rules& rules, std::size_t doses_a_day) {
    const double share = rules.number("dose-time-window", "share_percent") / 100;
    const int most = rules.whole("dose-time-window", "most_minutes");
    const double interval = 1440.0 / static_cast<double>(std::max<std::size_t>(doses_a_day, 1));
    return std::min(most, static_cast<int>(share * interval));
}

EntryMatch timing(int minutes_late, int tolerance) {
    if (minutes_late > tolerance) return EntryMatch::late;
    return minutes_late < -tolerance ? EntryMatch::early : EntryMatch::on_time;
}

/// Says how an entry stands to the dose time that it was matched to. A likely slip stays one: the dose
/// counts, but nothing is said of its amount.
void place(const Context& context, const DayRow& row, RowEntry& entry, std::optional<std::size_t> dose) {
    const Intake& intake = context.intake(entry.intake);
    const bool slip = entry.match == EntryMatch::slip;
    if (!slip) entry.match = EntryMatch::extra;
    if (!dose) return;
    const DoseTime& intended = row.intended[*dose];
    entry.intended = dose;
    entry.minutes_late = minutes_into_day(clock_of(intake.taken_at), context.begins) -
                         minutes_into_day(intended.at, context.begins);
    if (slip) return;
    entry.match = timing(entry.minutes_late, context.rules.whole("late-dose", "minutes"));
    entry.other_amount = intake.amount != intended.amount;
}

/// Matches the entries of one agent on one day.
void match_agent(const Context& context, DayRow& row, const std::string& drug) {
    std::vector<std::size_t> entries, doses;
    std::vector<int> entry_minutes, dose_minutes;
    for (std::size_t e = 0; e < row.entries.size(); ++e) {
        const Intake& intake = context.intake(row.entries[e].intake);
        if (intake.drug != drug) continue;
        entries.push_back(e);
        entry_minutes.push_back(minutes_into_day(clock_of(intake.taken_at), context.begins));
    }
    for (std::size_t d = 0; d < row.intended.size(); ++d) {
        if (row.intended[d].drug != drug) continue;
        doses.push_back(d);
        dose_minutes.push_back(minutes_into_day(row.intended[d].at, context.begins));
    }
    const Assignment found = assign(entry_minutes, dose_minutes, match_window(context.rules, doses.size()));
    std::vector<bool> taken(doses.size(), false);
    for (std::size_t e = 0; e < entries.size(); ++e) {
        std::optional<std::size_t> dose;
        if (const auto at = found.of_entry[e]) {
            dose = doses[*at];
            taken[*at] = true;
        }
        place(context, row, row.entries[entries[e]], dose);
    }
    for (std::size_t d = 0; d < doses.size(); ++d)
        if (!taken[d] && row.known == DayKnown::recorded) row.missed.push_back(doses[d]);
}

bool is_beside(const Context& context, const RowEntry& a, const RowEntry& b) {
    const auto limit = std::chrono::minutes(context.rules.whole("likely-duplicate", "minutes"));
    const Intake &first = context.intake(a.intake), &second = context.intake(b.intake);
    return first.drug == second.drug && std::chrono::abs(first.taken_at - second.taken_at) <= limit;
}

/// A dose written down piece by piece is one dose: entries beside a matched one that add up to exactly what
/// was intended become part of it.
void join_parts(const Context& context, DayRow& row) {
    for (RowEntry& whole : row.entries) {
        if (!whole.other_amount) continue;
        Dose sum = context.intake(whole.intake).amount;
        std::vector<RowEntry*> parts;
        for (RowEntry& entry : row.entries) {
            if (entry.match != EntryMatch::extra || !is_beside(context, entry, whole)) continue;
            parts.push_back(&entry);
            sum += context.intake(entry.intake).amount;
        }
        if (parts.empty() || sum != row.intended[*whole.intended].amount) continue;
        whole.other_amount = false;
        for (RowEntry* part : parts) {
            const std::size_t intake = part->intake;
            *part = whole;
            part->intake = intake;
        }
    }
}

bool written_twice(const Context& context, const DayRow& row, const RowEntry& entry) {
    return std::any_of(row.entries.begin(), row.entries.end(), [&](const RowEntry& other) {
        return &other != &entry && counts(other) && other.match != EntryMatch::extra &&
               is_beside(context, other, entry) &&
               context.intake(other.intake).amount == context.intake(entry.intake).amount;
    });
}

bool missed_one(const DayRow& row, const std::string& drug, bool last_only) {
    std::optional<std::size_t> last;
    for (std::size_t d = 0; d < row.intended.size(); ++d)
        if (row.intended[d].drug == drug) last = d;
    return std::any_of(row.missed.begin(), row.missed.end(), [&](std::size_t d) {
        return row.intended[d].drug == drug && (!last_only || d == last);
    });
}

/// An extra entry beside an equal one is likely written twice, unless a dose just before was missed: then it
/// may well have been doubled to catch up.
void mark_duplicates(const Context& context, DayRow& row, const DayRow* before) {
    for (RowEntry& entry : row.entries) {
        const std::string& drug = context.intake(entry.intake).drug;
        if (entry.match != EntryMatch::extra || !written_twice(context, row, entry)) continue;
        if (missed_one(row, drug, false) || (before != nullptr && missed_one(*before, drug, true))) continue;
        entry.match = EntryMatch::duplicate;
    }
}

/// Without dose times to match, of equal entries within minutes the later one is likely written twice.
void mark_unmatched_duplicates(const Context& context, DayRow& row) {
    for (std::size_t e = 1; e < row.entries.size(); ++e) {
        RowEntry& entry = row.entries[e];
        if (!counts(entry)) continue;
        const bool twice =
            std::any_of(row.entries.begin(), row.entries.begin() + static_cast<std::ptrdiff_t>(e),
                        [&](const RowEntry& other) {
                            return counts(other) && is_beside(context, other, entry) &&
                                   context.intake(other.intake).amount == context.intake(entry.intake).amount;
                        });
        if (twice) entry.match = EntryMatch::duplicate;
    }
}

bool taken_as_intended(const Context& context, const DayRow& row) {
    const auto counted = [](const RowEntry& entry) { return entry.match != EntryMatch::duplicate; };
    if (context.input.diary.use == Use::night_only) {
        const auto taken = std::count_if(row.entries.begin(), row.entries.end(), counted);
        return static_cast<std::size_t>(taken) == row.intended.size();
    }
    const auto extra = [](const RowEntry& entry) { return entry.match == EntryMatch::extra; };
    return row.missed.empty() && std::none_of(row.entries.begin(), row.entries.end(), extra);
}

void choose_unit(const Context& context, Dosing& dosing) {
    std::set<std::string> agents;
    for (const DatedRegimen& each : dosing.held_against)
        for (const DoseTime& dose : each.regimen.doses) agents.insert(dose.drug);
    for (const DayRow& row : dosing.rows)
        for (const RowEntry& entry : row.entries) agents.insert(context.intake(entry.intake).drug);
    dosing.unit = agents.size() > 1 ? "mg diazepam" : "mg";
    for (const std::string& agent : agents) {
        const Drug* drug = context.formulary.find(agent);
        if (drug == nullptr) dosing.unknown_agents.push_back(agent);
        const bool convertible = drug != nullptr && drug->equivalence;
        dosing.factor[agent] = agents.size() == 1 ? 1 : convertible ? 10 / drug->equivalence->usual.mg() : 0;
    }
}

void add_totals(const Context& context, Dosing& dosing) {
    for (DayRow& row : dosing.rows) {
        for (const RowEntry& entry : row.entries) {
            const Intake& intake = context.intake(entry.intake);
            if (entry.match == EntryMatch::slip) row.total_known = false;
            if (counts(entry)) row.total += dosing.factor[intake.drug] * intake.amount.mg();
        }
        for (const DoseTime& dose : row.intended)
            row.intended_total += dosing.factor[dose.drug] * dose.amount.mg();
    }
}

DayRow row_of(const Context& context, const DiaryDay& day, const Regimen* regimen,
              const std::vector<bool>& slips) {
    DayRow row;
    row.day = day.day;
    row.known = day.known;
    row.judged = day.known == DayKnown::recorded && context.input.diary.use != Use::unknown &&
                 (!context.input.judged_from || day.day >= *context.input.judged_from);
    row.ratings = day.ratings;
    if (regimen != nullptr) row.intended = regimen->doses;
    std::stable_sort(row.intended.begin(), row.intended.end(), [&](const DoseTime& a, const DoseTime& b) {
        return minutes_into_day(a.at, context.begins) < minutes_into_day(b.at, context.begins);
    });
    for (const auto i : day.intake) {
        RowEntry entry;
        entry.intake = i;
        if (slips[i]) entry.match = EntryMatch::slip;
        row.entries.push_back(entry);
    }
    return row;
}

}  // namespace

bool is_later_part(const DayRow& row, std::size_t entry) {
    const auto& dose = row.entries[entry].intended;
    const auto end = row.entries.begin() + static_cast<std::ptrdiff_t>(entry);
    return dose &&
           std::any_of(row.entries.begin(), end, [&](const RowEntry& each) { return each.intended == dose; });
}

const Regimen* regimen_on(const std::vector<DatedRegimen>& regimens, Day day) {
    const Regimen* in_force = nullptr;
    for (const DatedRegimen& each : regimens)
        if (each.from <= day) in_force = &each.regimen;
    return in_force;
}

Dosing match_diary(const Context& context) {
    Dosing dosing;
    const Use use = context.input.diary.use;
    const auto days = diary_days(context.input.diary, context.input.as_of, context.begins);
    const auto slips = likely_slips(context);
    if (use == Use::scheduled || use == Use::night_only) {
        bool found = false;
        dosing.held_against = intended_regimens(context, days, slips, found);
        const bool given = !context.input.intended.empty();
        dosing.source = given ? DoseTimes::given : found ? DoseTimes::found : DoseTimes::none;
        dosing.found_before_given = given && found;
    }
    for (const DiaryDay& day : days) {
        DayRow row = row_of(context, day, regimen_on(dosing.held_against, day.day), slips);
        if (use == Use::scheduled) {
            for (const std::string& drug : agents_of_row(context, row)) match_agent(context, row, drug);
            join_parts(context, row);
            mark_duplicates(context, row, dosing.rows.empty() ? nullptr : &dosing.rows.back());
        } else {
            mark_unmatched_duplicates(context, row);
        }
        row.as_intended = dosing.source != DoseTimes::none && taken_as_intended(context, row);
        dosing.rows.push_back(std::move(row));
    }
    choose_unit(context, dosing);
    add_totals(context, dosing);
    return dosing;
}

}  // namespace evenfall::stabilization
