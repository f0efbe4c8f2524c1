// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

#include "record/section.h"

namespace evenfall::ui {

/// A part of the Record page by its id ("regimen"), its name in the list, and how it is made.
struct SectionMaker {
    QString id;
    QString title;
    std::function<RecordSection*(Workbench&)> make;
};

/// All parts, in the order in which an intake asks for them.
const std::vector<SectionMaker>& record_sections();

RecordSection* make_person_section(Workbench& workbench);
RecordSection* make_regimen_section(Workbench& workbench);
RecordSection* make_products_section(Workbench& workbench);
RecordSection* make_supply_section(Workbench& workbench);
RecordSection* make_history_section(Workbench& workbench);
RecordSection* make_risk_section(Workbench& workbench);
RecordSection* make_medicines_section(Workbench& workbench);
RecordSection* make_goals_section(Workbench& workbench);
RecordSection* make_supports_section(Workbench& workbench);
RecordSection* make_lifestyle_section(Workbench& workbench);
RecordSection* make_cutting_section(Workbench& workbench);
RecordSection* make_baseline_section(Workbench& workbench);
RecordSection* make_contact_section(Workbench& workbench);
RecordSection* make_lines_section(Workbench& workbench);

}  // namespace evenfall::ui
