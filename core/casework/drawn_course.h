// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "casework/course.h"

namespace evenfall {

/// Whether one agent takes another's place in a course: on some day the plan's agent is not taken while
/// others are, and on another it is. Its milligrams alone would then draw a stop or a rise that never was.
bool agents_trade_places(const Course& course);

/// The same course with what is planned as diazepam by the usual equivalences. A stretch whose agents have no
/// equivalence keeps its own amount.
Course with_doses_as_diazepam(Course course);

/// The same course with every amount, planned and taken, as diazepam by the usual equivalences: for drawing
/// on one scale. A stretch whose agents have no equivalence keeps its own amount.
Course drawn_as_diazepam(Course course, const PatientRecord& record, const Formulary& formulary,
                         const Rules& rules);

}  // namespace evenfall
