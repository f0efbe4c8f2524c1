// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/response_of.h"

#include <algorithm>

namespace evenfall {
namespace {

Regimen regimen_of(const Stretch& stretch) {
    Regimen regimen;
    for (const PlannedDose& dose : stretch.doses)
        regimen.doses.push_back({dose.at, dose.drug, dose.amount, "", ""});
    std::ranges::stable_sort(regimen.doses, {}, &DoseTime::at);
    return regimen;
}

}  // namespace

ResponseInput response_input(const PatientRecord& record, const Course& course, const Ground& ground,
                             LocalTime as_of) {
    ResponseInput input;
    for (const Stretch& stretch : course.stretches) {
        if (stretch.from > day_of(as_of)) break;
        if (&stretch == &course.stretches.front())
            input.before = regimen_of(stretch);
        else
            input.taken.push_back({stretch.from, regimen_of(stretch)});
    }
    input.diary = diary_of(record);
    for (const auto& call : record.check_ins) input.checkins.push_back(call.value);
    for (const auto& form : record.scales)
        if (auto scored = score(form.value, ground.scales, form.value.scale))
            input.scales.push_back(std::move(*scored));
    std::ranges::stable_sort(input.scales, {}, &ScaleScore::on);
    if (record.baseline) input.baseline = record.baseline->value;
    input.cap = ground.rules.percent("cut-over-cap", "percent");
    input.target = input.cap;
    if (const auto* plan = plan_in_force(record)) {
        input.cap = plan->value.plan.request.cap;
        input.target = plan->value.plan.request.target;
        input.days_per_step = plan->value.plan.request.days_per_step;
    }
    input.as_of = as_of;
    return input;
}

ResponseView response_of(const PatientRecord& record, const Course& course, const Ground& ground,
                         LocalTime as_of) {
    return assess_response(response_input(record, course, ground, as_of), ground.formulary, ground.rules);
}

}  // namespace evenfall
