// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/morning.h"

#include "papers/wording.h"

namespace evenfall::papers {
namespace {

constexpr std::size_t kMostText = 400;  // characters of anything typed freely

Row row_of(const MorningLine& line, const Wording& say) {
    Cell who, why, dose, call;
    who.tick_box = true;
    who.strong = {printable(line.name)};
    who.lines = {printable(line.reference)};
    for (const std::string& reason : line.reasons) why.lines.push_back(printable(reason));
    dose.lines = {line.dose.empty() ? say("morning-no-dose") : printable(line.dose)};
    call.lines = {line.phone.empty() ? say("morning-no-phone") : printable(line.phone)};
    call.lines.push_back(line.safe_times.empty() ? say("morning-any-time") : printable(line.safe_times));
    return {who, why, dose, call, Cell{}};
}

Group group_of(const MorningList& list, bool urgent, const Wording& say) {
    Group group;
    for (const MorningLine& line : list.lines)
        if (line.urgent == urgent) group.rows.push_back(row_of(line, say));
    if (group.rows.empty()) return group;
    const std::string id = urgent ? "morning-urgent" : "morning-others";
    group.band = {say(id, {{"count", std::to_string(group.rows.size())}})};
    group.continued = say(id + "-on");
    return group;
}

Faults check(const MorningList& list) {
    Faults faults;
    if (list.lines.empty()) faults.push_back({"paper-no-lines", "caseload", {}});
    const auto hold = [&](const std::string& place, const std::string& text) {
        if (const std::size_t length = character_count(text); length > kMostText)
            faults.push_back({"paper-text-long",
                              place,
                              {{"length", std::to_string(length)}, {"most", std::to_string(kMostText)}}});
    };
    for (const MorningLine& line : list.lines) {
        for (const std::string& text : {line.name, line.reference, line.dose, line.phone, line.safe_times})
            hold(line.reference, text);
        for (const std::string& reason : line.reasons) hold(line.reference, reason);
    }
    return faults;
}

}  // namespace

Result<Document> make_morning(const MorningList& list, const Texts& texts) {
    if (Faults faults = check(list); !faults.empty()) return faults;
    const Wording say(texts, list.parts);
    Document document;
    document.paper = "morning";
    document.language = say.language();
    document.title = say("morning-title");
    document.subtitle = say.date(list.day);
    document.patient = joined({printable(list.clinic.name), say("morning-stays")}, " · ");
    document.footer.patient = say("morning-stays");
    document.footer.version = say.short_date(list.day);
    document.footer.page = say("paper-page");
    Table table;
    table.columns = {{say("morning-column-who"), {}, 1.7, false},
                     {say("morning-column-why"), {}, 1.7, false},
                     {say("morning-column-dose"), {}, 1.3, false},
                     {say("morning-column-call"), {}, 1.4, false},
                     {say("schedule-column-notes"), {}, 1.5, false}};
    for (const bool urgent : {true, false})
        if (Group group = group_of(list, urgent, say); !group.rows.empty())
            table.groups.push_back(std::move(group));
    if (list.unreadable > 0)
        document.blocks.push_back(
            {Paragraph{say("morning-unreadable", {{"count", std::to_string(list.unreadable)}}), true}, true});
    document.blocks.push_back({std::move(table), false});
    document.blocks.push_back(
        {Signature{{}, {{say("call-caller"), printable(list.made_by)}, {say("paper-sign-date"), {}}}},
         false});
    return document;
}

}  // namespace evenfall::papers
