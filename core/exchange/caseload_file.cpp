// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/caseload_file.h"

#include <nlohmann/json.hpp>

#include "model/json.h"

namespace evenfall {
namespace {

using nlohmann::json;
using std::chrono::days;

/// The text with its date moved, where it is a date or begins with one and a time.
std::string moved(const std::string& text, days by) {
    if (text.size() < 10 || text[4] != '-' || text[7] != '-' || (text.size() > 10 && text[10] != 'T'))
        return text;
    const auto day = parse_day(std::string_view(text).substr(0, 10), "");
    if (!day) return text;
    return print_day(*day + by) + text.substr(10);
}

void move_dates(json& value, days by) {
    if (value.is_string())
        value = moved(value.get_ref<const std::string&>(), by);
    else if (value.is_array())
        for (auto& part : value) move_dates(part, by);
    else if (value.is_object())
        for (auto& [name, part] : value.items())
            if (name != "born") move_dates(part, by);  // nobody is born on another day for being shown later
}

}  // namespace

Result<CaseloadFile> read_caseload(std::string_view text, std::string_view file_name) {
    CaseloadFile caseload;
    try {
        json parsed = json::parse(text);
        caseload.as_of = parsed.at("as_of").get<LocalTime>();
        for (json& each : parsed.at("events")) {
            Event event;
            event.id = each.value("id", "");
            event.patient = each.value("patient", "");
            event.kind = each.at("kind").get<std::string>();
            event.version = each.value("version", 1);
            event.body = Body(std::move(each.at("body")));
            caseload.events.push_back(std::move(event));
        }
    } catch (const std::exception& error) {
        return Fault{"caseload-shape", std::string(file_name), {{"text", error.what()}}};
    }
    return caseload;
}

std::string write_caseload(const CaseloadFile& caseload) {
    std::string text = "{\"as_of\": \"" + print_local_time(caseload.as_of) + "\",\n\"events\": [";
    const char* before = "\n";
    for (const Event& event : caseload.events) {
        nlohmann::ordered_json each;
        if (!event.id.empty()) each["id"] = event.id;
        if (!event.patient.empty()) each["patient"] = event.patient;
        each["kind"] = event.kind;
        if (event.version != 1) each["version"] = event.version;
        each["body"] = *event.body;
        text += before + each.dump();
        before = ",\n";
    }
    return text + "\n]}\n";
}

CaseloadFile told_as_of(CaseloadFile caseload, LocalTime now) {
    const days by = day_of(now) - day_of(caseload.as_of);
    if (by == days(0)) return caseload;
    for (Event& event : caseload.events) move_dates(*event.body, by);
    caseload.as_of += by;
    return caseload;
}

}  // namespace evenfall
