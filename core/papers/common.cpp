// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/common.h"

#include <algorithm>
#include <map>
#include <set>

#include "casework/course.h"
#include "papers/code.h"
#include "papers/mark.h"
#include "units/dose_text.h"

namespace evenfall::papers {

namespace {

/// What can lie side by side in two strengths of one shape: in the plan, its fills, before it, and at home. A
/// bottle is named by its strength anyway.
std::set<Wording::Shape> in_several_strengths(const PaperDesk& desk) {
    std::map<Wording::Shape, std::set<Dose>> strengths;
    const auto look = [&](const Product& product) {
        if (!is_liquid(product.form)) strengths[Wording::shape_of(product)].insert(product.strength);
    };
    for (const OnHand& each : desk.source.on_hand) look(each.product);
    for (const PlannedDose& dose : desk.source.before)
        for (const Piece& piece : dose.pieces) look(piece.product);
    for (const FirmStep& step : desk.steps)
        for (const PlannedDose& dose : step.step->doses)
            for (const Piece& piece : dose.pieces) look(piece.product);
    if (desk.source.supply)
        for (const Fill& fill : desk.source.supply->fills)
            for (const SupplyItem& item : fill.items) look(item.product);
    std::set<Wording::Shape> several;
    for (const auto& [shape, each] : strengths)
        if (each.size() > 1) several.insert(shape);
    return several;
}

}  // namespace

PaperDesk paper_desk(const PaperSource& source, const Texts& texts) {
    PaperDesk desk{source, Wording(texts, source.parts), firm_steps(source), {}, code_of(source)};
    if (source.plan)
        desk.drug = source.plan->request.drug;
    else if (!source.regimen.doses.empty())
        desk.drug = source.regimen.doses.front().drug;
    else
        desk.drug = source.agent;
    desk.say.tell_strengths_apart(in_several_strengths(desk));
    return desk;
}

Document begin(Paper paper, const PaperDesk& desk, std::string title, std::string subtitle) {
    const PaperSource& source = desk.source;
    const Wording& say = desk.say;
    Document document;
    document.paper = word(paper);
    document.language = say.language();
    document.title = std::move(title);
    document.subtitle = begun(std::move(subtitle));
    const std::string reference = printable(source.person.reference);
    std::vector<std::string> patient = {printable(source.person.name)};
    if (source.person.born)
        patient.push_back(say("paper-patient-born", {{"date", say.short_date(*source.person.born)}}));
    patient.push_back(say("paper-patient-reference", {{"reference", reference}}));
    document.patient = joined(patient, " · ");
    document.footer.patient = say("paper-foot-patient", {{"reference", reference}});
    document.footer.version =
        say("paper-foot-version", {{"code", desk.code}, {"date", say.short_date(source.as_of)}});
    document.footer.page = say("paper-page");
    if (paper == Paper::schedule || paper == Paper::pharmacy) document.footer.mark = version_mark(desk);
    const bool replaces = !source.replaces_code.empty() && source.replaces_on;
    if (paper == Paper::schedule || paper == Paper::pharmacy)
        document.footer.replaces =
            replaces ? say("paper-foot-replaces", {{"code", printable(source.replaces_code)},
                                                   {"date", say.short_date(*source.replaces_on)}})
                     : say("paper-foot-first");
    return document;
}

void add(Document& document, Content content, bool with_next) {
    document.blocks.push_back({std::move(content), with_next});
}

Signature prescriber_lines(const PaperDesk& desk, std::string statement) {
    const Wording& say = desk.say;
    Signature signature{std::move(statement),
                        {{say("paper-sign-prescriber"), printable(desk.source.prescriber.name)}}};
    if (std::string licence = printable(desk.source.prescriber.licence); !licence.empty())
        signature.lines.emplace_back(say("paper-sign-licence"), std::move(licence));
    signature.lines.emplace_back(say("paper-sign-signature"), std::string());
    signature.lines.emplace_back(say("paper-sign-date"), std::string());
    return signature;
}

std::optional<Mark> version_mark(const PaperDesk& desk) {
    if (desk.source.plan_id.empty()) return std::nullopt;
    return mark_of(write_mark({desk.code, desk.source.plan_id}));
}

Side whom_to_call(const PaperDesk& desk) {
    const Clinic& clinic = desk.source.clinic;
    const Wording& say = desk.say;
    Side side;
    side.title = say("paper-call-title");
    side.rows = {{say("paper-call-emergency"), printable(clinic.emergency_number)},
                 {say("paper-call-crisis"), printable(clinic.crisis_number)},
                 {say("paper-call-office"), joined({printable(clinic.phone), printable(clinic.name)}, " · ")},
                 {say("paper-call-after"), printable(clinic.after_hours)}};
    return side;
}

void add_whom_to_call(Document& document, const PaperDesk& desk) {
    Side numbers = whom_to_call(desk);
    add(document, Heading{std::move(numbers.title), 2}, true);
    add(document, KeyValues{std::move(numbers.rows), true});
}

namespace {

bool is_at_home(const PaperSource& source, const Piece& piece) {
    return std::ranges::any_of(source.on_hand,
                               [&](const OnHand& each) { return each.product == piece.product; });
}

std::string made_in_words(const PaperDesk& desk, const PlannedDose& dose, ForWhom whom) {
    const bool pharmacy = whom == ForWhom::pharmacy;
    const bool known = !dose.pieces.empty() && amount_of(dose.pieces) == dose.amount &&
                       (pharmacy || std::ranges::all_of(dose.pieces, [&](const Piece& each) {
                            return is_at_home(desk.source, each);
                        }));
    if (known) return joined(desk.say.pieces(dose.pieces, dose.amount), " ");
    return pharmacy ? desk.say("pharmacy-unknown-product", {{"amount", print_dose(dose.amount)}})
                    : print_dose(dose.amount);
}

/// The doses before the first step, with what is known of their pieces.
std::vector<PlannedDose> doses_before(const PaperSource& source) {
    if (!source.before.empty()) return source.before;
    std::vector<PlannedDose> doses;
    for (const DoseTime& dose : source.plan->start.doses)
        doses.push_back({dose.at, dose.drug, dose.amount, {}});
    return doses;
}

}  // namespace

bool stays_as_it_is(const PaperDesk& desk, const FirmStep& step) {
    return step.held && step.from < desk.source.as_of;
}

std::string told_hold(const PaperDesk& desk, const std::string& id) {
    const HoldStarted& hold = *desk.source.hold;
    const bool later = hold.from > desk.source.as_of;
    return desk.say(later ? id + "-from" : id,
                    {{"from", desk.say.date(hold.from)}, {"date", desk.say.date(hold.review_on)}});
}

std::string hold_in_words(const PaperDesk& desk) {
    const auto& hold = desk.source.hold;
    if (!hold) return {};
    const char* id = hold->from > desk.source.as_of        ? "paper-hold-from"
                     : hold->review_on < desk.source.as_of ? "paper-hold-overdue"
                                                           : "paper-hold";
    return desk.say(
        id, {{"from", desk.say.short_date(hold->from)}, {"date", desk.say.short_date(hold->review_on)}});
}

bool starts_later(const PaperDesk& desk) {
    return desk.steps.front().from > desk.source.as_of;
}

void add_until_start(Document& document, const PaperDesk& desk, std::string_view says, ForWhom whom) {
    if (!starts_later(desk)) return;
    const std::string until = desk.say.date(desk.steps.front().from - std::chrono::days(1));
    List lines;
    for (const PlannedDose& dose : doses_before(desk.source))
        lines.items.push_back(desk.say("schedule-until-dose", {{"time", desk.say.dose_time(dose.at)},
                                                               {"agent", desk.say.agent(dose.drug)},
                                                               {"amount", made_in_words(desk, dose, whom)}}));
    add(document, Paragraph{desk.say(says, {{"date", until}}), true}, true);
    // The pharmacy's stands under the heading of the steps that follow.
    add(document, std::move(lines), whom == ForWhom::pharmacy);
}

namespace {

/// What is taken on the day of issue, with what is known of its pieces.
std::vector<PlannedDose> doses_on_issue(const PaperSource& source) {
    std::vector<PlannedDose> doses;
    const Regimen& start = source.plan ? source.plan->start : source.regimen;
    for (const DoseTime& dose : start.doses) doses.push_back({dose.at, dose.drug, dose.amount, {}});
    if (!source.plan) return doses;
    if (!source.before.empty()) doses = source.before;
    for (const Step& step : source.plan->steps) {
        if (step.status != StepStatus::committed || step.starts > source.as_of) break;
        if (is_kept_back(step, source.hold)) break;
        doses = step.doses;
    }
    return doses;
}

}  // namespace

std::vector<std::string> made_doses_in_words(const PaperDesk& desk) {
    std::vector<std::string> lines;
    for (const PlannedDose& dose : doses_on_issue(desk.source))
        lines.push_back(
            desk.say("schedule-until-dose", {{"time", desk.say.dose_time(dose.at)},
                                             {"agent", desk.say.agent(dose.drug)},
                                             {"amount", desk.say.made(dose.pieces, dose.amount)}}));
    return lines;
}

std::vector<std::string> medicines_in_words(const PaperDesk& desk) {
    std::vector<std::string> names;
    for (const std::string& medicine : desk.source.other_medicines)
        names.push_back(desk.say.medicine(medicine));
    return names;
}

Regimen regimen_on_issue(const PaperSource& source) {
    if (!source.plan) return source.regimen;
    return regimen_of(doses_on_issue(source));
}

bool takes_nothing(const PaperDesk& desk) {
    return regimen_on_issue(desk.source).doses.empty();
}

std::vector<std::string> agents_on_sheet(const PaperDesk& desk) {
    const PaperSource& source = desk.source;
    std::set<std::string> taken;
    const Regimen now = regimen_on_issue(source);
    if (desk.steps.empty() || desk.steps.front().from > source.as_of)
        for (const DoseTime& dose : now.doses) taken.insert(dose.drug);
    for (const FirmStep& step : desk.steps)
        for (const PlannedDose& dose : step.step->doses) taken.insert(dose.drug);
    if (taken.empty()) taken.insert(desk.drug);
    std::vector<std::string> agents;
    const auto list = [&](const std::string& agent) {
        if (taken.erase(agent) > 0) agents.push_back(agent);
    };
    if (source.plan)
        for (const std::string& agent : agents_of(source.plan->start)) list(agent);
    for (const std::string& agent : agents_of(now)) list(agent);
    list(desk.drug);
    agents.insert(agents.end(), taken.begin(), taken.end());
    return agents;
}

std::string in_one_phrase(const PaperDesk& desk, const std::vector<std::string>& agents) {
    std::vector<std::string> names;
    names.reserve(agents.size());
    for (const std::string& agent : agents) names.push_back(desk.say.agent(agent));
    if (names.size() < 2) return joined(names, {});
    const std::string last = names.back();
    names.pop_back();
    return desk.say("paper-agents", {{"first", joined(names, ", ")}, {"last", last}});
}

std::string agents_in_words(const PaperDesk& desk) {
    return in_one_phrase(desk, agents_on_sheet(desk));
}

std::string dispensed_in_words(const PaperDesk& desk, const Product& product) {
    const std::string name = desk.say.dispensed(product);
    return several_agents(desk) ? desk.say.agent(product.drug) + " " + name : name;
}

std::set<Product> products_of(const PaperDesk& desk, ForWhom whom) {
    std::set<Product> products;
    const auto take = [&](const std::vector<PlannedDose>& doses) {
        for (const PlannedDose& dose : doses)
            for (const Piece& piece : dose.pieces) products.insert(piece.product);
    };
    for (const FirmStep& step : desk.steps) take(step.step->doses);
    if (whom == ForWhom::patient) return products;
    if (starts_later(desk)) take(desk.source.before);
    if (desk.source.supply)
        for (const Fill& fill : desk.source.supply->fills)
            for (const SupplyItem& item : fill.items) products.insert(item.product);
    return products;
}

std::vector<std::pair<std::string, std::string>> products_by_agent(const PaperDesk& desk, ForWhom whom) {
    std::vector<std::pair<std::string, std::string>> lines;
    for (const std::string& agent : agents_on_sheet(desk)) {
        std::vector<std::string> names;
        for (const Product& product : products_of(desk, whom))
            if (product.drug == agent)
                names.push_back(whom == ForWhom::pharmacy ? desk.say.dispensed(product)
                                                          : desk.say.product(product));
        if (!names.empty()) lines.emplace_back(desk.say.agent(agent), joined(names, ", "));
    }
    return lines;
}

std::vector<std::pair<std::string, Dose>> daily_amounts(const Regimen& regimen) {
    std::vector<std::pair<std::string, Dose>> amounts;
    for (const std::string& drug : agents_of(regimen))
        amounts.emplace_back(drug, daily_amount(regimen, drug));
    return amounts;
}

std::string daily_in_words(const PaperDesk& desk, const Regimen& regimen) {
    std::vector<std::string> words;
    for (const auto& [drug, amount] : daily_amounts(regimen))
        words.push_back(desk.say(desk.source.as_needed ? "letter-as-needed" : "letter-a-day",
                                 {{"agent", desk.say.agent(drug)}, {"amount", print_dose(amount)}}));
    return words.empty() ? desk.say("letter-off", {{"agent", desk.agent()}}) : joined(words, "; ");
}

std::string code_of_version(const EventId& plan, const std::optional<HoldStarted>& hold) {
    return paper_code(
        hold ? plan + "|held from " + print_day(hold->from) + " until " + print_day(hold->review_on) : plan);
}

std::string code_of(const PaperSource& source) {
    if (!source.plan_id.empty()) return code_of_version(source.plan_id, source.hold);
    std::string says = source.person.reference + "|" + print_day(source.as_of);
    for (const FirmStep& step : firm_steps(source)) {
        says += "|" + print_day(step.from) + ">" + print_day(step.last);
        for (const PlannedDose& dose : step.step->doses)
            says += ";" + print_clock(dose.at) + dose.drug + print_mg_digits(dose.amount);
    }
    return paper_code(says);
}

}  // namespace evenfall::papers
