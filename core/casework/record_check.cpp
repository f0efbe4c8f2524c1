// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/record_check.h"

#include <algorithm>

namespace evenfall {
namespace {

DatedRegimen regimen_of(const Stretch& stretch) {
    DatedRegimen dated{stretch.from, {}};
    for (const PlannedDose& dose : stretch.doses)
        if (!dose.amount.is_zero()) dated.regimen.doses.push_back({dose.at, dose.drug, dose.amount, {}, {}});
    std::ranges::sort(dated.regimen.doses);
    return dated;
}

/// The recorded regimens say how and why besides; a stretch that repeats one is no change.
std::vector<DatedRegimen> intended_of(const Course& course) {
    std::vector<DatedRegimen> intended;
    for (const Stretch& stretch : course.stretches) {
        if (stretch.kind == Stretch::Kind::outlook) break;
        DatedRegimen dated = regimen_of(stretch);
        if (intended.empty() || intended.back().regimen != dated.regimen)
            intended.push_back(std::move(dated));
    }
    return intended;
}

}  // namespace

StabilizationInput check_input_of(const PatientRecord& record, const Course& course, LocalTime as_of,
                                  std::optional<int> judged_days) {
    StabilizationInput input;
    input.diary = diary_of(record);
    input.intended = intended_of(course);
    if (record.products) input.products = record.products->value.products;
    if (record.risks) input.risks = record.risks->value;
    for (const auto& entry : record.check_ins) input.checkins.push_back(entry.value);
    input.as_of = as_of;
    if (judged_days) input.judged_from = day_of(as_of) - std::chrono::days(*judged_days);
    return input;
}

int usual_judged_days(const Rules& rules) {
    return rules.whole("judged-days", "days");
}

}  // namespace evenfall
