// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "formulary/formulary.h"
#include "model/person.h"
#include "rules/rules.h"

// What a crossover means for one person: what speaks against it, what asks for care, and which other agent
// might suit them. All of it is read from the formulary and the risk screen.

namespace evenfall {

/// What is known of the person when an agent is chosen.
struct CrossoverPerson {
    RiskScreen risks;
    std::vector<std::string> other_medicines;  ///< as they are named in the record
};

/// What speaks against crossing to `to` (`crossover-weak-liver`, `crossover-breathing-opioid`,
/// `crossover-breathing`, `crossover-older-falls`), then what asks for care (`crossover-opioid`,
/// `crossover-falls`, and `crossover-interaction` for each other medicine that the formulary names as acting
/// on the new agent). REQUIRES that the formulary knows `to`.
std::vector<Flag> crossover_concerns(const std::string& to, const CrossoverPerson& person,
                                     const Formulary& formulary);

/// Whether a flag of crossover_concerns speaks against crossing, rather than asking for care on the way.
bool speaks_against_crossing(const Flag& flag);

/// The interactions of an agent with medicines by name, as flags `crossover-interaction`. A medicine is met
/// where its name holds the name of one of the formulary's examples as a word, or the other way round.
std::vector<Flag> interactions_with(const Drug& drug, const std::vector<std::string>& medicines);

/// An agent to which a person might be crossed, with what speaks for and against it.
struct SuitedAgent {
    std::string drug;
    double slowest_half_life_h = 0;  ///< of the parent or an active metabolite
    std::vector<Flag> speaks_for;    ///< suits-longer, suits-no-metabolite, suits-glucuronidated
    /// suits-not-longer, suits-builds-up, suits-liver, suits-hypnotic, crossover-interaction
    std::vector<Flag> speaks_against;
    /// suits-builds-up where this person bears it, suits-finest (or suits-finest-as-diazepam), and
    /// suits-fact: what the formulary says of the liver and of older age, with its source.
    std::vector<Flag> known;
    std::optional<Dose> finest;  ///< the least piece of a tablet or capsule, as diazepam (usual)

    bool operator==(const SuitedAgent&) const = default;
};

/// Every other agent of the formulary with an equivalence, the best suited first: by how little of danger
/// (liver, interactions) and then of anything speaks against it, then how much for it, then the finer
/// pieces, then the longer half-life, then its name. It explains; the clinician chooses.
std::vector<SuitedAgent> suited_agents(const std::string& from, const CrossoverPerson& person,
                                       const Formulary& formulary, const Rules& rules);

}  // namespace evenfall
