// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/doses.h"

#include <algorithm>

namespace evenfall::kinetics {
namespace {

double hours(std::chrono::seconds span) {
    return static_cast<double>(span.count()) / 3600;
}

Instant instant_of(LocalTime time, const Zone& zone) {
    return zone.to_instant(time).instant;
}

/// The regimens by the day they begin, of two on one day the later in the list last.
std::vector<DatedRegimen> by_day(std::vector<DatedRegimen> regimens) {
    std::stable_sort(regimens.begin(), regimens.end(),
                     [](const DatedRegimen& a, const DatedRegimen& b) { return a.from < b.from; });
    return regimens;
}

}  // namespace

double daily_mg(const std::vector<DailyDose>& doses) {
    double sum = 0;
    for (const DailyDose& dose : doses) sum += dose.mg;
    return sum;
}

std::vector<DailyDose> daily_doses(const Regimen& regimen, const std::string& drug) {
    std::vector<DailyDose> doses;
    for (const DoseTime& dose : regimen.doses)
        if (dose.drug == drug) doses.push_back({dose.at.minutes / 60.0, dose.amount.mg()});
    std::sort(doses.begin(), doses.end());
    return doses;
}

double hours_between(LocalTime origin, LocalTime time, const Zone& zone) {
    return hours(instant_of(time, zone) - instant_of(origin, zone));
}

std::vector<TimedDose> timed_doses(const std::vector<DatedRegimen>& regimens, const std::string& drug,
                                   Day from, Day until, LocalTime origin, const Zone& zone) {
    const std::vector<DatedRegimen> ordered = by_day(regimens);
    const Instant zero = instant_of(origin, zone);
    std::vector<TimedDose> doses;
    const DatedRegimen* in_force = nullptr;
    auto next = ordered.begin();
    for (Day day = from; day < until; day += std::chrono::days(1)) {
        for (; next != ordered.end() && next->from <= day; ++next) in_force = &*next;
        if (!in_force) continue;
        for (const DoseTime& dose : in_force->regimen.doses)
            if (dose.drug == drug)
                doses.push_back({hours(instant_of(at_clock(day, dose.at), zone) - zero), dose.amount.mg()});
    }
    std::sort(doses.begin(), doses.end());
    return doses;
}

std::vector<TimedDose> timed_doses(const std::vector<Intake>& intake, const std::string& drug,
                                   LocalTime origin, const Zone& zone) {
    const Instant zero = instant_of(origin, zone);
    std::vector<TimedDose> doses;
    for (const Intake& taken : intake)
        if (taken.drug == drug)
            doses.push_back({hours(instant_of(taken.taken_at, zone) - zero), taken.amount.mg()});
    std::sort(doses.begin(), doses.end());
    return doses;
}

}  // namespace evenfall::kinetics
