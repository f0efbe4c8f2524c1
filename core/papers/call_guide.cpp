// SPDX-License-Identifier: GPL-3.0-or-later
#include <string_view>

#include "papers/common.h"

namespace evenfall::papers {
namespace {

void add_danger(Document& document, const PaperDesk& desk) {
    constexpr std::size_t kHalf = 5;
    const bool off = takes_nothing(desk);  // and so nothing that could run out
    Side left, right;
    left.boxes = right.boxes = true;
    for (const char* sign : {"suicide", "restless", "seizure", "confusion", "fever", "breath", "mania", "out",
                             "pregnant", "new"}) {
        if (off && std::string_view(sign) == "out") continue;
        Side& side = left.items.size() < kHalf ? left : right;
        side.items.push_back(desk.say(std::string("call-danger-") + sign));
    }
    add(document, Heading{desk.say("call-danger-heading"), 2}, true);
    add(document, Sides{{std::move(left), std::move(right)}});
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

/// Questions with room for an answer beside each.
Grid answers(std::vector<std::string> questions) {
    return {{{{}, {}, 1, false}, {{}, {}, 1.2, false}}, std::move(questions), 1};
}

}  // namespace

Document make_call_guide(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const Clinic& clinic = desk.source.clinic;
    Document document = begin(Paper::call, desk, say("call-title"),
                              say("call-subtitle", {{"date", say.date(desk.source.as_of)}}));
    add(document, Notice{{},
                         {say("call-first", {{"emergency", printable(clinic.emergency_number)},
                                             {"crisis", printable(clinic.crisis_number)}})}});
    add_danger(document, desk);
    add(document, Heading{say("call-doses-heading"), 2}, true);
    const Regimen today = regimen_on_issue(desk.source);
    const std::string doses =
        desk.source.as_needed ? daily_in_words(desk, today) : joined(doses_in_words(desk), "; ");
    const bool off = takes_nothing(desk);
    add(document,
        Paragraph{off ? begun(say("call-dose-off", {{"agent", desk.agent()}}))
                      : say("call-dose-planned", {{"doses", doses}}),
                  true},
        true);
    add(document, answers({say(off ? "call-dose-since" : "call-dose-times"), say("call-dose-home")}));
    add_symptoms(document, desk);
    add(document, Heading{say("call-life-heading"), 2}, true);
    add(document, answers({say("call-life-work"), say("call-life-support"), say("call-life-other"),
                           say(off ? "call-confidence-off" : "call-confidence")}));
    add(document, Heading{say("call-words-heading"), 2}, true);
    add(document, Grid{{{{}, {}, 1, false}}, {""}, 2});
    if (!off)
        add(document, Paragraph{say(desk.source.as_needed ? "call-keep-as-needed" : "call-keep"), true});
    add(document, Signature{{}, {{say("call-close"), {}}, {say("call-caller-on"), {}}}});
    return document;
}

}  // namespace evenfall::papers
