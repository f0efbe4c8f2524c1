// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/basis.h"
#include "casework/desk.h"

namespace evenfall::app {

/// A desk on which a case lies as the record of one person, for its pictures and papers. Its plan is
/// computed.
struct CaseDesk {
    Desk desk;
    PatientId patient;
};

/// Faults: of the computation, with the file in their places.
Result<CaseDesk> desk_of_case(const CaseSource& source, const Resources& resources);

}  // namespace evenfall::app
