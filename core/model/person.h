// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "model/product.h"
#include "model/words.h"
#include "units/day.h"

namespace evenfall {

/// Who the patient is.
struct Person {
    std::string reference;  ///< the clinic's own number; stands on every paper
    std::string name;
    std::optional<Day> born;
    std::optional<double> weight_kg;
    std::string language = "en";  ///< of the papers: "en" or "es"
    std::string phone{};          ///< at which the person wants to be called

    bool operator==(const Person&) const = default;
};

/// An answer on a screen: not asked is not the same as no.
enum class Answer { not_asked, no, yes };
template <>
struct Words<Answer> {
    static constexpr std::array<WordPair<Answer>, 3> table{
        {{Answer::not_asked, "not asked"}, {Answer::no, "no"}, {Answer::yes, "yes"}}};
};

/// The questions of the risk screen, by their words in `resources` ("opioid", "older age", …).
struct RiskScreen {
    std::map<std::string, Answer> answers;
    std::string note;

    bool operator==(const RiskScreen&) const = default;
};

/// The words of the risk screen, in the order in which they are asked.
extern const std::vector<std::string> kRiskWords;

/// Why the agent is taken, since when, and what was tried before.
struct History {
    std::string taken_for;
    std::optional<Day> since;
    std::string treatment;  ///< present treatment of what the agent was prescribed for
    std::string earlier_attempts;
    std::string note;

    bool operator==(const History&) const = default;
};

/// What matters to the person, and how confident they are, 0 to 10.
struct Goals {
    std::vector<std::string> goals;
    std::optional<int> confidence;
    std::string note;

    bool operator==(const Goals&) const = default;
};

/// Someone in the person's circle.
struct Supporter {
    std::string name;
    std::string relation;
    std::string phone;
    bool may_be_contacted = false;  ///< the person's consent

    bool operator==(const Supporter&) const = default;
};

struct Supports {
    std::vector<Supporter> people;
    std::string safe_times;  ///< when it is safe to phone, in words

    bool operator==(const Supports&) const = default;
};

/// The lifestyle review, in words.
struct Lifestyle {
    std::string meals, movement, daylight, sleep, skills, substances;

    bool operator==(const Lifestyle&) const = default;
};

/// What the person can cut, and who helps.
struct CuttingAbility {
    Cuts finest = Cuts::halves;
    std::string helper;

    bool operator==(const CuttingAbility&) const = default;
};

/// Symptoms before the first cut, so that recurrence can be told from withdrawal. Severity 0 to 10 by item.
struct Baseline {
    Day on{};
    std::map<std::string, int> severity;
    std::string note;

    bool operator==(const Baseline&) const = default;
};

/// Whether an outpatient taper is right at all.
enum class SuitabilityOutcome { outpatient_taper, specialist_or_inpatient, not_now };
template <>
struct Words<SuitabilityOutcome> {
    static constexpr std::array<WordPair<SuitabilityOutcome>, 3> table{
        {{SuitabilityOutcome::outpatient_taper, "outpatient taper"},
         {SuitabilityOutcome::specialist_or_inpatient, "specialist or inpatient"},
         {SuitabilityOutcome::not_now, "not now"}}};
};

/// The signed outcome of the gate before any plan, with the rules that it rests on.
struct Suitability {
    SuitabilityOutcome outcome = SuitabilityOutcome::not_now;
    std::vector<std::string> rests_on;  ///< rule ids
    std::string reason;

    bool operator==(const Suitability&) const = default;
};

/// The clinic, as its papers name it. Numbers are entered, never invented.
struct Clinic {
    std::string name;
    std::string phone;        ///< in office hours
    std::string after_hours;  ///< at every other hour
    std::string emergency_number;
    std::string crisis_number;
    int days_per_fill = 28;
    int reserve_days = 5;

    bool operator==(const Clinic&) const = default;
};

/// Whoever signs, as the papers name them.
struct Prescriber {
    std::string name;
    std::string licence;

    bool operator==(const Prescriber&) const = default;
};

enum class Role { prescriber, nurse };
template <>
struct Words<Role> {
    static constexpr std::array<WordPair<Role>, 2> table{
        {{Role::prescriber, "prescriber"}, {Role::nurse, "nurse"}}};
};

/// What is at home of one product, counted in quarters of a unit (millilitres in nanolitres for a liquid).
struct OnHand {
    Product product;
    int quarters = 0;
    Volume volume;

    bool operator==(const OnHand&) const = default;
};

}  // namespace evenfall
