// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "planning/taper.h"
#include "rules/texts.h"
#include "units/dose_text.h"

// Regimens, products and rules that the planner's tests share.

namespace evenfall {

inline const Rules& shipped_rules() {
    static const Rules rules = Rules::load(resources_folder() / "rules.json").value();
    return rules;
}

inline Dose mg(const std::string& digits) {
    return parse_mg(digits, "test").value();
}

inline ClockTime clock_time(const std::string& text) {
    return parse_clock(text, "test").value();
}

inline Product solid(const std::string& drug, const std::string& strength, Cuts cuts,
                     Form form = Form::tablet) {
    return {drug, form, mg(strength), cuts, {}};
}

inline Product solution(const std::string& drug, const std::string& per_ml, const std::string& measure) {
    return {drug, Form::oral_solution, mg(per_ml), Cuts::whole, parse_ml(measure, "test").value()};
}

inline DoseTime dose_at(const std::string& at, const std::string& drug, const std::string& amount) {
    return {clock_time(at), drug, mg(amount), "", ""};
}

inline bool has_flag(const std::vector<Flag>& flags, const std::string& rule) {
    for (const Flag& flag : flags)
        if (flag.rule == rule) return true;
    return false;
}

template <class T>
bool has_fault(const Result<T>& result, const std::string& id) {
    if (result.ok()) return false;
    for (const Fault& fault : result.faults())
        if (fault.id == id) return true;
    return false;
}

/// Clonazepam 1 mg at 08:00 and 1.5 mg at 21:00; 0.5 mg tablets in quarters and 0.125 mg orally
/// disintegrating tablets.
inline TaperInput two_dose_times() {
    return {{{dose_at("08:00", "clonazepam", "1"), dose_at("21:00", "clonazepam", "1.5")}},
            {solid("clonazepam", "0.5", Cuts::quarters),
             solid("clonazepam", "0.125", Cuts::whole, Form::orally_disintegrating_tablet)},
            {},
            0};
}

inline PlanRequest eight_percent() {
    PlanRequest request;
    request.drug = "clonazepam";
    request.start = day_at(2027, 1, 4);
    request.target = Share::percent(8);
    request.cap = Share::percent(10);
    return request;
}

}  // namespace evenfall
