// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

#include "units/dose.h"
#include "units/result.h"
#include "units/share.h"

namespace evenfall {

/// Reads an amount in milligrams written as plain decimal digits without a unit, as files hold it ("1.5",
/// "2.50"). Refused, each with its own fault: empty, a comma ("1,5" is fifteen to one reader and one and a
/// half to another), a missing digit before or after the point, a sign, an exponent, a unit, any other
/// character, finer than a nanogram, above 100 g. `place` is kept in the fault.
Result<Dose> parse_mg(std::string_view text, std::string_view place);

/// Reads an amount that a person typed: digits, then a unit: mg, or mcg / microgram(s). As parse_mg, and
/// refuses a missing unit, "U", "ug" and "µg" (read as mg by mistake), and any other unit. "mg" may follow
/// without a space.
Result<Dose> parse_dose(std::string_view text, std::string_view place);

/// Reads a volume in millilitres written as plain decimal digits, by the same rules as parse_mg.
Result<Volume> parse_ml(std::string_view text, std::string_view place);

/// Reads a percentage written as plain decimal digits ("8", "7.5") as an exact share.
Result<Share> parse_percent(std::string_view text, std::string_view place);

/// Milligrams as plain digits for machine output: "0.125", "2", never a trailing zero or a bare point.
std::string print_mg_digits(Dose dose);

/// An amount as a person reads it: "0.125 mg", "2 mg", "1,500 mg": leading zero, no trailing zero, a space
/// before the unit, commas from 1,000 upward (published error-prone lists: ISMP; Joint Commission do-not-use
/// list).
std::string print_dose(Dose dose);

/// A volume as plain digits, and as a person reads it: "0.4", "0.4 mL".
std::string print_ml_digits(Volume volume);
std::string print_volume(Volume volume);

}  // namespace evenfall
