// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "casework/interactions.h"
#include "papers/common.h"

namespace evenfall::papers {
namespace {

Side side_of(const PaperDesk& desk, const std::string& title, const std::vector<std::string>& ids) {
    const Args args = {{"agent", agents_in_words(desk)}};
    Side side;
    side.title = desk.say(title, args);
    for (const std::string& id : ids) side.items.push_back(desk.say(id, args));
    return side;
}

/// The line for a risk: one of its own where nothing is taken any more, so that no dose is spoken of.
std::string risk_line(const PaperDesk& desk, const std::string& id, bool off) {
    const Args emergency = {{"emergency", printable(desk.source.clinic.emergency_number)}};
    if (off && desk.say.has(id + "-off")) return desk.say(id + "-off", emergency);
    return desk.say(id, emergency);
}

/// What the risk screen adds, in the order in which it is asked.
std::vector<std::string> risk_lines(const PaperDesk& desk) {
    static const std::vector<std::pair<std::string, std::string>> kLines = {
        {"withdrawal seizure", "caution-you-seizure"},
        {"epilepsy", "caution-you-seizure"},
        {"pregnancy", "caution-you-pregnancy"},
        {"breastfeeding", "caution-you-breastfeeding"},
        {"opioid", "caution-you-opioid"},
        {"alcohol", "caution-you-alcohol"},
        {"other sedative", "caution-you-sedative"},
        {"older age", "caution-you-older"},
        {"falls", "caution-you-older"},
        {"weak liver", "caution-you-liver"},
        {"breathing trouble", "caution-you-breathing"},
        {"driving work", "caution-you-driving"},
        {"lives alone", "caution-you-alone"}};
    const PaperSource& source = desk.source;
    const bool off = takes_nothing(desk);
    std::vector<std::string> lines;
    for (const auto& [risk, id] : kLines) {
        if (!is_at_risk(desk, risk) || (off && risk == "driving work")) continue;
        // The title names the other agent of the sheet, and all that it says holds for it.
        if (risk == "other sedative" && agents_on_sheet(desk).size() > 1) continue;
        const std::string line = risk_line(desk, id, off);
        if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
        if (risk == "opioid" ||
            (risk == "other sedative" && reports_new_sedative(desk) && !is_at_risk(desk, "opioid")))
            lines.push_back(
                desk.say(source.naloxone_at_home ? "caution-you-naloxone" : "caution-you-naloxone-ask"));
    }
    return lines;
}

/// Whether a medicine acts on the agent or adds to it, by the formulary or by the rules' lists.
bool interacts(const PaperDesk& desk, const std::string& agent, const std::string& medicine) {
    const Drug* drug = desk.source.formulary->find(agent);
    if (drug && interaction_with(*drug, medicine)) return true;
    return desk.source.rules && (is_listed_medicine(medicine, "opioid-medicines", *desk.source.rules) ||
                                 is_listed_medicine(medicine, "sedative-medicines", *desk.source.rules));
}

std::vector<std::string> medicine_lines(const PaperDesk& desk) {
    std::vector<std::string> lines;
    std::vector<std::string> others;
    for (const std::string& medicine : desk.source.other_medicines) {
        const std::string name = printable(medicine);
        if (name.empty()) continue;
        std::vector<std::string> agents;
        if (!takes_nothing(desk)) agents = agents_on_sheet(desk);
        std::erase_if(agents, [&](const std::string& agent) { return !interacts(desk, agent, name); });
        if (!agents.empty())
            lines.push_back(desk.say("caution-you-interacts", {{"medicine", desk.say.medicine(medicine)},
                                                               {"agent", in_one_phrase(desk, agents)}}));
        else
            others.push_back(desk.say.medicine(medicine));
    }
    if (!others.empty())
        lines.push_back(desk.say("caution-you-other", {{"medicines", joined(others, ", ")}}));
    return lines;
}

void add_for_you(Document& document, const PaperDesk& desk) {
    std::vector<std::string> lines = risk_lines(desk);
    for (std::string& line : medicine_lines(desk)) lines.push_back(std::move(line));
    if (lines.empty()) return;
    add(document, Heading{desk.say("caution-you-title"), 2}, true);
    add(document, List{std::move(lines), false});
}

void add_emergency(Document& document, const PaperDesk& desk) {
    const Clinic& clinic = desk.source.clinic;
    Notice notice;
    notice.title = desk.say("caution-emergency-title", {{"emergency", printable(clinic.emergency_number)}});
    for (const char* sign :
         {"seizure", "confusion", "suicide", "restless", "fever", "chest", "breath", "fall", "rage"})
        notice.lines.push_back(desk.say(std::string("caution-emergency-") + sign) + ".");
    add(document, std::move(notice));
    add(document, Paragraph{desk.say("caution-crisis", {{"crisis", printable(clinic.crisis_number)}}), true});
}

/// What holds at all times; of whom nothing is taken any more, nothing that speaks of a dose or of a mix.
std::vector<Side> at_all_times(const PaperDesk& desk, bool off) {
    if (off)
        return {side_of(desk, "caution-mix-title-off", {"caution-mix-other"}),
                side_of(desk, "caution-keep-title-off", {"caution-keep-back", "caution-keep-bin"}),
                side_of(desk, "caution-drive-title", {"caution-drive", "caution-drive-law"})};
    const bool opioid = desk.source.risks.contains("opioid");
    return {
        side_of(desk, "caution-mix-title",
                {"caution-mix-alcohol", opioid ? "caution-mix-opioid-taken" : "caution-mix-opioid",
                 "caution-mix-other"}),
        side_of(desk, "caution-keep-title",
                {"caution-keep-lock", "caution-keep-share", "caution-keep-back", "caution-keep-bin"}),
        side_of(desk, "caution-drive-title", {"caution-drive", "caution-drive-change", "caution-drive-law"}),
        side_of(desk, "caution-off-title", {"caution-off-cut"})};
}

}  // namespace

Document make_caution(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const bool scheduled = !desk.steps.empty();
    const bool off = takes_nothing(desk);
    const bool when_needed = desk.source.as_needed;
    Document document = begin(Paper::caution, desk, say("caution-title", {{"agent", agents_in_words(desk)}}),
                              say(scheduled ? "caution-subtitle" : "caution-subtitle-alone"));
    if (off)
        add(document, Notice{say("caution-notice-off", {{"agent", desk.agent()}}),
                             {say("caution-off"), say("schedule-off-return")}});
    else
        add(document, Notice{say("caution-notice"),
                             {say("caution-notice-why", {{"agent", agents_in_words(desk)}}),
                              say(scheduled     ? "caution-notice-each"
                                  : when_needed ? "caution-notice-as-needed"
                                                : "caution-notice-each-agreed"),
                              say("caution-notice-out")}});
    add_emergency(document, desk);
    add_whom_to_call(document, desk);
    std::vector<std::string> same_day = {"caution-same-day-low", "caution-same-day-restless"};
    if (!off)
        same_day.insert(same_day.end(), {when_needed ? "caution-same-day-more" : "caution-same-day-missed",
                                         "caution-same-day-out"});
    if (!is_at_risk(desk, "pregnancy")) same_day.emplace_back("caution-same-day-pregnant");
    same_day.emplace_back("caution-same-day-new");
    Sides when{{side_of(desk, "caution-same-day-title", same_day)}};
    if (!off)
        when.sides.push_back(side_of(desk, "caution-hard-title",
                                     {when_needed ? "caution-hard-keep-as-needed" : "caution-hard-keep",
                                      desk.source.plan ? "caution-hard-call" : "caution-hard-call-no-plan",
                                      "caution-hard-up", "caution-hard-normal"}));
    add(document, std::move(when));
    add_for_you(document, desk);
    add(document, Sides{at_all_times(desk, off)});
    add(document, Paragraph{say("caution-defer"), true});
    return document;
}

}  // namespace evenfall::papers
