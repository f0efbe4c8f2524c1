// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/case_record.h"

#include <algorithm>

#include "casework/course.h"

namespace evenfall {
namespace {

using std::chrono::days;

/// The day from which the stated regimen is taken: before the plan and before the diary's first entry.
Day regimen_from(const Case& given) {
    Day from = day_of(given.as_of);
    if (given.plan) from = std::min(from, given.plan->start - days(1));
    if (given.diary)
        for (const Intake& intake : given.diary->intake)
            from = std::min(from, day_of(intake.taken_at) - days(1));
    return from;
}

Person person_of(const Case& given, const std::string& file_name) {
    Person person = given.patient.value_or(Person{});
    if (person.reference.empty()) person.reference = file_name;
    if (person.name.empty()) person.name = person.reference;
    return person;
}

}  // namespace

std::vector<Change> changes_of(const Case& given, const std::optional<Plan>& plan,
                               const std::string& file_name) {
    std::vector<Change> changes{person_of(given, file_name)};
    if (given.risks_given) changes.emplace_back(given.risks);
    if (!given.other_medicines.empty()) {
        OtherMedicines medicines;
        for (const std::string& name : given.other_medicines) medicines.medicines.push_back({name, {}});
        changes.emplace_back(std::move(medicines));
    }
    if (given.regimen) {
        RegimenRecorded regimen{{regimen_from(given), *given.regimen}, Use::scheduled};
        if (given.diary) regimen.use = given.diary->use;
        changes.emplace_back(std::move(regimen));
    }
    if (!given.products.empty()) changes.emplace_back(ProductsChosen{given.products});
    if (given.diary && !given.diary->intake.empty())
        changes.emplace_back(IntakeNoted{given.diary->intake, given.diary->kept_empty});
    if (given.diary && !given.diary->ratings.empty())
        changes.emplace_back(SymptomsNoted{given.diary->ratings});
    for (const CheckIn& checkin : given.checkins) changes.emplace_back(checkin);
    for (const ScaleAnswers& answers : given.scales) changes.emplace_back(answers);
    if (plan) changes.emplace_back(PlanCommitted{*plan, {}, {}, given.prescriber.value_or(Prescriber{})});
    if (given.supply && !given.supply->on_hand.empty())
        changes.emplace_back(SupplyCounted{given.supply->from, given.supply->on_hand});
    return changes;
}

Case case_of(const PatientRecord& record, const Clinic& clinic, const Prescriber& prescriber,
             LocalTime as_of) {
    Case given;
    given.as_of = as_of;
    given.as_of_given = true;
    if (record.person) given.patient = record.person->value;
    given.clinic = clinic;
    given.prescriber = prescriber;
    if (record.risks) {
        given.risks = record.risks->value;
        given.risks_given = true;
    }
    if (record.other_medicines)
        for (const OtherMedicine& medicine : record.other_medicines->value.medicines)
            given.other_medicines.push_back(medicine.name);
    if (const auto* regimen = regimen_in_force(record, day_of(as_of)))
        given.regimen = regimen->value.regimen.regimen;
    if (record.products) given.products = record.products->value.products;
    if (const auto* plan = plan_in_force(record)) {
        given.plan = plan->value.plan.request;
        given.regimen = plan->value.plan.start;
        given.products = plan->value.plan.products;
    }
    Diary diary = diary_of(record);
    if (!diary.intake.empty() || !diary.ratings.empty()) given.diary = std::move(diary);
    for (const auto& entry : record.check_ins) given.checkins.push_back(entry.value);
    for (const auto& entry : record.scales) given.scales.push_back(entry.value);
    if (record.baseline) given.baseline = record.baseline->value;
    return given;
}

}  // namespace evenfall
