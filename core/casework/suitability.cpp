// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/suitability.h"

#include <algorithm>

#include "units/letters.h"

namespace evenfall {
namespace {

/// "weak liver" is judged by the rule "risk-weak-liver".
std::string rule_for(const std::string& word) {
    return "risk-" + with_dashes(word);
}

/// What a rule of the gate says: 0 is to be weighed, 1 speaks for a specialist or a ward, 2 for not now.
SuitabilityOutcome outcome_of(const Rules& rules, const std::string& rule) {
    switch (rules.whole(rule, "level")) {
        case 1:
            return SuitabilityOutcome::specialist_or_inpatient;
        case 2:
            return SuitabilityOutcome::not_now;
        default:
            return SuitabilityOutcome::outpatient_taper;
    }
}

/// A specialist's view comes before waiting, and waiting before an outpatient taper.
SuitabilityOutcome graver(SuitabilityOutcome a, SuitabilityOutcome b) {
    const auto weight = [](SuitabilityOutcome outcome) {
        return outcome == SuitabilityOutcome::specialist_or_inpatient ? 2
               : outcome == SuitabilityOutcome::not_now               ? 1
                                                                      : 0;
    };
    return weight(a) >= weight(b) ? a : b;
}

class Gate {
  public:
    Gate(SuitabilityView& view, const Rules& rules) : view_(view), rules_(rules) {}

    void finds(const std::string& rule, Args args = {}) {
        if (!rules_.find(rule)) return;
        view_.findings.push_back({rule, std::move(args), {}});
        view_.suggested = graver(view_.suggested, outcome_of(rules_, rule));
    }
    void misses(std::string rule, Args args = {}) {
        view_.missing.push_back({std::move(rule), std::move(args), {}});
    }

  private:
    SuitabilityView& view_;
    const Rules& rules_;
};

void weigh_screen(Gate& gate, const PatientRecord& record) {
    for (const std::string& word : kRiskWords) {
        Answer answer = Answer::not_asked;
        if (record.risks)
            if (const auto found = record.risks->value.answers.find(word);
                found != record.risks->value.answers.end())
                answer = found->second;
        if (answer == Answer::yes) gate.finds(rule_for(word));
        if (answer == Answer::not_asked) gate.misses("risk-not-asked", {{"question", word}});
    }
}

void weigh_age(Gate& gate, const PatientRecord& record, const Rules& rules, Day today) {
    if (!record.person || !record.person->value.born) return gate.misses("age-unknown");
    const int age = age_on(*record.person->value.born, today);
    const auto answered = [&](const char* word) {
        return record.risks && record.risks->value.answers.contains(word) &&
               record.risks->value.answers.at(word) == Answer::yes;
    };
    if (age >= rules.whole("risk-older-age", "years") && !answered("older age"))
        gate.finds("risk-older-age", {{"age", std::to_string(age)}});
    if (age < rules.whole("risk-minor", "adult_years") && !answered("minor"))
        gate.finds("risk-minor", {{"age", std::to_string(age)}});
}

/// Clobazam is an antiseizure medicine: stopping it is a question of epilepsy first.
void weigh_agents(Gate& gate, const PatientRecord& record, Day today) {
    const auto* regimen = regimen_in_force(record, today);
    if (!regimen) return gate.misses("regimen-missing");
    for (const std::string& agent : agents_of(regimen->value.regimen.regimen))
        if (agent == "clobazam") gate.finds("agent-clobazam");
}

}  // namespace

SuitabilityView assess_suitability(const PatientRecord& record, const Formulary&, const Rules& rules,
                                   Day today) {
    SuitabilityView view;
    Gate gate(view, rules);
    weigh_screen(gate, record);
    weigh_age(gate, record, rules, today);
    weigh_agents(gate, record, today);
    if (!record.baseline) gate.misses("baseline-missing");
    if (!record.history || record.history->value.treatment.empty()) gate.misses("treatment-missing");
    return view;
}

}  // namespace evenfall
