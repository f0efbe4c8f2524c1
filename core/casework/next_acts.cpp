// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <map>

#include "casework/caseload.h"

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
                                                    {"baseline-missing", Act::record_baseline},
                                                    {"screens-open", Act::record_risks},
                                                    {"schedule-unprinted", Act::print_schedule}};
    const auto found = acts.find(rule);
    return found == acts.end() ? Act::call : found->second;
}

bool paper_shows(const PatientRecord& record, const EventId& plan) {
    return std::ranges::any_of(record.papers, [&](const Entry<PaperIssued>& paper) {
        return paper.value.paper == "schedule" && paper.value.plan == plan;
    });
}

}  // namespace

std::vector<NextAct> next_acts(const PatientRecord& record, const Course& course, const Rules& rules,
                               LocalTime as_of) {
    std::vector<NextAct> acts;
    for (const Reason& reason : reasons_for(record, course, rules, as_of))
        acts.push_back({act_for(reason.flag.rule), reason.urgency, reason.flag});
    const auto* plan = plan_in_force(record);
    if (!record.baseline && !plan)
        acts.push_back({Act::record_baseline, Urgency::this_week, {"baseline-missing", {}, {}}});
    if (!record.risks) acts.push_back({Act::record_risks, Urgency::this_week, {"screens-open", {}, {}}});
    if (plan && !paper_shows(record, plan->id))
        acts.push_back({Act::print_schedule, Urgency::this_week, {"schedule-unprinted", {}, {}}});
    std::ranges::stable_sort(acts, {}, &NextAct::urgency);
    return acts;
}

}  // namespace evenfall
