// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "casework/checks.h"
#include "exchange/read_parts.h"
#include "response/scales.h"
#include "rules/texts.h"

namespace evenfall::case_file {
namespace {

constexpr std::size_t kShortText = 200;

/// A language that there are texts in.
void read_language(const Reader& reader, const StrictObject& object, const std::string& language) {
    const std::vector<std::string> known = languages(resources_folder());
    if (std::ranges::find(known, language) != known.end()) return;
    std::string expected;
    for (const std::string& each : known) expected += (expected.empty() ? "" : ", ") + each;
    reader.fault(object.place("language"), "json-word-unknown",
                 {{"text", language.substr(0, 40)}, {"expected", expected}});
}

/// A short text without control characters.
void short_text(const Reader& reader, StrictObject& object, const char* key, std::string& target) {
    if (object.text(key, target, Need::may)) check_text(target, object.place(key), reader.faults, kShortText);
}

}  // namespace

void read_patient(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    Person person;
    short_text(reader, object, "reference", person.reference);
    short_text(reader, object, "name", person.name);
    if (object.find("born")) {
        Day born{};
        if (object.parsed("born", born, parse_day)) {
            person.born = born;
            if (born > day_of(reader.given.as_of)) reader.fault(object.place("born"), "born-in-future");
        }
    }
    double weight = 0;
    if (object.number("weight_kg", weight, {2, 500, false}, Need::may)) person.weight_kg = weight;
    if (object.text("language", person.language, Need::may)) read_language(reader, object, person.language);
    reader.given.patient = std::move(person);
}

void read_clinic(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    Clinic clinic;
    short_text(reader, object, "name", clinic.name);
    short_text(reader, object, "phone", clinic.phone);
    short_text(reader, object, "after_hours", clinic.after_hours);
    short_text(reader, object, "emergency_number", clinic.emergency_number);
    short_text(reader, object, "crisis_number", clinic.crisis_number);
    reader.given.clinic = std::move(clinic);
}

void read_prescriber(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    Prescriber prescriber;
    short_text(reader, object, "name", prescriber.name);
    short_text(reader, object, "licence", prescriber.licence);
    reader.given.prescriber = std::move(prescriber);
}

void read_risk(const Reader& reader, const Json& value, const std::string& place) {
    if (!value.is_string()) return reader.fault(place, "json-not-text");
    const auto& risk = value.get_ref<const std::string&>();
    if (std::ranges::find(kRiskWords, risk) == kRiskWords.end()) {
        std::string expected;
        for (const auto& each : kRiskWords) expected += (expected.empty() ? "" : ", ") + each;
        return reader.fault(place, "json-word-unknown",
                            {{"text", risk.substr(0, 40)}, {"expected", expected}});
    }
    reader.given.risks.answers[risk] = Answer::yes;
}

void read_checkin(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    CheckIn checkin;
    reader.time(object, "at", checkin.at);
    object.members(
        "answers",
        [&](const std::string& question, const Json& answer, const std::string& at) {
            if (!answer.is_string()) return reader.fault(at, "json-not-text");
            checkin.answers.emplace_back(question, answer.get<std::string>());
        },
        Need::may);
    object.text("own_words", checkin.own_words, Need::may);
    reader.given.checkins.push_back(std::move(checkin));
}

void read_scale(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    ScaleAnswers answers;
    object.text("scale", answers.scale);
    object.parsed("on", answers.on, parse_day);
    object.list("items", [&](const Json& item, const std::string& at) {
        if (item.is_null()) return answers.items.push_back(kBlankItem);
        if (!item.is_number_integer() || item.get<std::int64_t>() < 0 || item.get<std::int64_t>() > 100)
            return reader.fault(at, "case-item-blank");
        answers.items.push_back(item.get<int>());
    });
    reader.given.scales.push_back(std::move(answers));
}

}  // namespace evenfall::case_file
