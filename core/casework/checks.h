// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "casework/desk.h"

namespace evenfall {

/// What makes a change impossible to write, whoever asks and whatever the reason: fields that are empty,
/// absurd, contradictory or hostile. Each fault names its field.
Faults check_change(const Change& change, const Formulary& formulary, Day today);

/// What rules stand against a change for this patient: each can be overridden with a reason.
std::vector<Objection> object_to(const Change& change, const PatientRecord& record, const Ground& ground,
                                 LocalTime as_of);

/// A text field from outside: at most `most` characters, no control characters but line breaks and tabs, no
/// marks that turn the direction of writing around. Faults: `text-too-long`, `text-control`.
void check_text(const std::string& text, std::string_view place, Faults& faults, std::size_t most = 4000);

/// A regimen from outside: 1 to 24 doses in order of clock time, each of a known drug with an amount above
/// zero.
void check_regimen(const Regimen& regimen, const Formulary& formulary, std::string_view place,
                   Faults& faults);

/// What is wrong with a clinic's own value for a rule, by the rules as shipped: `reason-missing`,
/// `rule-unknown`, `rule-fixed`, `rule-value`, `rule-not-whole`, `rule-not-a-share`, `rule-value-far`.
Faults check_rule(const RuleChanged& changed, const Rules& shipped);

}  // namespace evenfall
