// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_data/story.h"

#include <algorithm>

#include "units/dose_text.h"

namespace evenfall::sample {

const std::vector<PlannedDose>& Story::doses_on(Day day) const {
    static const std::vector<PlannedDose> nothing;
    const std::vector<PlannedDose>* found = &nothing;
    for (const Intended& each : intended)
        if (each.from <= day) found = &each.doses;
    return *found;
}

Dose mg(const std::string& digits) {
    return parse_mg(digits, "sample").value();
}

DoseTime dose(const std::string& drug, const std::string& at, const std::string& amount,
              const std::string& how, const std::string& why) {
    return {parse_clock(at, "sample").value(), drug, mg(amount), how, why};
}

Product tablet(const std::string& drug, const std::string& strength, Cuts cuts) {
    return {drug, Form::tablet, mg(strength), cuts, {}};
}

Product product(const std::string& drug, Form form, const std::string& strength) {
    return {drug, form, mg(strength), Cuts::whole, {}};
}

Product solution(const std::string& drug, const std::string& strength) {
    return {drug, Form::oral_solution, mg(strength), Cuts::whole, Volume::nanolitres(100'000)};
}

void take(Story& story, Day from, Regimen regimen) {
    std::vector<PlannedDose> doses;
    for (const DoseTime& each : regimen.doses) doses.push_back({each.at, each.drug, each.amount, {}});
    story.intended.push_back({from, std::move(doses)});
    story.on(std::min(std::max(from, story.opened), ago(3)),
             RegimenRecorded{{from, std::move(regimen)}, story.use});
}

}  // namespace evenfall::sample
