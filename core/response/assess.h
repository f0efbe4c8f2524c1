// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "diary/between_dose.h"
#include "response/response.h"

// The parts of the assessment, in the order in which they are made.

namespace evenfall::response {

/// What every part needs.
struct Context {
    const ResponseInput& input;
    const Formulary& formulary;
    const Rules& rules;
    Day today() const { return day_of(input.as_of); }
};

/// A step is a fall of the daily dose; a change that is none (hold, re-spacing, crossover, rise) makes no
/// step.
struct StepTaken {
    DatedRegimen before, after;
    Day until{};  ///< the day after its last, or after today
    Share cut;
    int number = 0;
};
std::vector<StepTaken> steps_taken(const Context& context);

/// The regimen in force on a day, as the dated regimens say.
const Regimen& regimen_on(const ResponseInput& input, Day day);

/// Days until a cut of this step can be expected to be noticed, by the slowest half-life of its agents.
int lag_of(const Context& context, const StepTaken& step);
/// Days before the response to this step is judged: for the first, the longer wait of a test reduction.
int wait_of(const Context& context, const StepTaken& step);

/// Where burden is looked at. The days before do not reach into the days judged after the step before
/// (`earlier_after_ends`) unless too few would be left; `apart` says whether they do not.
Windows windows_of(const Context& context, const StepTaken& step, std::optional<Day> earlier_after_ends,
                   bool& apart);

/// The severity of each item before the taper.
std::map<std::string, double> baseline_of(const Context& context, const ItemDays& days,
                                          const std::vector<StepTaken>& steps, bool& found);

/// Ratings placed between two doses, in the first half of the interval only.
std::vector<Rating> early_ratings(const Context& context);
/// Whether symptoms rise late between doses, over the ratings of these days.
BetweenDose between_doses_in(const Context& context, const Days& days);

/// Tells a rise apart, and says by what.
void tell_apart(const Context& context, const StepTaken& step, const Windows& windows,
                const std::map<std::string, double>& baseline, const ItemDays& early, StepResponse& response);

/// A danger that was answered with yes, rated above 0, or raised by a scale; it stands until a later call
/// says no.
struct RedFlags {
    std::vector<Flag> emergencies, same_day, unanswered;
    bool any() const { return !emergencies.empty() || !same_day.empty(); }
    bool ask_prescriber = false;  ///< inner restlessness or suicidal thinking
};
RedFlags red_flags_of(const Context& context);

/// Days of the last week on which doses were missed or doubled, as entries of a flag; empty where there are
/// none.
std::optional<Flag> doses_off(const Context& context);

/// Scales whose latest total is worse than the one before by the rule's points.
std::vector<Flag> scales_worse(const Context& context);

/// Suggestions from everything else in the view.
void suggest(const Context& context, const std::vector<StepTaken>& steps, const RedFlags& red,
             ResponseView& view);

}  // namespace evenfall::response
