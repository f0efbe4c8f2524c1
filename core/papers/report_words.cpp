// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/report_words.h"

#include <algorithm>
#include <cmath>

#include "units/dose_text.h"
#include "units/letters.h"

namespace evenfall::papers {
namespace {

std::string before_space(const std::string& text) {
    return text.substr(0, text.find(' '));
}

/// "-0.7" with the sign that cannot be read as a hyphen.
std::string with_true_minus(const std::string& value) {
    const bool negative = value.size() > 1 && value[0] == '-' && value[1] >= '0' && value[1] <= '9';
    return negative ? "\u2212" + value.substr(1) : value;
}

std::string after_space(const std::string& text) {
    const std::size_t end = text.find(' ');
    return end == std::string::npos ? std::string() : text.substr(end + 1);
}

}  // namespace

std::string ReportWords::value(const std::string& name, const std::string& value) const {
    const Wording& say = desk_.say;
    if (name == "drug") return printable(say.agent(value));
    if (name == "use") return say("report-use-" + with_dashes(value));
    if (name == "risk") return say("risk-word-" + with_dashes(value));
    return with_true_minus(value);
}

std::string ReportWords::sentence(const Flag& flag) const {
    Flag worded = flag;
    for (auto& [name, text] : worded.args) text = value(name, text);
    return desk_.source.rules->sentence(worded, desk_.say.language());
}

std::string ReportWords::entry(const std::string& name) const {
    const Wording& say = desk_.say;
    std::string rest = name, written;
    if (rest.ends_with(kNotWrittenDown)) {
        rest.erase(rest.size() - kNotWrittenDown.size());
        written = say("report-not-written-down");
    }
    const auto time = parse_local_time(before_space(name), {});
    const auto day = parse_day(before_space(name), {});
    if (!time && !day) {
        // A question of the risk screen.
        const std::string id = "risk-word-" + with_dashes(rest);
        return say.has(id) ? say(id) : printable(rest);
    }
    rest = in_reader_words(after_space(rest));
    const std::string clock = time ? print_clock(clock_of(*time)) : std::string();
    return joined({say.short_date(time ? day_of(*time) : *day), clock, printable(rest), written}, " ");
}

/// A dose ("lorazepam 1 mg"), an answered question ("cannot sit still") or a rating ("low mood 4").
std::string ReportWords::in_reader_words(const std::string& what) const {
    const Wording& say = desk_.say;
    const std::string drug = before_space(what);
    if (desk_.source.formulary->find(drug) != nullptr) return say.agent(drug) + " " + after_space(what);
    if (const std::string question = "letter-reported-red-flag-" + with_dashes(what); say.has(question))
        return say(question);
    const std::size_t end = what.rfind(' ');
    const bool rated = end != std::string::npos && what.find_first_not_of("0123456789", end + 1) == what.npos;
    return rated ? say.item(what.substr(0, end)) + what.substr(end) : what;
}

std::string ReportWords::entries(const Flag& flag, std::size_t most) const {
    std::vector<std::string> names;
    for (const std::string& name : flag.entries) {
        if (names.size() == most) break;
        names.push_back(entry(name));
    }
    if (flag.entries.size() > most)
        names.push_back(desk_.say("report-more", {{"count", std::to_string(flag.entries.size() - most)}}));
    return joined(names, "; ");
}

std::string ReportWords::day_of_doses(const Regimen& regimen) const {
    std::vector<std::string> agents;
    for (const std::string& drug : agents_of(regimen)) {
        std::vector<std::string> doses;
        for (const DoseTime& dose : regimen.doses)
            if (dose.drug == drug) doses.push_back(print_clock(dose.at) + " " + print_dose(dose.amount));
        agents.push_back(printable(desk_.say.agent(drug)) + " " + joined(doses, ", "));
    }
    return joined(agents, "; ");
}

std::string ReportWords::day_of_doses(const std::vector<PlannedDose>& doses) const {
    Regimen regimen;
    for (const PlannedDose& dose : doses) regimen.doses.push_back({dose.at, dose.drug, dose.amount, {}, {}});
    return day_of_doses(regimen);
}

std::string ReportWords::total(double amount) const {
    // A mean of days: rounded to a hundredth of a milligram, which nobody takes.
    const std::string printed = print_dose(Dose::micrograms(std::llround(amount * 100) * 10));
    return check_.unit == "mg" ? printed : desk_.say("report-as-diazepam", {{"amount", printed}});
}

std::string whole_percent(const Wording& say, double percent) {
    return say("report-percent", {{"number", std::to_string(std::lround(percent))}});
}

}  // namespace evenfall::papers
