// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "model/person.h"
#include "papers/document.h"
#include "papers/source.h"
#include "rules/texts.h"

namespace evenfall::papers {

/// One person of the morning list, in words of the reader's language: whoever lists the caseload has them.
struct MorningLine {
    std::string reference;
    std::string name;
    std::vector<std::string> reasons;  ///< why they are on the list, the most pressing first
    std::string dose;                  ///< "clonazepam 1.5 mg a day"; empty where none is recorded
    std::string phone;                 ///< empty where none is recorded
    std::string safe_times;            ///< when it is safe to phone; empty where nothing is known
    bool urgent = false;               ///< red flags stand first, in a part of their own
};

struct MorningList {
    Clinic clinic;
    Day day{};
    std::string made_by;  ///< who works from it; empty: a line to fill in
    PartsOfDay parts;
    std::vector<MorningLine> lines;  ///< in the order in which they are called
    int unreadable = 0;              ///< people who may belong on it, but whose records cannot be read
};

/// The list of a morning, for whoever phones: one box to tick and room to note for each person. It names many
/// people, so it says that it stays in the clinic. It bears no code: it is of no use the day after.
/// Faults: `paper-no-lines` (nobody is on the list), `paper-text-long`.
Result<Document> make_morning(const MorningList& list, const Texts& texts);

}  // namespace evenfall::papers
