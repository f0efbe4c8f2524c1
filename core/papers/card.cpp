// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/common.h"
#include "units/dose_text.h"

namespace evenfall::papers {
namespace {

KeyValues particulars(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const PaperSource& source = desk.source;
    KeyValues values;
    const std::string date = say.short_date(source.as_of);
    for (const auto& [drug, amount] : daily_amounts(regimen_on_issue(source))) {
        const Args args = {{"agent", say.agent(drug)}, {"amount", print_dose(amount)}};
        values.rows.emplace_back(
            say("card-agent"),
            source.as_needed ? say("card-as-of", {{"dose", say("letter-as-needed", args)}, {"date", date}})
                             : joined({say("card-dose", args), say("card-on", {{"date", date}})}, " "));
    }
    if (takes_nothing(desk)) values.rows.emplace_back(say("card-agent-off"), desk.agent());
    const std::vector<std::string> medicines = medicines_in_words(desk);
    if (!medicines.empty()) values.rows.emplace_back(say("card-medicines"), joined(medicines, ", "));
    if (!source.prescriber.name.empty())
        values.rows.emplace_back(say("card-prescriber"), printable(source.prescriber.name));
    return values;
}

}  // namespace

Document make_card(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const PaperSource& source = desk.source;
    Document document =
        begin(Paper::card, desk, say(takes_nothing(desk) ? "card-title-off" : "card-title"), {});
    document.card = true;
    add(document, particulars(desk));
    std::vector<std::string> lines = {say(takes_nothing(desk) ? "card-off-why"
                                          : source.as_needed  ? "card-why-as-needed"
                                                              : "card-why")};
    if (!desk.steps.empty() && !takes_nothing(desk))
        lines.push_back(say("card-changes", {{"code", desk.code}}));
    if (source.risks.contains("opioid")) lines.push_back(say("card-opioid"));
    if (reports_new_sedative(desk)) lines.push_back(say("card-new-sedative"));
    if (is_at_risk(desk, "withdrawal seizure") || source.risks.contains("epilepsy"))
        lines.push_back(say("card-seizure"));
    if (is_at_risk(desk, "pregnancy")) lines.push_back(say("card-pregnancy"));
    add(document, Notice{{}, std::move(lines)});
    add_whom_to_call(document, desk);
    if (auto mark = version_mark(desk)) {
        mark->caption = say("card-mark", {{"code", desk.code}});
        add(document, std::move(*mark));
    }
    add(document, Paragraph{say("card-fold"), false});
    return document;
}

}  // namespace evenfall::papers
