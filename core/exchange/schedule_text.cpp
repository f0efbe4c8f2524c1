// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/schedule_text.h"

#include <algorithm>

#include "exchange/read_parts.h"
#include "model/strict_json.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

constexpr std::size_t kMostLines = 2000;
constexpr std::size_t kShown = 60;  // of a line that cannot be read

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kSpace = " \t\r";
    const auto first = text.find_first_not_of(kSpace);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kSpace) - first + 1);
}

std::vector<std::string_view> parted(std::string_view text, std::string_view marks) {
    std::vector<std::string_view> parts;
    while (!text.empty()) {
        const auto end = std::min(text.find_first_of(marks), text.size());
        if (const auto part = trimmed(text.substr(0, end)); !part.empty()) parts.push_back(part);
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return parts;
}

class LineReader {
  public:
    LineReader(const Formulary& formulary, Faults& faults) : formulary_(formulary), faults_(faults) {}

    std::vector<DatedRegimen> read(std::string_view text) {
        std::size_t number = 0;
        while (!text.empty() && number < kMostLines) {
            const auto end = std::min(text.find('\n'), text.size());
            place_ = "line " + std::to_string(++number);
            const std::string_view line = trimmed(text.substr(0, end));
            if (!line.empty() && line.front() != '#') entry(line);
            text.remove_prefix(std::min(end + 1, text.size()));
        }
        if (!text.empty())
            faults_.push_back({"schedule-too-long", "schedule", {{"most", std::to_string(kMostLines)}}});
        return std::move(schedule_);
    }

  private:
    void refuse(std::string_view text) {
        faults_.push_back({"schedule-line", place_, {{"text", std::string(text.substr(0, kShown))}}});
    }

    void entry(std::string_view line) {
        const auto day_end = std::min(line.find(';'), line.size());
        DatedRegimen read;
        if (!take(parse_day(trimmed(line.substr(0, day_end)), place_), read.from, faults_)) return;
        line.remove_prefix(std::min(day_end + 1, line.size()));
        for (const std::string_view part : parted(line, ",;")) dose(part, read.regimen);
        std::ranges::stable_sort(read.regimen.doses, {}, &DoseTime::at);
        schedule_.push_back(std::move(read));
    }

    /// "08:00 1 mg clonazepam": the time ends at the first space, the agent begins at the last.
    void dose(std::string_view part, Regimen& regimen) {
        const auto time_end = part.find(' '), drug_begins = part.rfind(' ');
        if (time_end == std::string_view::npos || time_end >= drug_begins) return refuse(part);
        DoseTime read;
        read.drug = std::string(part.substr(drug_begins + 1));
        if (!formulary_.find(read.drug)) return unknown(read.drug);
        const bool at = take(parse_clock(part.substr(0, time_end), place_), read.at, faults_);
        const auto amount = trimmed(part.substr(time_end, drug_begins - time_end));
        if (at & take(parse_dose(amount, place_), read.amount, faults_)) check(std::move(read), regimen);
    }

    void check(DoseTime read, Regimen& regimen) {
        const Drug& drug = *formulary_.find(read.drug);
        if (read.amount.is_zero())
            faults_.push_back({"amount-zero", place_, {}});
        else if (looks_like_unit_slip(drug, read.amount))
            faults_.push_back(
                {"case-unit-slip", place_, {{"amount", print_dose(read.amount)}, {"drug", read.drug}}});
        else
            regimen.doses.push_back(std::move(read));
    }

    void unknown(const std::string& name) {
        std::vector<std::string> names;
        for (const auto& [each, drug] : formulary_.drugs) names.push_back(each);
        faults_.push_back({"schedule-line-drug",
                           place_,
                           {{"text", name.substr(0, kShown)}, {"nearest", nearest_word(name, names)}}});
    }

    const Formulary& formulary_;
    Faults& faults_;
    std::string place_;
    std::vector<DatedRegimen> schedule_;
};

Result<std::vector<DatedRegimen>> read_json(std::string_view text, const Formulary& formulary) {
    const auto json = parse_strict_json(text, "schedule");
    if (!json) return json.faults();
    const nlohmann::json* list = &*json;
    if (json->is_object() && json->contains("schedule")) list = &(*json)["schedule"];
    const nlohmann::json wrapped = {{"schedule", *list}};
    Case given;
    Faults faults;
    const std::filesystem::path nowhere;
    const case_file::Reader reader{formulary, nowhere, given, faults};
    {
        StrictObject top(wrapped, "", faults);
        top.list("schedule", [&](const nlohmann::json& each, const std::string& at) {
            case_file::read_schedule_entry(reader, each, at);
        });
    }
    if (!faults.empty()) return faults;
    return std::move(given.schedule);
}

Result<std::vector<DatedRegimen>> read_lines(std::string_view text, const Formulary& formulary) {
    Faults faults;
    auto schedule = LineReader(formulary, faults).read(text);
    if (!faults.empty()) return faults;
    return schedule;
}

}  // namespace

Result<std::vector<DatedRegimen>> read_schedule_text(std::string_view text, const Formulary& formulary) {
    const std::string_view content =
        trimmed(text.substr(std::min(text.find_first_not_of(" \t\r\n"), text.size())));
    const bool is_json = !content.empty() && (content.front() == '{' || content.front() == '[');
    auto schedule = is_json ? read_json(content, formulary) : read_lines(text, formulary);
    if (schedule && schedule->empty()) return Fault{"review-empty", "schedule", {}};
    return schedule;
}

std::string write_schedule_text(const std::vector<DatedRegimen>& schedule) {
    std::string text;
    for (const DatedRegimen& entry : schedule) {
        text += print_day(entry.from) + ";";
        std::string parted = " ";
        for (const DoseTime& dose : entry.regimen.doses) {
            text += parted + print_clock(dose.at) + " " + print_dose(dose.amount) + " " + dose.drug;
            parted = ", ";
        }
        text += "\n";
    }
    return text;
}

}  // namespace evenfall
