// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <string_view>

#include "papers/common.h"

namespace evenfall::papers {
namespace {

/// What the caller does where a box is ticked: whom to call, at once or the same day.
Notice what_to_do(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const Clinic& clinic = desk.source.clinic;
    const Args numbers = {{"emergency", printable(clinic.emergency_number)},
                          {"crisis", printable(clinic.crisis_number)},
                          {"prescriber", printable(desk.source.prescriber.name)},
                          {"phone", printable(clinic.phone)},
                          {"after", printable(clinic.after_hours)}};
    return {
        {},
        {say("call-first", numbers),
         say(desk.source.prescriber.name.empty() ? "call-prescriber-unnamed" : "call-prescriber", numbers)}};
}

/// The signs of danger to tick: those that cannot wait on one side, those for the same day on the other.
void add_danger(Document& document, const PaperDesk& desk) {
    const Wording& say = desk.say;
    const bool off = takes_nothing(desk);  // and so nothing that could be forgotten or run out
    Side now, today;
    now.title = say("call-danger-now", {{"emergency", printable(desk.source.clinic.emergency_number)}});
    today.title = say("call-danger-today");
    now.boxes = today.boxes = true;
    for (const char* sign : {"suicide-now", "restless", "seizure", "confusion", "fever", "breath", "mania"})
        now.items.push_back(say(std::string("call-danger-") + sign));
    for (const char* sign :
         {"suicide", "restless-some", desk.source.as_needed ? "more" : "missed", "out", "pregnant", "new"})
        if (const std::string_view id(sign); (!off || (id != "out" && id != "missed" && id != "more")) &&
                                             (id != "pregnant" || !is_at_risk(desk, "pregnancy")))
            today.items.push_back(say(std::string("call-danger-") + sign));
    add(document, Heading{say("call-danger-heading"), 2}, true);
    if (const auto reported = dangers_in_words(desk); !reported.empty())
        add(document, Paragraph{say("call-reported", {{"dangers", joined(reported, ", ")}}), true}, true);
    add(document, Sides{{std::move(now), std::move(today)}});
}

/// Questions with room for an answer beside each.
Grid answers(std::vector<std::string> questions) {
    return {{{{}, {}, 1, false}, {{}, {}, 1.2, false}}, std::move(questions), 1};
}

/// What is taken today, and what the next agreed step changes: the guide may lie for some days.
List planned_doses(const PaperDesk& desk) {
    const Wording& say = desk.say;
    List doses{made_doses_in_words(desk), false};
    if (std::string hold = hold_in_words(desk); !hold.empty()) doses.items.push_back(std::move(hold));
    const auto next =
        std::ranges::find_if(desk.steps, [&](const FirmStep& step) { return step.from > desk.source.as_of; });
    if (next != desk.steps.end())
        doses.items.push_back(
            say("call-doses-from", {{"date", say.short_date(next->from)},
                                    {"changes", joined(changes_in_words(desk, *next, Told::pieces), "; ")}}));
    return doses;
}

void add_doses(Document& document, const PaperDesk& desk) {
    const Wording& say = desk.say;
    const bool off = takes_nothing(desk);
    if (off || desk.source.as_needed) {
        const std::string doses = daily_in_words(desk, regimen_on_issue(desk.source));
        add(document, Heading{say("call-doses-heading"), 2}, true);
        add(document,
            Paragraph{off ? begun(say("call-dose-off", {{"agent", desk.agent()}}))
                          : say("call-dose-planned", {{"doses", doses}}),
                      true},
            true);
    } else {
        add(document, Heading{say("call-doses-on", {{"date", say.short_date(desk.source.as_of)}}), 2}, true);
        add(document, planned_doses(desk), true);
    }
    add(document, answers({say(off                     ? "call-dose-since"
                               : desk.source.as_needed ? "call-dose-when"
                                                       : "call-dose-times"),
                           say("call-dose-home")}));
}

void add_symptoms(Document& document, const PaperDesk& desk) {
    const Wording& say = desk.say;
    add(document, Heading{say("call-symptoms-heading"), 2}, true);
    Grid grid;
    grid.columns = {{say("call-symptom"), {}, 2, false},
                    {say("call-now"), {}, 1, false},
                    {say("call-worst"), {}, 1, false}};
    for (const std::string& item : desk.source.tracked_items) grid.rows.push_back(desk.say.item(item));
    if (grid.rows.empty())
        grid.rows = {say("diary-item-anxiety"), say("diary-item-body"), say("diary-item-mood"),
                     say("paper-item-sleep")};
    add(document, std::move(grid));
}

}  // namespace

Document make_call_guide(const PaperDesk& desk) {
    const Wording& say = desk.say;
    Document document = begin(Paper::call, desk, say("call-title"),
                              say("call-subtitle", {{"date", say.date(desk.source.as_of)}}));
    add(document, what_to_do(desk));
    add_danger(document, desk);
    add_doses(document, desk);
    const bool off = takes_nothing(desk);
    add_symptoms(document, desk);
    add(document, Heading{say("call-life-heading"), 2}, true);
    add(document, answers({say("call-life-work"), say("call-life-support"), say("call-life-other"),
                           say("call-confidence")}));
    add(document, Heading{say("call-words-heading"), 2}, true);
    add(document, Grid{{{{}, {}, 1, false}}, {""}, 2});
    if (!off)
        add(document, Paragraph{say(desk.source.as_needed ? "call-keep-as-needed"
                                    : desk.source.plan    ? "call-keep"
                                                          : "call-keep-no-plan"),
                                true});
    add(document, Signature{{}, {{say("call-close"), {}}, {say("call-caller-on"), {}}}});
    return document;
}

}  // namespace evenfall::papers
