// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/case_file.h"

#include <algorithm>

#include "exchange/read_parts.h"
#include "model/strict_json.h"

namespace evenfall {
namespace {

using namespace case_file;

using ReadOne = void (*)(const Reader&, const Json&, const std::string&);
using ReadNamed = void (*)(const Reader&, const std::string&, const Json&, const std::string&);

/// The parts that are one object.
void read_object(StrictObject& top, const Reader& reader, const char* key, ReadOne read) {
    if (const Json* value = top.find(key)) read(reader, *value, top.place(key));
}

void read_list(StrictObject& top, const Reader& reader, const char* key, ReadOne read) {
    top.list(
        key, [&](const Json& value, const std::string& place) { read(reader, value, place); }, Need::may);
}

/// The parts that are objects of drug to object.
void read_members(StrictObject& top, const Reader& reader, const char* key, ReadNamed read) {
    top.members(
        key,
        [&](const std::string& drug, const Json& value, const std::string& place) {
            read(reader, drug, value, place);
        },
        Need::may);
}

void read_regimen(StrictObject& top, const Reader& reader) {
    if (!top.find("regimen")) return;
    Regimen regimen;
    top.list(
        "regimen",
        [&](const Json& value, const std::string& place) {
            regimen.doses.push_back(read_dose_time(reader, value, place));
        },
        Need::may);
    if (regimen.doses.empty()) reader.fault(top.place("regimen"), "regimen-empty");
    if (regimen.doses.size() > kMostDoseTimes)
        reader.fault(top.place("regimen"), "regimen-too-many", {{"most", std::to_string(kMostDoseTimes)}});
    std::ranges::stable_sort(regimen.doses, {}, &DoseTime::at);
    for (std::size_t i = 1; i < regimen.doses.size(); ++i)
        if (regimen.doses[i].at == regimen.doses[i - 1].at &&
            regimen.doses[i].drug == regimen.doses[i - 1].drug)
            reader.fault(top.place("regimen"), "dose-time-twice");
    reader.given.regimen = std::move(regimen);
}

void read_clock(StrictObject& top, const Reader& reader, LocalTime now) {
    std::string zone;
    if (top.text("timezone", zone, Need::may)) {
        auto named = Zone::named(zone, top.place("timezone"));
        take(std::move(named), reader.given.zone, reader.faults);
    }
    reader.given.as_of = now;
    reader.given.as_of_given = reader.time(top, "as_of", reader.given.as_of, Need::may);
}

void read_parts(StrictObject& top, const Reader& reader) {
    read_object(top, reader, "patient", read_patient);
    read_object(top, reader, "clinic", read_clinic);
    read_object(top, reader, "prescriber", read_prescriber);
    reader.given.risks_given = top.find("risks") != nullptr;
    read_list(top, reader, "risks", read_risk);
    top.texts("other_medicines", reader.given.other_medicines, Need::may);
    read_list(top, reader, "products", read_product);
    read_regimen(top, reader);
    read_members(top, reader, "equivalence", read_equivalence);
    read_members(top, reader, "kinetics", read_kinetics);
    read_object(top, reader, "plan", read_plan);
    read_object(top, reader, "crossover", read_crossover);
    read_list(top, reader, "schedule", read_schedule_entry);
    read_object(top, reader, "supply", read_supply);
    read_object(top, reader, "diary", read_diary);
    read_list(top, reader, "checkins", read_checkin);
    read_list(top, reader, "scales", read_scale);
    read_object(top, reader, "levels", read_levels);
}

void check_schedule(const Reader& reader) {
    const auto& schedule = reader.given.schedule;
    for (std::size_t i = 1; i < schedule.size(); ++i)
        if (schedule[i].from <= schedule[i - 1].from)
            reader.fault("schedule[" + std::to_string(i) + "].starts", "days-out-of-order");
}

}  // namespace

Result<Case> read_case(std::string_view text, std::string_view file_name, const std::filesystem::path& folder,
                       const Formulary& formulary, LocalTime now) {
    auto json = parse_strict_json(text, file_name);
    if (!json) return json.faults();
    Case given;
    Faults faults;
    {
        const Reader reader{formulary, folder, given, faults};
        StrictObject top(*json, "", faults);
        if (top.is_object()) {
            int version = 1;
            top.whole("case", version, 1, 1);
            read_clock(top, reader, now);
            read_parts(top, reader);
            check_schedule(reader);
        }
    }
    for (Fault& fault : faults)
        if (!fault.place.starts_with(file_name))
            fault.place = std::string(file_name) + (fault.place.empty() ? "" : ": " + fault.place);
    if (!faults.empty()) return faults;
    return given;
}

Formulary with_case(Formulary formulary, const Case& given) {
    for (const auto& [drug, kinetics] : given.kinetics) formulary.drugs.at(drug).kinetics = kinetics;
    for (const auto& [name, own] : given.equivalences) {
        Drug& drug = formulary.drugs.at(name);
        Equivalence equivalence = drug.equivalence.value_or(Equivalence{});
        equivalence.usual = own.usual;
        equivalence.least_diazepam =
            own.least_diazepam.value_or(std::max(equivalence.least_diazepam, own.usual));
        equivalence.most_diazepam = own.most_diazepam.value_or(
            equivalence.most_diazepam.is_zero() ? own.usual : std::min(equivalence.most_diazepam, own.usual));
        equivalence.usual_source = "case file";
        drug.equivalence = std::move(equivalence);
    }
    return formulary;
}

std::vector<std::string> overridden_by(const Case& given) {
    std::vector<std::string> overridden;
    for (const auto& [drug, kinetics] : given.kinetics) overridden.push_back("kinetics of " + drug);
    for (const auto& [drug, own] : given.equivalences) overridden.push_back("equivalence of " + drug);
    return overridden;
}

}  // namespace evenfall
