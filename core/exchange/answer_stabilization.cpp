// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/answers.h"
#include "stabilization/check.h"
#include "units/dose_text.h"

namespace evenfall::answers {
namespace {

Answered measures_of(const StabilizationCheck& check) {
    const Measures& m = check.measures;
    Answered times = Answered::array();
    for (const DoseTimeKept& kept : m.dose_times)
        times.push_back({{"drug", kept.drug},
                         {"at", print_clock(kept.at)},
                         {"amount_mg", amount(kept.amount)},
                         {"days", kept.days},
                         {"taken", kept.taken},
                         {"missed", kept.missed},
                         {"late", kept.late},
                         {"early", kept.early},
                         {"usual", kept.usual ? Answered(print_clock(*kept.usual)) : Answered(nullptr)},
                         {"sd_minutes", kept.sd_minutes}});
    Answered shaped = {
        {"recorded_days", m.recorded_days},
        {"unknown_days", m.unknown_days},
        {"days_as_intended", m.days_as_intended},
        {"doses", m.doses},
        {"intended_doses", m.intended_doses},
        {"missed", m.missed},
        {"extra", m.extra},
        {"late", m.late},
        {"early", m.early},
        {"left_out", m.left_out},
        {"for_symptoms", m.for_symptoms},
        {"forgot", m.forgot},
        {"days_with", m.days_with},
        {"days_without", m.days_without},
        {"unit", check.unit},
        {"mean_total", m.mean_total},
        {"total_cv", m.total_cv},
        {"total_off_intended", m.total_off_intended},
        {"trend_per_week", m.trend_per_week},
        {"largest_change", m.largest_change},
        {"largest_change_on", m.largest_change_on ? day(*m.largest_change_on) : Answered(nullptr)},
        {"interval_mean_h", m.interval_mean_h},
        {"interval_cv", m.interval_cv},
        {"longest_interval_h", m.longest_interval_h},
        {"long_gaps", m.long_gaps}};
    shaped["dose_times"] = std::move(times);
    const auto shape = [](const LevelShape& level) {
        return Answered{{"peak", level.peak},
                        {"trough", level.trough},
                        {"average", level.average},
                        {"fluctuation", level.fluctuation}};
    };
    shaped["level_percent"] = {{"as_taken", shape(check.levels.as_taken)},
                               {"as_intended", shape(check.levels.as_intended)}};
    return shaped;
}

Answered proposal_of(const Proposal& proposal, const Rules& rules) {
    const auto shape = [](const LevelShape& level) {
        return Answered{{"peak", level.peak},
                        {"trough", level.trough},
                        {"average", level.average},
                        {"fluctuation", level.fluctuation}};
    };
    Answered stages = Answered::array();
    for (const ProposedStage& stage : proposal.stages)
        stages.push_back({{"starts_after_days", stage.starts_after_days},
                          {"doses", doses(stage.doses, true)},
                          {"average", stage.average}});
    return {{"kind", word(proposal.kind)},          {"drug", proposal.drug},
            {"doses", doses(proposal.doses, true)}, {"today", shape(proposal.today)},
            {"proposed", shape(proposal.proposed)}, {"stages", std::move(stages)},
            {"says", flags(proposal.says, rules)}};
}

std::vector<DatedRegimen> intended_of(const Case& given) {
    if (!given.schedule.empty()) return given.schedule;
    if (!given.regimen) return {};
    Day from = day_of(given.as_of);
    if (given.diary)
        for (const Intake& intake : given.diary->intake)
            from = std::min(from, day_of(intake.taken_at) - std::chrono::days(1));
    return {{from, *given.regimen}};
}

}  // namespace

Result<Answered> stabilization(const Basis& basis) {
    const Case& given = basis.given;
    if (!given.diary) return needs("diary");
    StabilizationInput input;
    input.diary = *given.diary;
    input.intended = intended_of(given);
    input.products = given.products;
    input.risks = given.risks;
    input.checkins = given.checkins;
    input.as_of = given.as_of;
    const StabilizationCheck check = check_stabilization(input, basis.formulary, basis.rules, given.zone);
    Answered raised = Answered::array();
    for (const Flag& each : check.flags) {
        Answered shaped = {{"rule", each.rule}, {"text", basis.rules.sentence(each)}};
        shaped["entries"] = each.entries;
        shaped["source"] = basis.rules.source(each.rule);
        raised.push_back(std::move(shaped));
    }
    Answered gates = Answered::array();
    for (const Gate& gate : check.readiness)
        gates.push_back({{"gate", gate.gate}, {"met", gate.met}, {"text", basis.rules.sentence(gate.says)}});
    Answered proposals = Answered::array();
    for (const Proposal& proposal : check.proposals) proposals.push_back(proposal_of(proposal, basis.rules));
    Answered answer = {{"verdict", word(check.verdict)},
                       {"use", word(check.use)},
                       {"days", check.days},
                       {"dose_times", word(check.dose_times)}};
    answer["measures"] = measures_of(check);
    answer["flags"] = std::move(raised);
    answer["between_dose"] = {{"answer", word(check.between_dose.answer)},
                              {"late_over_early", check.between_dose.late_over_early},
                              {"p_value", check.between_dose.p_value},
                              {"ratings", check.between_dose.ratings}};
    answer["readiness"] = std::move(gates);
    answer["proposals"] = std::move(proposals);
    answer["no_proposal"] = flags(check.no_proposal, basis.rules);
    add_overrides(answer, basis);
    return answer;
}

}  // namespace evenfall::answers
