// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/standing.h"

#include <algorithm>

#include "casework/course.h"
#include "papers/code.h"
#include "papers/papers.h"
#include "papers/source.h"

namespace evenfall::papers {
namespace {

/// What papers show from a day on, until the next version takes its place.
struct Version {
    std::string code;
    EventId plan;
    Day from{};
};

Day day_of_stamp(const Stamp& stamp, const Zone& zone) {
    return day_of(zone.to_local(stamp.at));
}

/// The signed plans in order, each followed by the holds that began under it.
std::vector<Version> versions_of(const PatientRecord& record, const Zone& zone) {
    std::vector<Version> versions;
    for (std::size_t i = 0; i < record.plans.size(); ++i) {
        const auto& plan = record.plans[i];
        versions.push_back({code_of_version(plan.id, std::nullopt), plan.id, day_of_stamp(plan.stamp, zone)});
        std::optional<HoldStarted> held;
        for (const auto& hold : record.holds) {
            const bool later =
                i + 1 < record.plans.size() && hold.stamp.clock > record.plans[i + 1].stamp.clock;
            if (hold.stamp.clock < plan.stamp.clock || later) continue;
            held = joined_hold(held, hold.value);
            versions.push_back({code_of_version(plan.id, held), plan.id, day_of_stamp(hold.stamp, zone)});
        }
    }
    return versions;
}

}  // namespace

PaperStanding standing_of(const PatientRecord& record, const MarkText& paper, const Zone& zone) {
    const std::vector<Version> versions = versions_of(record, zone);
    PaperStanding standing;
    const bool ended = !plan_in_force(record);
    if (!ended && !versions.empty()) standing.current_code = versions.back().code;
    for (const auto& issued : record.papers)
        if (issued.value.code == paper.code) standing.went_out = issued.value.on;
    const auto found = std::find_if(versions.rbegin(), versions.rend(), [&](const Version& version) {
        return version.code == paper.code && (paper.plan.empty() || version.plan == paper.plan);
    });
    if (found == versions.rend()) {
        // It went out under a signature that was taken back.
        if (standing.went_out && paper.plan.empty())
            standing.state = ended ? PaperState::ended : PaperState::replaced;
        return standing;
    }
    if (found != versions.rbegin()) {
        standing.state = PaperState::replaced;
        standing.since = std::prev(found)->from;
        if (!ended) return standing;
    }
    standing.state = ended ? PaperState::ended : PaperState::current;
    if (ended && record.plan_ended) standing.since = day_of_stamp(record.plan_ended->stamp, zone);
    return standing;
}

std::string standing_in_words(const PaperStanding& standing, const Wording& say) {
    const Args args = {{"code", standing.current_code},
                       {"date", standing.since ? say.short_date(*standing.since) : std::string()}};
    const bool dated = standing.since.has_value();
    switch (standing.state) {
        case PaperState::current:
            return say("standing-current");
        case PaperState::replaced:
            return say(dated ? "standing-replaced" : "standing-taken-back", args);
        case PaperState::ended:
            return say(dated ? "standing-ended" : "standing-ended-undated", args);
        case PaperState::unknown:
            break;
    }
    return say("standing-unknown");
}

std::vector<IssuedPaper> issued_papers(const PatientRecord& record, const Zone& zone) {
    std::vector<IssuedPaper> papers;
    for (const auto& issued : record.papers)
        papers.push_back({issued.value, standing_of(record, {issued.value.code, {}}, zone)});
    std::reverse(papers.begin(), papers.end());
    return papers;
}

}  // namespace evenfall::papers
