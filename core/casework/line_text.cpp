// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/line_text.h"

#include "model/json.h"

namespace evenfall {
namespace {

using nlohmann::json;

json written(const Reason& reason) {
    return {static_cast<int>(reason.urgency), reason.rank, reason.flag.rule, reason.flag.args,
            reason.flag.entries};
}

Reason read_reason(const json& read) {
    Reason reason;
    reason.urgency = static_cast<Urgency>(read.at(0).get<int>());
    reason.rank = read.at(1).get<int>();
    read.at(2).get_to(reason.flag.rule);
    read.at(3).get_to(reason.flag.args);
    read.at(4).get_to(reason.flag.entries);
    return reason;
}

}  // namespace

std::string print_line(const CaseloadLine& line) {
    json reasons = json::array(), spark = json::array(), snoozed = json::array();
    for (const Reason& reason : line.reasons) reasons.push_back(written(reason));
    for (const SparkPoint& point : line.spark) spark.push_back({point.day, point.mg});
    for (const Snoozed& each : line.snoozed)
        snoozed.push_back({written(each.reason), print_day(each.until), each.because});
    return json{{"patient", line.patient},
                {"reference", line.reference},
                {"name", line.name},
                {"drug", line.drug},
                {"daily", line.daily.ng()},
                {"reasons", reasons},
                {"spark", spark},
                {"phone", line.phone},
                {"safe_times", line.safe_times},
                {"clinician", line.clinician},
                {"nurse", line.nurse},
                {"snoozed", snoozed},
                {"standing", line.standing}}
        .dump(-1, ' ', false, json::error_handler_t::replace);
}

std::optional<CaseloadLine> read_line(std::string_view text) {
    try {
        const json read = json::parse(text);
        CaseloadLine line;
        read.at("patient").get_to(line.patient);
        read.at("reference").get_to(line.reference);
        read.at("name").get_to(line.name);
        read.at("drug").get_to(line.drug);
        line.daily = Dose::nanograms(read.at("daily").get<std::int64_t>());
        for (const json& each : read.at("reasons")) line.reasons.push_back(read_reason(each));
        for (const json& each : read.at("spark"))
            line.spark.push_back({each.at(0).get<int>(), each.at(1).get<double>()});
        read.at("phone").get_to(line.phone);
        read.at("safe_times").get_to(line.safe_times);
        read.at("clinician").get_to(line.clinician);
        read.at("nurse").get_to(line.nurse);
        for (const json& each : read.at("snoozed"))
            line.snoozed.push_back(
                {read_reason(each.at(0)), each.at(1).get<Day>(), each.at(2).get<std::string>()});
        read.at("standing").get_to(line.standing);
        if (line.reasons.empty()) return std::nullopt;
        return line;
    } catch (const std::exception&) {
        return std::nullopt;
    }
}

}  // namespace evenfall
