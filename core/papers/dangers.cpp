// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <map>

#include "papers/common.h"
#include "units/letters.h"

namespace evenfall::papers {
namespace {

std::optional<Day> day_written(const std::string& text) {
    const auto day = parse_day(text, "on");
    return day ? std::optional(*day) : std::nullopt;
}

/// "seizure (reported 18 Dec 2026)"; what has no short name, as its rule says it.
std::string reported_in_words(const PaperDesk& desk, const Flag& flag) {
    const std::string id = "letter-reported-" + flag.rule;
    const auto on = flag.args.find("on");
    const auto day = on == flag.args.end() ? std::nullopt : day_written(on->second);
    Flag dated = flag;
    if (day) dated.args["on"] = desk.say.short_date(*day);
    if (!desk.say.has(id) || !day) return desk.source.rules->sentence(dated, desk.say.language());
    return desk.say("letter-reported", {{"what", desk.say(id)}, {"date", dated.args["on"]}});
}

constexpr std::string_view kNewSedative = "red-flag-new-opioid-or-sedative";

bool reports(const PaperDesk& desk, std::string_view rule) {
    return std::ranges::any_of(desk.source.reported, [&](const Flag& flag) { return flag.rule == rule; });
}

}  // namespace

bool reports_new_sedative(const PaperDesk& desk) {
    return reports(desk, kNewSedative);
}

std::string risk_in_words(const PaperDesk& desk, const std::string& risk) {
    return desk.say("risk-word-" + with_dashes(risk));
}

bool is_at_risk(const PaperDesk& desk, const std::string& risk) {
    static const std::map<std::string, std::string_view> kReportedAs = {
        {"withdrawal seizure", "red-flag-seizure"},
        {"pregnancy", "red-flag-pregnancy"},
        {"other sedative", kNewSedative}};
    if (desk.source.risks.contains(risk)) return true;
    const auto as = kReportedAs.find(risk);
    return as != kReportedAs.end() && reports(desk, as->second);
}

std::vector<std::string> dangers_in_words(const PaperDesk& desk) {
    std::vector<std::string> words;
    for (const Flag& flag : desk.source.reported)
        if (std::string said = reported_in_words(desk, flag); !std::ranges::count(words, said))
            words.push_back(std::move(said));
    return words;
}

}  // namespace evenfall::papers
