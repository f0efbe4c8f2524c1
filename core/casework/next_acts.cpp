// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <map>

#include "casework/caseload.h"
#include "casework/interactions.h"
#include "casework/looking.h"

namespace evenfall {
namespace {

using Act = NextAct::Act;

/// The act that answers a reason; every other reason is answered by a call.
Act act_for(const std::string& rule) {
    static const std::map<std::string, Act> acts = {{"step-due-unsigned", Act::sign_step},
                                                    {"step-due-soon", Act::review_next_cut},
                                                    {"at-the-floor", Act::build_plan},
                                                    {"supply-ended", Act::count_supply},
                                                    {"supply-ends-today", Act::count_supply},
                                                    {"supply-ends-tomorrow", Act::count_supply},
                                                    {"supply-ends-soon", Act::count_supply},
                                                    {"hold-ended", Act::review_hold},
                                                    {"hold-ends", Act::review_hold},
                                                    {"intake-open", Act::record_regimen},
                                                    {"suitability-open", Act::sign_suitability},
                                                    {"plan-open", Act::build_plan},
                                                    {"steady-step", Act::none},
                                                    {"steady-off", Act::none},
                                                    {"steady-maintenance", Act::none},
                                                    {"steady-waiting", Act::none},
                                                    {"not-in-care", Act::none},
                                                    {"danger-untold", Act::tell_danger},
                                                    {"supply-before-step", Act::count_supply},
                                                    {"count-more", Act::count_supply},
                                                    {"count-fewer", Act::count_supply},
                                                    {"leftovers-open", Act::count_supply},
                                                    {"decide-marked", Act::read_response},
                                                    {"response-worse", Act::read_response},
                                                    {"dosing-uneven", Act::look_at_diary},
                                                    {"drug-test-open", Act::record_test},
                                                    {"drug-test-unexplained", Act::record_test},
                                                    {"monitoring-due", Act::record_test},
                                                    {"monitoring-never", Act::record_test},
                                                    {"interaction-new", Act::read_medicines},
                                                    {"interaction-opioid", Act::read_medicines},
                                                    {"naloxone-open", Act::read_medicines},
                                                    {"clinician-missing", Act::record_team},
                                                    {"call-twice", Act::settle_entries},
                                                    {"plans-conflict", Act::settle_entries},
                                                    {"baseline-missing", Act::record_baseline},
                                                    {"screens-open", Act::record_risks},
                                                    {"schedule-unprinted", Act::print_schedule}};
    if (rule.starts_with("life-")) return Act::record_life;
    const auto found = acts.find(rule);
    return found == acts.end() ? Act::call : found->second;
}

/// Whether a schedule went out that shows what holds now: of this plan, and since its last hold was written.
bool paper_shows(const PatientRecord& record, const Entry<PlanCommitted>& plan) {
    return std::ranges::any_of(record.papers, [&](const Entry<PaperIssued>& paper) {
        return paper.value.paper == "schedule" && paper.value.plan == plan.id &&
               std::ranges::none_of(record.holds, [&](const Entry<HoldStarted>& hold) {
                   return hold.stamp.clock > plan.stamp.clock && hold.stamp.clock > paper.stamp.clock;
               });
    });
}

/// The last schedule that went out, where its plan has ended and its days have not.
const PaperIssued* schedule_left_behind(const PatientRecord& record, Day today) {
    if (!record.plan_ended) return nullptr;
    const PaperIssued* out = nullptr;
    for (const Entry<PaperIssued>& paper : record.papers)
        if (paper.value.paper == "schedule" && paper.value.valid_through >= today) out = &paper.value;
    return out;
}

/// An opioid is taken, by the screen or by the medicines entered, and no naloxone is at home.
bool opioid_without_naloxone(const PatientRecord& record, const Course& course, const Ground& ground) {
    if (record.other_medicines && record.other_medicines->value.naloxone_at_home) return false;
    if (record.risks) {
        const auto asked = record.risks->value.answers.find("opioid");
        if (asked != record.risks->value.answers.end() && asked->second == Answer::yes) return true;
    }
    return std::ranges::any_of(interactions_of(record, course, ground.formulary, ground.rules), &Met::opioid);
}

}  // namespace

std::vector<NextAct> next_acts(const PatientRecord& record, const Course& course, const Ground& ground,
                               LocalTime as_of) {
    std::vector<NextAct> acts;
    const auto reasons = reasons_for(record, course, ground, as_of);
    const bool untold =
        std::ranges::any_of(reasons, [](const Reason& each) { return each.flag.rule == "danger-untold"; });
    for (const Reason& reason : reasons) {
        const bool danger = reason.urgency == Urgency::red_flag && untold;
        acts.push_back({danger ? Act::tell_danger : act_for(reason.flag.rule), reason.urgency, reason.flag});
    }
    if (record.standing && record.standing->value.standing != CareStanding::in_care) return acts;
    const auto* plan = plan_in_force(record);
    if (!record.baseline && !plan)
        acts.push_back({Act::record_baseline, Urgency::this_week, {"baseline-missing", {}, {}}});
    if (!record.risks) acts.push_back({Act::record_risks, Urgency::this_week, {"screens-open", {}, {}}});
    if (plan && !paper_shows(record, *plan))
        acts.push_back({Act::print_schedule, Urgency::this_week, {"schedule-unprinted", {}, {}}});
    if (const PaperIssued* out = schedule_left_behind(record, day_of(as_of)))
        acts.push_back({Act::call,
                        Urgency::this_week,
                        {"schedule-left-behind",
                         {{"on", print_day(out->on)}, {"until", print_day(out->valid_through)}},
                         {}}});
    if (opioid_without_naloxone(record, course, ground))
        acts.push_back({Act::read_medicines, Urgency::this_week, {"naloxone-open", {}, {}}});
    // Nothing presses only where nothing else is to be done.
    if (acts.size() > 1) std::erase_if(acts, [](const NextAct& each) { return each.act == Act::none; });
    const bool off = nothing_is_taken(course);
    if (record.monitoring.empty() && !off && casework::monitoring_is_a_note(record, ground.rules))
        acts.push_back({Act::record_test, Urgency::steady, {"monitoring-never", {}, {}}});
    std::ranges::stable_sort(acts, {}, &NextAct::urgency);
    return acts;
}

}  // namespace evenfall
