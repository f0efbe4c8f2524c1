// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "papers/common.h"
#include "units/dose_text.h"

namespace evenfall::papers {
namespace {

constexpr std::size_t kMostName = 200;      // characters: three lines of large print
constexpr std::size_t kMostReference = 40;  // it must fit the foot of a page
constexpr std::size_t kMostText = 400;      // of anything else that is typed freely

/// Which numbers a paper must name.
bool names_every_number(Paper paper) {
    return paper != Paper::pharmacy && paper != Paper::letter && paper != Paper::diary;
}

void check_number(Faults& faults, const Wording& say, const std::string& value, const std::string& field) {
    if (!printable(value).empty()) return;
    faults.push_back({"paper-number-missing", "clinic." + field, {{"number", say("paper-number-" + field)}}});
}

void check_numbers(Faults& faults, Paper paper, const PaperDesk& desk) {
    const Clinic& clinic = desk.source.clinic;
    check_number(faults, desk.say, clinic.phone, "phone");
    check_number(faults, desk.say, clinic.after_hours, "after_hours");
    if (!names_every_number(paper)) return;
    check_number(faults, desk.say, clinic.emergency_number, "emergency_number");
    check_number(faults, desk.say, clinic.crisis_number, "crisis_number");
}

void check_length(Faults& faults, const std::string& id, const std::string& place, const std::string& text,
                  std::size_t most) {
    const std::size_t length = character_count(text);
    if (length > most)
        faults.push_back({id, place, {{"length", std::to_string(length)}, {"most", std::to_string(most)}}});
}

void check_person(Faults& faults, const PaperSource& source) {
    if (printable(source.person.name).empty()) faults.push_back({"paper-no-name", "patient.name", {}});
    if (printable(source.person.reference).empty())
        faults.push_back({"paper-no-reference", "patient.reference", {}});
    check_length(faults, "paper-name-long", "patient.name", source.person.name, kMostName);
    check_length(faults, "paper-reference-long", "patient.reference", source.person.reference,
                 kMostReference);
}

/// Everything else that was typed freely and stands on a paper.
void check_texts(Faults& faults, const PaperSource& source) {
    const auto check = [&](const std::string& place, const std::string& text, std::size_t most) {
        check_length(faults, "paper-text-long", place, text, most);
    };
    check("clinic.name", source.clinic.name, kMostName);
    check("clinic.phone", source.clinic.phone, kMostReference);
    check("clinic.after_hours", source.clinic.after_hours, kMostReference);
    check("clinic.emergency_number", source.clinic.emergency_number, kMostReference);
    check("clinic.crisis_number", source.clinic.crisis_number, kMostReference);
    check("prescriber.name", source.prescriber.name, kMostName);
    check("prescriber.licence", source.prescriber.licence, kMostName);
    check("made_by", source.made_by, kMostName);
    check("history.taken_for", source.taken_for, kMostText);
    for (const std::string& medicine : source.other_medicines) check("other_medicines", medicine, kMostName);
    for (const std::string& goal : source.goals) check("goals", goal, kMostText);
    for (const std::string& item : source.tracked_items) check("tracked_items", item, kMostReference);
}

void check_pieces(Faults& faults, const PaperDesk& desk) {
    for (const FirmStep& step : desk.steps)
        for (const PlannedDose& dose : step.step->doses) {
            if (dose.drug != desk.drug && dose.pieces.empty()) continue;
            const auto same_drug = [&](const Piece& piece) { return piece.product.drug == dose.drug; };
            const bool made = !dose.pieces.empty() && amount_of(dose.pieces) == dose.amount &&
                              std::all_of(dose.pieces.begin(), dose.pieces.end(), same_drug);
            if (!made)
                faults.push_back({"paper-pieces-missing",
                                  "plan",
                                  {{"step", std::to_string(step.step->number)},
                                   {"time", print_clock(dose.at)},
                                   {"amount", print_dose(dose.amount)}}});
        }
}

bool needs_steps(Paper paper) {
    return paper == Paper::schedule || paper == Paper::pharmacy;
}

void check_drug(Faults& faults, Paper paper, const PaperDesk& desk) {
    if (desk.drug.empty()) return;
    const Drug* drug = desk.source.formulary->find(desk.drug);
    if (!drug)
        faults.push_back({"paper-drug-unknown", "plan.drug", {{"drug", desk.drug}}});
    else if (paper == Paper::schedule &&
             (drug->missed_dose_rule.empty() || !desk.say.has(drug->missed_dose_rule)))
        faults.push_back({"paper-missed-dose-rule", "formulary", {{"drug", desk.agent()}}});
}

/// The report is for the record: it rests on the diary alone and sends nobody to the telephone.
Faults check_report(const PaperDesk& desk) {
    Faults faults;
    check_person(faults, desk.source);
    check_texts(faults, desk.source);
    if (!desk.source.judged) faults.push_back({"paper-no-diary", "diary", {}});
    return faults;
}

}  // namespace

Faults check_source(Paper paper, const PaperDesk& desk) {
    if (paper == Paper::report) return check_report(desk);
    Faults faults;
    check_person(faults, desk.source);
    check_numbers(faults, paper, desk);
    check_texts(faults, desk.source);
    check_drug(faults, paper, desk);
    if (needs_steps(paper)) {
        if (desk.steps.empty())
            faults.push_back({"paper-no-plan", "plan", {{"date", desk.say.date(desk.source.as_of)}}});
        check_pieces(faults, desk);
    } else if (desk.drug.empty()) {
        faults.push_back({"paper-no-doses", "regimen", {}});
    }
    if (paper == Paper::pharmacy && !desk.source.supply) faults.push_back({"paper-no-supply", "supply", {}});
    return faults;
}

}  // namespace evenfall::papers
