// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "diary/statistics.h"
#include "papers/report_words.h"
#include "stabilization/dosing.h"
#include "units/dose_text.h"
#include "units/letters.h"

namespace evenfall::papers {
namespace {

// So that all of it stands on one page; what is left out is counted there and stands in the program.
constexpr std::size_t kMostFlags = 4, kMostFlagsWithProposals = 3, kMostEntries = 2, kMostProposals = 2;

std::string number(int count) {
    return std::to_string(count);
}

/// What every part of the report reads.
struct Report {
    const PaperDesk& desk;
    const StabilizationCheck& check;
    const Rules& rules;
    ReportWords words;

    std::string say(std::string_view id, const Args& args = {}) const { return desk.say(id, args); }
    std::string limit(std::string_view rule, std::string_view name) const {
        return print_statistic(rules.number(rule, name), 2);
    }
    std::string percent(double value) const { return whole_percent(desk.say, value); }
};

std::string days_judged(const Report& report) {
    const auto judged = [](const DayRow& row) { return row.judged; };
    const auto& rows = report.check.rows;
    const auto first = std::ranges::find_if(rows, judged);
    if (first == rows.end()) return report.say("report-days-none");
    const auto last = std::ranges::find_if(rows.rbegin(), rows.rend(), judged);
    return report.say("report-days", {{"days", number(report.check.days)},
                                      {"from", report.desk.say.short_date(first->day)},
                                      {"to", report.desk.say.short_date(last->day)},
                                      {"unknown", number(report.check.measures.unknown_days)}});
}

/// Of the regimens agreed, the one of the report's day: steps that lie ahead stand in the list as well.
const Regimen* regimen_of_today(const Report& report) {
    return stabilization::regimen_on(report.check.held_against, day_of(report.desk.source.as_of));
}

/// Whether the person has come off: the report looks back, and no start lies ahead.
bool is_off(const Report& report) {
    const Regimen* regimen = regimen_of_today(report);
    return regimen != nullptr && regimen->doses.empty();
}

std::string held_against(const Report& report) {
    const StabilizationCheck& check = report.check;
    if (is_off(report)) return report.say("report-held-off");
    const std::string how = report.say("stabilization-dose-times-" + word(check.dose_times) + "-title");
    if (check.held_against.empty()) return how + ".";
    const Regimen* regimen = regimen_of_today(report);
    if (regimen == nullptr) regimen = &check.held_against.back().regimen;
    return how + ": " + report.words.day_of_doses(*regimen);
}

/// What the verdict means for a first cut.
std::string meaning_of(const Report& report, const std::string& verdict, bool all_met) {
    if (is_off(report)) return begun(report.say("report-off-means", {{"agent", report.desk.agent()}}));
    if (report.check.verdict != Verdict::steady) return report.say(verdict + "-means");
    return report.say(all_met ? "report-ready" : "report-steady-means");
}

void add_verdict(Document& document, const Report& report) {
    const StabilizationCheck& check = report.check;
    const bool too_little = check.verdict == Verdict::too_little;
    const std::string verdict =
        "stabilization-verdict-" + (too_little ? std::string("too-little") : word(check.verdict));
    const auto open = std::ranges::count_if(check.readiness, [](const Gate& gate) { return !gate.met; });
    const std::string means = meaning_of(report, verdict, open == 0);
    const std::string gates =
        is_off(report) ? std::string()
                       : report.say("report-gates-open", {{"open", std::to_string(open)},
                                                          {"all", std::to_string(check.readiness.size())}});
    const std::string use =
        report.say("report-use", {{"use", report.say("report-use-" + with_dashes(word(check.use)))}});
    add(document, Notice{report.say(verdict) + ". " + means,
                         {joined({gates, use}, " "), days_judged(report), held_against(report)}});
}

/// "19 of 28 days, 68 %. Steady from 90 %, erratic under 60 %."
std::string days_as_intended(const Report& report) {
    const Measures& m = report.check.measures;
    const double share = m.recorded_days > 0 ? 100.0 * m.days_as_intended / m.recorded_days : 0;
    return report.say("report-as-intended", {{"as_intended", number(m.days_as_intended)},
                                             {"days", number(m.recorded_days)},
                                             {"percent", print_statistic(share, 1)},
                                             {"steady", report.limit("steady-limits", "days_percent")},
                                             {"erratic", report.limit("erratic-limits", "days_percent")}});
}

std::string totals_off(const Report& report) {
    return report.say("report-totals-off",
                      {{"percent", print_statistic(100 * report.check.measures.total_off_intended, 1)},
                       {"steady", report.limit("steady-limits", "total_percent")},
                       {"erratic", report.limit("erratic-limits", "total_percent")}});
}

void add_scheduled(KeyValues& values, const Report& report) {
    const Measures& m = report.check.measures;
    const auto row = [&](const char* id, std::string value) {
        values.rows.emplace_back(report.say(id), std::move(value));
    };
    row("report-as-intended-title", days_as_intended(report));
    row("report-totals-off-title", totals_off(report));
    row("report-kept-title", report.say("report-kept", {{"missed", number(m.missed)},
                                                        {"extra", number(m.extra)},
                                                        {"late", number(m.late)},
                                                        {"early", number(m.early)},
                                                        {"intended", number(m.intended_doses)},
                                                        {"minutes", report.limit("late-dose", "minutes")}}));
    if (m.longest_interval_h > 0)
        row("report-gaps-title",
            report.say("report-gaps", {{"longest", print_statistic(m.longest_interval_h, 1)},
                                       {"count", number(m.long_gaps)},
                                       {"times", report.limit("long-gap", "times")}}));
}

/// Swing and lowest point as shares of the same day's average: a day before a cut lies above the average of
/// today's regimen, of which its trough can be more than the whole.
std::string level_in_words(const Report& report, const char* id, const LevelShape& shape) {
    if (shape.average <= 0) return {};
    return report.say(id, {{"swing", report.percent(100 * shape.fluctuation)},
                           {"trough", report.percent(100 * shape.trough / shape.average)}});
}

void add_measures(Document& document, const Report& report) {
    const Measures& m = report.check.measures;
    const LevelBand& levels = report.check.levels;
    KeyValues values;
    if (report.check.use == Use::scheduled || report.check.use == Use::night_only)
        add_scheduled(values, report);
    if (m.for_symptoms + m.forgot > 0)
        values.rows.emplace_back(
            report.say("report-why-title"),
            report.say("report-why", {{"symptoms", number(m.for_symptoms)}, {"forgot", number(m.forgot)}}));
    values.rows.emplace_back(report.say("report-total-title"),
                             report.say("report-total", {{"mean", report.words.total(m.mean_total)},
                                                         {"percent", report.percent(100 * m.total_cv)}}));
    if (const std::string said = joined({level_in_words(report, "report-level", levels.as_taken),
                                         level_in_words(report, "report-level-intended", levels.as_intended)},
                                        " ");
        !said.empty())
        values.rows.emplace_back(report.say("report-level-title"), said);
    add(document, Heading{report.say("report-measures-heading"), 2}, true);
    add(document, std::move(values));
}

bool is_between_dose(const Flag& flag) {
    return flag.rule.starts_with("between-dose");
}

/// The flags that the measures do not say already.
std::vector<const Flag*> flags_of(const Report& report) {
    std::vector<const Flag*> flags;
    for (const Flag& flag : report.check.flags) {
        const bool said = flag.rule == "days-unknown" || flag.rule == "dose-times-found" ||
                          flag.rule == "steady-limits" || flag.rule == "erratic-limits";
        if (!is_between_dose(flag) && !said) flags.push_back(&flag);
    }
    return flags;
}

std::string flag_in_words(const Report& report, const Flag& flag) {
    return joined({begun(report.words.sentence(flag)), report.words.entries(flag, kMostEntries)}, " ");
}

void add_flags(Document& document, const Report& report) {
    const auto flags = flags_of(report);
    const std::size_t most = report.check.proposals.empty() ? kMostFlags : kMostFlagsWithProposals;
    add(document, Heading{report.say("report-flags-heading"), 2}, true);
    List list;
    for (const Flag* flag : flags) {
        if (list.items.size() == most) break;
        list.items.push_back(flag_in_words(report, *flag));
    }
    if (flags.size() > most)
        list.items.push_back(
            report.say("report-more-flags", {{"count", std::to_string(flags.size() - most)}}));
    if (list.items.empty()) list.items.push_back(report.say("report-flags-none"));
    add(document, std::move(list));
}

void add_symptoms(Document& document, const Report& report) {
    add(document, Heading{report.say("stabilization-between-dose-title"), 2}, true);
    std::string says;
    for (const Flag& flag : report.check.flags)
        if (is_between_dose(flag)) says = report.words.sentence(flag);
    says = joined({says, report.words.sentence({"between-dose-limits", {}, {}})}, " ");
    add(document, Paragraph{says, false});
}

void add_gates(Document& document, const Report& report) {
    add(document, Heading{report.say("report-gates-heading"), 2}, true);
    KeyValues values;
    for (const Gate& gate : report.check.readiness) {
        const std::string state =
            report.say(gate.met ? "stabilization-gate-met" : "stabilization-gate-open") + ".";
        values.rows.emplace_back(
            report.say("stabilization-" + gate.gate + "-title"),
            joined({state, report.words.sentence(gate.says), report.words.entries(gate.says, kMostEntries)},
                   " "));
    }
    add(document, std::move(values));
}

std::string proposal_in_words(const Report& report, const Proposal& proposal) {
    const std::string levels = report.say(
        "report-proposal-level", {{"trough", report.percent(proposal.today.trough)},
                                  {"then", report.percent(proposal.proposed.trough)},
                                  {"swing", report.percent(100 * proposal.today.fluctuation)},
                                  {"swing_then", report.percent(100 * proposal.proposed.fluctuation)}});
    const std::string title = report.say("stabilization-proposal-" + word(proposal.kind) + "-title") + ":";
    // The doses last: a full stop after a unit can be misread.
    return joined({title, levels, report.words.day_of_doses(proposal.doses)}, " ");
}

void add_proposals(Document& document, const Report& report) {
    const StabilizationCheck& check = report.check;
    List list;
    for (const Proposal& proposal : check.proposals) {
        if (list.items.size() == kMostProposals) break;
        list.items.push_back(proposal_in_words(report, proposal));
    }
    if (list.items.empty())
        for (const Flag& flag : check.no_proposal) list.items.push_back(begun(report.words.sentence(flag)));
    if (list.items.empty()) return;
    add(document, Heading{report.say("report-proposals-heading"), 2}, true);
    add(document, std::move(list));
}

}  // namespace

Document make_report(const PaperDesk& desk) {
    const Report report{desk, desk.source.judged->check, *desk.source.rules, ReportWords(desk)};
    Document document =
        begin(Paper::report, desk, report.say("report-title"), desk.say.date(desk.source.as_of));
    document.for_record = true;
    add_verdict(document, report);
    add_measures(document, report);
    add_flags(document, report);
    add_symptoms(document, report);
    if (!is_off(report)) {
        add_gates(document, report);
        add_proposals(document, report);
    }
    const std::string made_by = printable(desk.source.made_by);
    const std::string on = desk.say.short_date(day_of(desk.source.judged->as_of)) + " " +
                           print_clock(clock_of(desk.source.judged->as_of));
    add(document, Paragraph{report.say("report-caveat"), false}, true);
    add(document, Signature{made_by.empty() ? report.say("report-made", {{"time", on}})
                                            : report.say("report-made-by", {{"name", made_by}, {"time", on}}),
                            {{report.say("paper-sign-prescriber"), printable(desk.source.prescriber.name)},
                             {report.say("report-sign"), {}}}});
    return document;
}

}  // namespace evenfall::papers
