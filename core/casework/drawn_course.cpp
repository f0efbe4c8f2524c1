// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/drawn_course.h"

#include <algorithm>
#include <map>

namespace evenfall {
namespace {

Dose usual_diazepam(const std::string& name, Dose amount, const Formulary& formulary) {
    const Drug* drug = formulary.find(name);
    return drug && drug->equivalence ? as_diazepam(amount, *drug->equivalence).usual : Dose();
}

}  // namespace

bool agents_trade_places(const Course& course) {
    const auto without = [](const Stretch& s) { return s.daily.is_zero() && !s.doses.empty(); };
    const auto with = [](const Stretch& s) { return !s.daily.is_zero(); };
    return std::ranges::any_of(course.stretches, without) && std::ranges::any_of(course.stretches, with);
}

Course with_doses_as_diazepam(Course course) {
    for (Stretch& stretch : course.stretches)
        if (!stretch.diazepam.usual.is_zero()) stretch.daily = stretch.diazepam.usual;
    return course;
}

Course drawn_as_diazepam(Course course, const PatientRecord& record, const Formulary& formulary,
                         const Rules& rules) {
    course = with_doses_as_diazepam(std::move(course));
    const auto begins = std::chrono::hours(rules.whole("diary-day", "begins_h"));
    std::map<Day, Dose> totals;
    for (const Intake& intake : diary_of(record).intake)
        totals[day_of(intake.taken_at - begins)] += usual_diazepam(intake.drug, intake.amount, formulary);
    for (TakenDay& taken : course.taken) {
        taken.total = totals[taken.day];
        for (const Stretch& stretch : course.stretches)
            if (stretch.from <= taken.day && (!stretch.to || taken.day < *stretch.to))
                taken.planned = stretch.daily;
    }
    return course;
}

}  // namespace evenfall
