// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "papers/sample.h"

// Invented people whose papers are hard to print: what clinics really type and plan.

namespace evenfall::papers {

/// Forty steps of a week, each with one tablet less than the one before: 40 tablets down to one.
PaperSource forty_steps();
/// Twelve doses a day of 1 to 12 tablets, 110 minutes apart; the last one is cut twice.
PaperSource twelve_dose_times();
/// One agent reduced and two that stay, one of them capsules.
PaperSource three_agents();
/// A name of 200 letters in three scripts, one of them written from the right, one with combining marks.
PaperSource long_name();
/// No prescriber is filled in, and no step of the plan is agreed on.
PaperSource nothing_agreed();

/// Everybody of the tests whose papers are hard to print, each under a name that tells why.
std::vector<std::pair<std::string, PaperSource>> hard_people();

}  // namespace evenfall::papers
