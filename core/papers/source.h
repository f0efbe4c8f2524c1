// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "formulary/formulary.h"
#include "model/person.h"
#include "model/plan.h"
#include "planning/supply.h"
#include "record/patient_record.h"
#include "response/scales.h"
#include "rules/rules.h"
#include "stabilization/check.h"

namespace evenfall::papers {

/// The hours at which the parts of a day begin. From midnight to the morning it is night.
struct PartsOfDay {
    int morning = 4;
    int midday = 11;
    int afternoon = 14;
    int evening = 17;
    int bedtime = 21;

    /// Reads rule `parts-of-day`.
    static PartsOfDay from(const Rules& rules);
    bool operator==(const PartsOfDay&) const = default;
};

/// The stabilization check that a report is made of, and the days that it rests on.
struct Judged {
    StabilizationCheck check;
    LocalTime as_of{};
};

/// Everything that papers are made from: one person on one day. Built from a record or a case file; the
/// papers themselves look nothing up and compute no dose.
struct PaperSource {
    Person person;
    Clinic clinic;
    Prescriber prescriber;
    std::set<std::string> risks;  ///< words of the risk screen that were answered with yes
    std::vector<std::string> other_medicines;
    bool naloxone_at_home = false;
    std::vector<std::string> goals;
    std::optional<int> confidence;
    std::vector<std::string> tracked_items;  ///< symptom items that this person rates
    std::string taken_for;
    std::string agent;                  ///< the plan's, or the one that is or was taken; may be empty
    Regimen regimen;                    ///< as taken where no plan is in force; empty where nothing is
    bool as_needed = false;             ///< the regimen is no order by the clock
    std::vector<Flag> reported{};       ///< dangers that stand, as rules say them
    std::optional<Plan> plan;           ///< its committed steps are firm; the outlook never is
    std::optional<HoldStarted> hold;    ///< open on `as_of`: running, to begin later, or past its review
    std::vector<PlannedDose> before{};  ///< the plan's starting regimen, with pieces where products make it
    std::vector<OnHand> on_hand{};      ///< at home on `as_of`, reckoned from what was last counted
    std::optional<Day> counted_on{};    ///< when that was; empty where nothing was counted
    std::set<std::string> counted{};    ///< the agents that were
    std::optional<Supply> supply;
    const Formulary* formulary = nullptr;  ///< never null; outlives the source
    PartsOfDay parts;
    Day as_of{};
    std::string plan_id;        ///< the id of the commitment; empty where there is none
    std::string replaces_code;  ///< of the paper that went out before; empty for the first
    std::optional<Day> replaces_on;
    const Rules* rules = nullptr;  ///< set where `judged` or `reported` is; outlives the source
    std::optional<Judged> judged;  ///< the report is made of it alone
    std::string made_by;           ///< who has the report made; empty: a line to sign
};

/// The source of a person's papers, with the fills that its committed steps need where they can be worked
/// out. `formulary` and `rules` outlive the result; `scales` judge the forms among what was reported.
PaperSource source_from_record(const PatientRecord& record, const Clinic& clinic, const Formulary& formulary,
                               const Rules& rules, const Scales& scales, Day as_of);

/// Judges the record's diary for the report; nothing is taken where the record holds no diary.
/// `judged_days` count back from `as_of`; empty: the whole diary. `rules` outlives the source.
void take_check(PaperSource& source, const PatientRecord& record, const Rules& rules, const Zone& zone,
                LocalTime as_of, std::optional<int> judged_days = {});

/// The code of the papers made from this source: of the commitment where there is one, else of what they say
/// about doses.
std::string code_of(const PaperSource& source);
/// The code of a signed plan, or of a hold under it: another first day or another review is another paper.
std::string code_of_version(const EventId& plan, const std::optional<HoldStarted>& hold);

}  // namespace evenfall::papers
