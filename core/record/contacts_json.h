// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "model/json.h"
#include "record/contacts.h"

namespace evenfall {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(ContactAttempted, at, number, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(WhereaboutsNoted, danger, at, where, with_whom, call_back)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(DangerTold, danger, at, who, number, answer)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(ReasonSnoozed, rule, until, reason)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(StandingChanged, standing, on, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(CareTeamSet, clinician, nurse)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(DrugTestNoted, continues, explained_on, ordered_on, result_on,
                                                assay, result, agrees, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(MonitoringChecked, on, found, next_due)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(LifeEvent, what, from, to, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(TabletsReturned, on, returned, to_whom)

}  // namespace evenfall
