// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "formulary/formulary.h"
#include "model/diary.h"
#include "model/person.h"
#include "model/plan.h"
#include "planning/price.h"
#include "units/zone.h"

namespace evenfall {

/// What a crossover is asked for.
struct CrossoverAsked {
    std::string from;
    std::string to;
    Day start{};
    int days_per_stage = 7;
    std::vector<ClockTime> order;  ///< dose times in the order in which they are replaced

    bool operator==(const CrossoverAsked&) const = default;
};

/// What supply is asked for.
struct SupplyAsked {
    Day from{};
    Day to{};
    int days_per_fill = 28;
    int reserve_days = 5;
    std::vector<OnHand> on_hand;

    bool operator==(const SupplyAsked&) const = default;
};

/// Where the doses of a level computation come from.
enum class LevelDoses { intake, regimen, plan, listed };
enum class LevelStart { empty, steady_state };
enum class LevelAs { amounts, relative, equivalent };

template <>
struct Words<LevelDoses> {
    static constexpr std::array<WordPair<LevelDoses>, 3> table{
        {{LevelDoses::intake, "intake"}, {LevelDoses::regimen, "regimen"}, {LevelDoses::plan, "plan"}}};
};
template <>
struct Words<LevelStart> {
    static constexpr std::array<WordPair<LevelStart>, 2> table{
        {{LevelStart::empty, "empty"}, {LevelStart::steady_state, "steady state"}}};
};
template <>
struct Words<LevelAs> {
    static constexpr std::array<WordPair<LevelAs>, 3> table{{{LevelAs::amounts, "amounts"},
                                                             {LevelAs::relative, "relative"},
                                                             {LevelAs::equivalent, "equivalent"}}};
};

/// What levels are asked for.
struct LevelsAsked {
    LevelDoses doses = LevelDoses::regimen;
    std::vector<Intake> listed;  ///< for LevelDoses::listed
    LevelStart start = LevelStart::empty;
    LocalTime from{};
    LocalTime to{};
    double every_minutes = 15;
    LevelAs as = LevelAs::amounts;
    int spread = 0;  ///< virtual patients; 0: none

    bool operator==(const LevelsAsked&) const = default;
};

/// A case's own equivalence for an agent: milligrams equal to 10 mg of diazepam.
struct EquivalenceGiven {
    Dose usual;
    std::optional<Dose> least_diazepam;
    std::optional<Dose> most_diazepam;

    bool operator==(const EquivalenceGiven&) const = default;
};

/// A case: one person's facts and what is asked of the program, from a file. Each part may be missing.
struct Case {
    LocalTime as_of{};
    bool as_of_given = false;
    Zone zone = Zone::of_machine();
    std::optional<Person> patient;
    std::optional<Clinic> clinic;
    std::optional<Prescriber> prescriber;
    RiskScreen risks;
    bool risks_given = false;
    std::vector<std::string> other_medicines;
    std::optional<Regimen> regimen;
    std::vector<Product> products;
    std::optional<PlanRequest> plan;
    std::vector<PlanRequest> plans_after;  ///< of other agents, one after another, in this order
    Prices prices;                         ///< of the products that have one
    std::map<std::string, EquivalenceGiven> equivalences;
    std::optional<CrossoverAsked> crossover;
    std::vector<DatedRegimen> schedule;
    std::optional<SupplyAsked> supply;
    std::optional<Diary> diary;
    std::vector<CheckIn> checkins;
    std::vector<ScaleAnswers> scales;
    std::optional<Baseline> baseline;  ///< symptoms before the taper; a record has them, a case file does not
    std::map<std::string, Kinetics> kinetics;
    std::optional<LevelsAsked> levels;
    std::vector<Message> notes;  ///< what was taken notice of and is no fault ("this time came twice")
};

/// The formulary with the case's own constants and equivalences laid over it.
Formulary with_case(Formulary formulary, const Case& given);

/// What the case overrides, in words for the output: "kinetics of diazepam", "equivalence of lorazepam".
std::vector<std::string> overridden_by(const Case& given);

}  // namespace evenfall
