// SPDX-License-Identifier: GPL-3.0-or-later
#include "clinic/clinic_change.h"

#include <QCoreApplication>
#include <utility>

#include "controls/messages.h"
#include "texts/render.h"

namespace evenfall::ui {

QString why_not_changed_here(const Workbench& workbench) {
    if (workbench.desk().worker().role == Role::prescriber) return {};
    return QCoreApplication::translate("Clinic", "A prescriber changes the clinic's settings.");
}

bool write_for_clinic(Workbench& workbench, std::vector<Change> changes, FaultPanel& faults) {
    const auto show = [&](const Faults& found) {
        std::vector<std::pair<QString, QString>> lines;
        for (const Fault& fault : found)
            lines.emplace_back(QString(), to_text(workbench.texts().text(fault.id, fault.args)));
        faults.show_faults(lines);
    };
    const auto outer = std::exchange(workbench.show_faults, show);
    const bool written = workbench.carry_out_for_clinic(std::move(changes));
    workbench.show_faults = outer;
    return written;
}

}  // namespace evenfall::ui
