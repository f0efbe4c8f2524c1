// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "model/words.h"
#include "papers/document.h"
#include "papers/source.h"
#include "rules/texts.h"

namespace evenfall {

/// The papers, by the words of the command line.
enum class Paper { schedule, caution, pharmacy, letter, diary, call, card, report };
template <>
struct Words<Paper> {
    static constexpr std::array<WordPair<Paper>, 8> table{{{Paper::schedule, "schedule"},
                                                           {Paper::caution, "caution"},
                                                           {Paper::pharmacy, "pharmacy"},
                                                           {Paper::letter, "letter"},
                                                           {Paper::diary, "diary"},
                                                           {Paper::call, "call"},
                                                           {Paper::card, "card"},
                                                           {Paper::report, "report"}}};
};

namespace papers {

/// What a paper says, in the language of `texts`. Faults, all of them:
/// `paper-number-missing` (a telephone number that the paper must name, at "clinic.<field>"), `paper-no-plan`
/// (no signed step runs on or after the day of issue), `paper-no-name`, `paper-no-reference`,
/// `paper-name-long`, `paper-reference-long`, `paper-drug-unknown`, `paper-missed-dose-rule`,
/// `paper-no-plan-signed` (what is taken goes on without a plan),
/// `paper-review-due` (a hold is past its review), `paper-off` (nothing is taken any more),
/// `paper-text-long`, `paper-no-doses`, `paper-no-supply`, `paper-no-diary` (a report without a diary to
/// judge), `paper-pieces-missing` (a committed dose of the plan's agent without pieces that make it).
Result<Document> make_paper(Paper paper, const PaperSource& source, const Texts& texts);

/// Until when a schedule made from this source holds: the last day of the last committed step that takes a
/// dose. Empty where no committed step runs on or after the day of issue.
std::optional<Day> valid_through(const PaperSource& source);

}  // namespace papers
}  // namespace evenfall
