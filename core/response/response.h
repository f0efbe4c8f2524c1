// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "formulary/formulary.h"
#include "model/diary.h"
#include "model/person.h"
#include "model/plan.h"
#include "model/regimen.h"
#include "response/burden.h"
#include "response/scales.h"
#include "response/sensitivity.h"
#include "rules/rules.h"

// How a person bears each step, and what the rules suggest. A suggestion is for a clinician to judge: none
// says "go on", and none ever says to go back up.

namespace evenfall {

/// What the assessment rests on.
struct ResponseInput {
    Regimen before;  ///< what was taken before the first step
    std::vector<DatedRegimen>
        taken;                      ///< what was in force from each day on, in order; an empty regimen is OFF
    Diary diary;                    ///< ratings, and doses taken
    std::vector<CheckIn> checkins;  ///< in any order
    std::vector<ScaleScore> scales;  ///< in any order
    std::optional<Baseline>
        baseline;  ///< before the taper; empty: the ratings before the first step stand for it
    Share target = Share::percent(10);  ///< of the plan in force
    Share cap = Share::percent(10);     ///< of the plan in force; nothing proposed is above it
    int days_per_step = 14;
    LocalTime as_of{};
};

/// What a rise after a step looks like, as far as data allow. `none` where there is no clear rise.
enum class ToldApart { none, withdrawal, recurrence, between_doses };
template <>
struct Words<ToldApart> {
    static constexpr std::array<WordPair<ToldApart>, 4> table{{{ToldApart::none, "none"},
                                                               {ToldApart::withdrawal, "withdrawal"},
                                                               {ToldApart::recurrence, "recurrence"},
                                                               {ToldApart::between_doses, "between doses"}}};
};

/// A step that was taken, and how burden went since.
struct StepResponse {
    int number = 0;  ///< 1 is the first reduction
    Day starts{};
    int days = 0;  ///< on this dose until the next step, or until now
    Share cut;     ///< of the daily dose before it: of the agent, or of the diazepam-equivalent of several
    bool off = false;
    int lag_days = 0;                    ///< days until the cut can be expected to be noticed
    std::optional<response::Rise> rise;  ///< empty: too few ratings to say
    bool clear = false;   ///< burden stood clearly above the days before, in the first days or the latest
    bool settled = true;  ///< the latest days are not clearly above the days before
    bool apart = true;    ///< its windows share no day with those of the step before
    ToldApart told_apart = ToldApart::none;
    std::vector<Flag> says;  ///< what told it apart, or why it cannot be said
};

/// What may be suggested, the most pressing first.
enum class Act {
    emergency,
    call_today,
    hold,
    contact_again,
    look_at_spacing,
    smaller_cut,
    later_cut,
    larger_cut,
    eligible_for_review
};
template <>
struct Words<Act> {
    static constexpr std::array<WordPair<Act>, 9> table{
        {{Act::emergency, "emergency"},
         {Act::call_today, "call today"},
         {Act::hold, "hold"},
         {Act::contact_again, "contact again"},
         {Act::look_at_spacing, "look at spacing"},
         {Act::smaller_cut, "smaller cut"},
         {Act::later_cut, "later cut"},
         {Act::larger_cut, "larger cut within the cap"},
         {Act::eligible_for_review, "eligible for review of the next cut"}}};
};

enum class ResponseUrgency { emergency, today, next_visit, routine };
template <>
struct Words<ResponseUrgency> {
    static constexpr std::array<WordPair<ResponseUrgency>, 4> table{
        {{ResponseUrgency::emergency, "emergency"},
         {ResponseUrgency::today, "today"},
         {ResponseUrgency::next_visit, "next visit"},
         {ResponseUrgency::routine, "routine"}}};
};

struct Suggestion {
    Act act = Act::contact_again;
    ResponseUrgency urgency = ResponseUrgency::routine;
    std::vector<Flag> because;  ///< never empty

    bool operator==(const Suggestion&) const = default;
};

/// Everything that the Response part says.
struct ResponseView {
    std::vector<Suggestion> suggestions;  ///< the most urgent first; never empty
    std::vector<Flag> red_flags;          ///< that stand now, from calls, ratings and scales
    /// The ways open to a prescriber, each with its cost, where inner restlessness, suicidal thinking or
    /// symptoms that cannot be borne ask for a decision. They are laid out, not suggested.
    std::vector<Flag> decision;
    std::vector<StepResponse> steps;
    std::map<std::string, double> baseline;  ///< severity by item
    bool baseline_found = false;             ///< from the ratings before the first step, none being given
    Sensitivity sensitivity;
};

/// The steps taken with how burden went after each, without telling apart what a rise looks like: a small
/// part of the cost.
std::vector<StepResponse> judge_steps(const ResponseInput& input, const Formulary& formulary,
                                      const Rules& rules);

/// Assesses the response as of `input.as_of`; later entries do not enter. Nothing is refused: what cannot be
/// said is said in flags.
ResponseView assess_response(const ResponseInput& input, const Formulary& formulary, const Rules& rules);

}  // namespace evenfall
