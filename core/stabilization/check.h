// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diary/between_dose.h"
#include "diary/days.h"
#include "formulary/formulary.h"
#include "model/diary.h"
#include "model/person.h"
#include "model/plan.h"
#include "model/regimen.h"
#include "rules/rules.h"
#include "units/zone.h"

// The check before the first cut: does the dosing permit a start, and what else stands open. Model figures
// are relative levels, never measured concentrations.

namespace evenfall {

/// What the dosing says. Unknown use is `too_little` with the flag `use-unknown` (specialist assessment).
enum class Verdict { too_little, steady, uneven, erratic };
template <>
struct Words<Verdict> {
    static constexpr std::array<WordPair<Verdict>, 4> table{{{Verdict::too_little, "too little to say"},
                                                             {Verdict::steady, "steady"},
                                                             {Verdict::uneven, "uneven"},
                                                             {Verdict::erratic, "erratic"}}};
};

/// What the check rests on.
struct StabilizationInput {
    Diary diary;
    /// In order of day; empty: the usual dose times are found in the diary. `Day{}` as the first day says
    /// "since before the diary, day not known". Later ones may lie after `as_of`.
    std::vector<DatedRegimen> intended;
    std::vector<Product> products;  ///< on hand; proposals are made of these
    RiskScreen risks;
    std::vector<CheckIn> checkins;  ///< answers of calls and visits, for the red-flag and screen gates
    LocalTime as_of{};
    std::optional<Day> judged_from;  ///< first diary day that counts; empty: the whole diary
};

/// Where the intended dose times come from.
enum class DoseTimes { given, found, none };
template <>
struct Words<DoseTimes> {
    static constexpr std::array<WordPair<DoseTimes>, 3> table{
        {{DoseTimes::given, "given"}, {DoseTimes::found, "found"}, {DoseTimes::none, "none"}}};
};

/// What ends the name of an entry that stands for an intended dose without one in the diary:
/// "2026-12-01T08:00 lorazepam 1 mg (not written down)".
inline constexpr std::string_view kNotWrittenDown = " (not written down)";

/// How a diary entry stands to what was intended.
enum class EntryMatch {
    on_time,
    early,      ///< before the dose time by more than the tolerance
    late,       ///< after it by more than the tolerance
    extra,      ///< no dose time was left for it
    unmatched,  ///< not scheduled use, or the day is not judged: described only
    duplicate,  ///< likely written down twice; kept, and left out of the measures
    slip        ///< likely a 1000-fold slip of units: the dose counts, its amount and the day's total do not
};
template <>
struct Words<EntryMatch> {
    static constexpr std::array<WordPair<EntryMatch>, 7> table{{{EntryMatch::on_time, "on time"},
                                                                {EntryMatch::early, "early"},
                                                                {EntryMatch::late, "late"},
                                                                {EntryMatch::extra, "extra"},
                                                                {EntryMatch::unmatched, "not matched"},
                                                                {EntryMatch::duplicate, "likely duplicate"},
                                                                {EntryMatch::slip, "likely unit slip"}}};
};

/// One dose in a row of the actogram.
struct RowEntry {
    std::size_t intake = 0;  ///< index into the diary's intake
    EntryMatch match = EntryMatch::unmatched;
    std::optional<std::size_t> intended;  ///< index into the row's intended doses
    int minutes_late = 0;                 ///< negative: early; where there is an intended dose
    bool other_amount = false;            ///< not the amount intended at that time
};

/// One diary day: a row of the actogram.
struct DayRow {
    Day day{};
    DayKnown known = DayKnown::unknown;
    bool judged = false;              ///< counts in the measures
    std::vector<DoseTime> intended;   ///< in order from the day's beginning
    std::vector<RowEntry> entries;    ///< in order of time
    std::vector<std::size_t> missed;  ///< indices into `intended`
    bool as_intended = false;         ///< the intended number of each agent was taken
    bool total_known = true;          ///< false where an entry is a likely slip: the total is left out
    double total = 0;                 ///< taken, in `StabilizationCheck::unit`
    double intended_total = 0;
    std::vector<std::size_t> ratings;  ///< indices into the diary's ratings
};

/// A rating with the hours since the last dose, for the plot of symptoms against the interval.
struct RatingPoint {
    std::size_t rating = 0;
    double hours_since_dose = 0;
    double interval_h = 0;  ///< between the doses before and after it
    bool late = false;      ///< in the second half of that interval
};

/// How one intended dose time was kept.
struct DoseTimeKept {
    std::string drug;
    ClockTime at;
    Dose amount;
    int days = 0, taken = 0, missed = 0, late = 0, early = 0;
    std::optional<ClockTime> usual;  ///< circular mean of when it was taken; empty: no typical time
    double sd_minutes = 0;           ///< circular standard deviation
};

/// The measures, over the judged days. Shares are 0 to 1.
struct Measures {
    int recorded_days = 0, unknown_days = 0;
    int days_as_intended = 0;
    int doses = 0, intended_doses = 0, missed = 0, extra = 0, late = 0, early = 0;
    int left_out = 0;                      ///< likely slips and duplicates
    int for_symptoms = 0, forgot = 0;      ///< doses whose diary says why
    int days_with = 0, days_without = 0;   ///< a dose, of the recorded days
    double mean_total = 0;                 ///< of the recorded days, in `StabilizationCheck::unit`
    double total_cv = 0;                   ///< sample standard deviation ÷ mean
    double total_off_intended = 0;         ///< root mean square of (taken − intended) ÷ intended, by day
    double trend_per_week = 0;             ///< least-squares slope of the daily total
    double largest_change = 0;             ///< between two recorded days that follow each other
    std::optional<Day> largest_change_on;  ///< the second of the two
    double interval_mean_h = 0, interval_cv = 0, longest_interval_h = 0;
    int long_gaps = 0;  ///< over 1.5 × the intended interval
    std::vector<DoseTimeKept> dose_times;
};

/// The shape of a modelled day, as percent of the average of the intended regimen at steady state.
struct LevelShape {
    double peak = 0, trough = 0, average = 0;
    double fluctuation = 0;  ///< (peak − trough) ÷ average, a share
};

/// The modelled 24 hours from the diary day's beginning, percent of the intended (or found) regimen's average
/// at steady state. Several agents are added as diazepam-equivalent.
struct LevelBand {
    std::vector<double> hours;              ///< from the diary day's beginning, 0 to 24
    std::vector<double> low, middle, high;  ///< 10th, 50th and 90th percentile over the judged days, as taken
    std::vector<double> intended;
    LevelShape as_taken;  ///< medians over the judged days of each day's peak, trough, average
    LevelShape as_intended;
    std::vector<std::string> not_modelled;  ///< agents without constants in the formulary
};

/// A gate beside the verdict. Its sentence is the rule's; an unmet gate can be overridden with a reason.
struct Gate {
    std::string gate;  ///< rule id: "gate-unchanged", …
    bool met = false;
    Flag says;
};

enum class ProposalKind { spacing, crossover };
template <>
struct Words<ProposalKind> {
    static constexpr std::array<WordPair<ProposalKind>, 2> table{
        {{ProposalKind::spacing, "spacing"}, {ProposalKind::crossover, "crossover"}}};
};

/// One stage of a staged crossover: what is taken from `starts_after_days` on.
struct ProposedStage {
    int starts_after_days = 0;
    std::vector<PlannedDose> doses;
    double average = 0;  ///< modelled 24 h average on the stage's last day, percent of today's
};

/// A way to steadier levels that keeps the daily amount (of the agent, or as usual diazepam-equivalent).
struct Proposal {
    ProposalKind kind = ProposalKind::spacing;
    std::string drug;                   ///< the agent that is spread, or crossed to
    std::vector<PlannedDose> doses;     ///< the new day: for a crossover the last stage's
    LevelShape today;                   ///< the intended (or found) regimen at steady state
    LevelShape proposed;                ///< the same scale: 100 is today's average
    std::vector<ProposedStage> stages;  ///< crossover only
    std::vector<Flag> says;             ///< what it rests on and what speaks against it
};

/// Everything that the check says.
struct StabilizationCheck {
    Verdict verdict = Verdict::too_little;
    Use use = Use::scheduled;
    DoseTimes dose_times = DoseTimes::none;
    int days = 0;      ///< recorded days that were judged
    std::string unit;  ///< of daily totals: "mg" of one agent, or "mg diazepam" of several
    std::vector<DatedRegimen> held_against;  ///< the intended regimens, or the one found
    Measures measures;
    std::vector<Flag> flags;  ///< patterns and limits, the weightiest first; each with its entries
    BetweenDose between_dose;
    std::vector<Gate> readiness;
    std::vector<Proposal> proposals;
    std::vector<Flag> no_proposal;  ///< why nothing is proposed, where nothing is
    std::vector<DayRow> rows;
    std::vector<RatingPoint> ratings;  ///< those that could be placed between two doses
    LevelBand levels;

    /// Whether the verdict lets a start be thought of and every gate is met.
    bool ready() const;
};

/// Judges a diary. Nothing is refused: what cannot be judged is said in flags. `zone` gives the hours between
/// doses on days of 23 and 25 hours.
StabilizationCheck check_stabilization(const StabilizationInput& input, const Formulary& formulary,
                                       const Rules& rules, const Zone& zone);

}  // namespace evenfall
