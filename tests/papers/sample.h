// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "formulary/formulary.h"
#include "papers/papers.h"
#include "rules/texts.h"

// Invented people for the tests of the papers.

namespace evenfall::papers {

/// The shipped formulary and texts, loaded once.
const Formulary& shipped_formulary();
const Texts& shipped_texts(const std::string& language);

/// What a paper says, every string of it. Throws where it is refused, with the fault's id.
std::string text_of(Paper paper, const PaperSource& source, const std::string& language = "en");

/// So many pieces of a tablet.
Piece piece(const Product& product, Cut cut, int count);
Piece measured(const Product& product, Volume volume);
PlannedDose dose(int minutes, std::vector<Piece> pieces);

/// A person with a clinic, a prescriber and all four numbers, and no plan.
PaperSource person_without_plan();
/// Clonazepam, 1 mg in the morning and 1.5 mg at bedtime, in two committed steps and an outlook.
PaperSource two_steps();
/// Diazepam three times a day from tablets and a liquid, with every risk and several medicines.
PaperSource every_risk();
/// One agent reduced, another that stays.
PaperSource two_agents();
/// Alprazolam before; a stage with both agents, each at bedtime too, then diazepam alone.
PaperSource crossing_over();
/// Lorazepam measured from a strong liquid, in two steps.
PaperSource from_a_bottle();
/// The last step before OFF, and OFF.
PaperSource down_to_off();
/// A made-up plan over any agent: 1 to 12 dose times, 1 to 6 committed steps, any pieces, an outlook behind
/// them.
PaperSource random_source(std::mt19937_64& random);
/// The check of an invented diary of 10 days, held against the source's doses: some missed, one extra, and
/// symptoms rated between doses.
Judged some_check(const PaperSource& source, std::uint64_t seed);
/// The shipped rules, loaded once.
const Rules& shipped_rules();
/// A supply that fits a plan loosely; its numbers are for printing only.
Supply some_supply(const PaperSource& source);

}  // namespace evenfall::papers
