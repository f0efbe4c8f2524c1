// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/check.h"

#include <algorithm>

#include "stabilization/day_levels.h"
#include "stabilization/patterns.h"
#include "stabilization/proposals.h"
#include "stabilization/ratings.h"
#include "stabilization/readiness.h"
#include "stabilization/verdict.h"

namespace evenfall {

namespace stabilization {

namespace {

/// What the reader must know of how the diary was judged.
void add_notes(const Context& context, const Dosing& dosing, const Measures& measures,
               std::vector<Flag>& flags) {
    if (dosing.source == DoseTimes::found) flags.push_back({"dose-times-found", {}, {}});
    if (dosing.found_before_given) flags.push_back({"dose-times-found-before", {}, {}});
    const int better = context.rules.whole("diary-days", "better_days");
    const bool enough = measures.recorded_days >= context.rules.whole("diary-days", "least_days");
    if (enough && measures.recorded_days < better)
        flags.push_back({"diary-days", {{"days", std::to_string(measures.recorded_days)}}, {}});
    if (measures.unknown_days > 0)
        flags.push_back({"days-unknown", {{"count", std::to_string(measures.unknown_days)}}, {}});
}

/// A hypnotic taken within waking hours.
void add_daytime_hypnotics(const Context& context, const Dosing& dosing, std::vector<Finding>& found) {
    const int first = context.rules.whole("night-by-day", "from_h") * 60;
    const int last = context.rules.whole("night-by-day", "to_h") * 60;
    std::vector<std::size_t> entries;
    for (const DayRow& row : dosing.rows) {
        for (const RowEntry& entry : row.entries) {
            const Intake& intake = context.intake(entry.intake);
            const Drug* drug = context.formulary.find(intake.drug);
            const bool nightly =
                context.input.diary.use == Use::night_only || (drug != nullptr && drug->hypnotic);
            const int at = clock_of(intake.taken_at).minutes;
            if (nightly && row.judged && counts(entry) && at >= first && at < last)
                entries.push_back(entry.intake);
        }
    }
    if (entries.empty()) return;
    found.push_back(
        {flag_of(context, "night-by-day", {{"count", std::to_string(entries.size())}}, entries), true});
}

std::vector<Finding> find_all(const Context& context, const Dosing& dosing, const Measures& measures,
                              const std::vector<Interval>& between) {
    std::vector<Finding> found;
    const Use use = context.input.diary.use;
    if (use == Use::scheduled) found = patterns(context, dosing, measures);
    if (use != Use::unknown) add_daytime_hypnotics(context, dosing, found);
    auto more = counted(context, dosing, measures, between);
    std::move(more.begin(), more.end(), std::back_inserter(found));
    std::stable_sort(found.begin(), found.end(), [](const Finding& a, const Finding& b) {
        return a.forbids_steady && !b.forbids_steady;
    });
    return found;
}

StabilizationCheck run(const Context& context) {
    StabilizationCheck check;
    check.use = context.input.diary.use;
    Dosing dosing = match_diary(context);
    const auto between = intervals(context, dosing);
    check.measures = measure(context, dosing, between);
    const auto found = find_all(context, dosing, check.measures, between);
    check.verdict = judge(context, dosing, check.measures, found, check.flags);
    for (const Finding& each : found) check.flags.push_back(each.flag);
    check.ratings = rating_points(context, dosing);
    check.between_dose = between_dose_of(context, check.ratings);
    check.flags.push_back(between_dose_flag(context, check.between_dose, check.ratings));
    add_notes(context, dosing, check.measures, check.flags);
    check.levels = level_band(context, dosing, check.measures);
    check.readiness = readiness(context, dosing);
    Proposals proposals = propose(context, dosing, check.between_dose);
    check.proposals = std::move(proposals.proposals);
    check.no_proposal = std::move(proposals.none);
    check.days = check.measures.recorded_days;
    check.dose_times = dosing.source;
    check.unit = dosing.unit;
    check.held_against = std::move(dosing.held_against);
    check.rows = std::move(dosing.rows);
    return check;
}

}  // namespace

}  // namespace stabilization

bool StabilizationCheck::ready() const {
    return verdict == Verdict::steady &&
           std::all_of(readiness.begin(), readiness.end(), [](const Gate& gate) { return gate.met; });
}

StabilizationCheck check_stabilization(const StabilizationInput& input, const Formulary& formulary,
                                       const Rules& rules, const Zone& zone) {
    return stabilization::run({input, formulary, rules, zone, diary_day_begins(rules)});
}

}  // namespace evenfall
