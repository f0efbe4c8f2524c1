// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/sections.h"

#include <QObject>

namespace evenfall::ui {

const std::vector<SectionMaker>& record_sections() {
    static const std::vector<SectionMaker> all = {
        {QStringLiteral("person"), QObject::tr("Person"), make_person_section},
        {QStringLiteral("regimen"), QObject::tr("What is taken"), make_regimen_section},
        {QStringLiteral("products"), QObject::tr("Products at hand"), make_products_section},
        {QStringLiteral("supply"), QObject::tr("Supply at home"), make_supply_section},
        {QStringLiteral("history"), QObject::tr("Why and since when"), make_history_section},
        {QStringLiteral("risks"), QObject::tr("Risk screen"), make_risk_section},
        {QStringLiteral("medicines"), QObject::tr("Other medicines"), make_medicines_section},
        {QStringLiteral("goals"), QObject::tr("Goals and confidence"), make_goals_section},
        {QStringLiteral("supports"), QObject::tr("Supports"), make_supports_section},
        {QStringLiteral("lifestyle"), QObject::tr("Lifestyle"), make_lifestyle_section},
        {QStringLiteral("cutting"), QObject::tr("Cutting tablets"), make_cutting_section},
        {QStringLiteral("baseline"), QObject::tr("Symptoms before"), make_baseline_section},
        {QStringLiteral("contact"), QObject::tr("Contact and notes"), make_contact_section},
        {QStringLiteral("lines"), QObject::tr("History of everything"), make_lines_section},
    };
    return all;
}

}  // namespace evenfall::ui
