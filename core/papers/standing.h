// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "papers/mark.h"
#include "papers/wording.h"
#include "record/patient_record.h"
#include "units/zone.h"

namespace evenfall::papers {

/// How a paper in hand stands, told by its code.
enum class PaperState {
    current,   ///< of the version that is in force
    replaced,  ///< a later signature or a hold took its place
    ended,     ///< the plan was ended, and nothing took its place
    unknown    ///< no version of this person has that code
};

struct PaperStanding {
    PaperState state = PaperState::unknown;
    std::string current_code;       ///< of the version in force; empty where there is none
    std::optional<Day> since{};     ///< when it was replaced or ended
    std::optional<Day> went_out{};  ///< when a schedule of this version last went out

    bool operator==(const PaperStanding&) const = default;
};

/// How a paper stands. Its versions are the signed plans, each of them again with every hold that was written
/// under it, begun or not: the paper tells of days to come. `zone` says on which day something was signed.
PaperStanding standing_of(const PatientRecord& record, const MarkText& paper, const Zone& zone);

/// A standing as a sentence with what to do ("This paper was replaced on 4 Jan 2027. …").
std::string standing_in_words(const PaperStanding& standing, const Wording& say);

/// A schedule that went out, with how it stands now.
struct IssuedPaper {
    PaperIssued issued;
    PaperStanding standing;

    bool operator==(const IssuedPaper&) const = default;
};

/// Every paper that is noted as gone out, the latest first.
std::vector<IssuedPaper> issued_papers(const PatientRecord& record, const Zone& zone);

}  // namespace evenfall::papers
