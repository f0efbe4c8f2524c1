// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <initializer_list>

#include "papers/common.h"
#include "units/dose_text.h"

namespace evenfall::papers {
namespace {

// Characters. A record takes no more of each, so that whatever was entered there can be printed.
constexpr std::size_t kMostName = 200;      // of anything short: a name, a number, a medicine, a symptom
constexpr std::size_t kMostReference = 40;  // it must fit the foot of a page
constexpr std::size_t kMostText = 4000;     // of what is told at length
constexpr std::size_t kBegins = 24;         // that say which of several texts is meant

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

/// The first characters of a text.
std::string beginning_of(const std::string& text) {
    std::string begins;
    for (const char c : printable(text)) {
        const bool first_byte = (static_cast<unsigned char>(c) & 0xC0) != 0x80;
        if (first_byte && character_count(begins) == kBegins) return begins + "…";
        begins += c;
    }
    return begins;
}

void check_length(Faults& faults, const std::string& id, const std::string& place, const std::string& text,
                  std::size_t most) {
    const std::size_t length = character_count(text);
    if (length > most)
        faults.push_back({id,
                          place,
                          {{"begins", beginning_of(text)},
                           {"length", std::to_string(length)},
                           {"most", std::to_string(most)}}});
}

void check_person(Faults& faults, const PaperSource& source) {
    if (printable(source.person.name).empty()) faults.push_back({"paper-no-name", "patient.name", {}});
    if (printable(source.person.reference).empty())
        faults.push_back({"paper-no-reference", "patient.reference", {}});
    check_length(faults, "paper-name-long", "patient.name", source.person.name, kMostName);
    check_length(faults, "paper-reference-long", "patient.reference", source.person.reference,
                 kMostReference);
}

/// Everything else that was typed freely, on the papers that print it: what stands on no page of a paper
/// keeps nobody from making it.
void check_texts(Faults& faults, Paper paper, const PaperSource& source) {
    const auto check = [&](std::initializer_list<Paper> on, const char* place, const std::string& text,
                           std::size_t most = kMostName) {
        if (std::ranges::count(on, paper) > 0) check_length(faults, "paper-text-long", place, text, most);
    };
    using enum Paper;
    const Clinic& clinic = source.clinic;
    check({schedule, caution, pharmacy, letter, card}, "clinic.name", clinic.name);
    check({schedule, caution, pharmacy, letter, diary, call, card}, "clinic.phone", clinic.phone);
    check({schedule, caution, pharmacy, letter, diary, call, card}, "clinic.after_hours", clinic.after_hours);
    check({schedule, caution, call, card}, "clinic.emergency_number", clinic.emergency_number);
    check({schedule, caution, call, card}, "clinic.crisis_number", clinic.crisis_number);
    check({schedule, pharmacy, letter, call, card, report}, "prescriber.name", source.prescriber.name);
    check({schedule, pharmacy, letter}, "prescriber.licence", source.prescriber.licence);
    check({report}, "made_by", source.made_by);
    check({letter}, "history.taken_for", source.taken_for, kMostText);
    for (const std::string& medicine : source.other_medicines)
        check({caution, pharmacy, letter, card}, "other_medicines", medicine);
    for (const std::string& goal : source.goals) check({letter}, "goals", goal);
    for (const std::string& item : source.tracked_items) check({diary, call}, "tracked_items", item);
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

/// Why a paper of doses has none to tell: no step is agreed on, a hold is past its review, or the person has
/// come off.
std::optional<Fault> no_dose_to_tell(const PaperDesk& desk) {
    const PaperSource& source = desk.source;
    const auto dated = [&](const char* id, Day day) {
        return Fault{id, "plan", {{"date", desk.say.date(day)}}};
    };
    if (!source.plan) return dated("paper-no-plan-signed", source.as_of);
    if (desk.steps.empty())
        return source.hold && source.hold->review_on < source.as_of
                   ? dated("paper-review-due", source.hold->review_on)
                   : dated("paper-no-plan", source.as_of);
    const FirmStep& first = desk.steps.front();
    if (first.step->doses.empty() && first.from <= source.as_of) return dated("paper-off", first.from);
    return std::nullopt;
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
    check_texts(faults, Paper::report, desk.source);
    if (!desk.source.judged) faults.push_back({"paper-no-diary", "diary", {}});
    return faults;
}

}  // namespace

Faults check_source(Paper paper, const PaperDesk& desk) {
    if (paper == Paper::report) return check_report(desk);
    Faults faults;
    check_person(faults, desk.source);
    check_numbers(faults, paper, desk);
    check_texts(faults, paper, desk.source);
    check_drug(faults, paper, desk);
    if (needs_steps(paper)) {
        if (auto none = no_dose_to_tell(desk)) {
            faults.push_back(std::move(*none));
            return faults;
        }
        check_pieces(faults, desk);
    } else if (desk.drug.empty()) {
        faults.push_back({"paper-no-doses", "regimen", {}});
    }
    if (paper == Paper::pharmacy && !desk.source.supply) faults.push_back({"paper-no-supply", "supply", {}});
    return faults;
}

}  // namespace evenfall::papers
