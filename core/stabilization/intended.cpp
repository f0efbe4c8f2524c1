// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/intended.h"

#include <algorithm>
#include <set>

#include "diary/dose_times.h"

namespace evenfall::stabilization {

namespace {

using EntriesByDay = std::vector<std::vector<std::size_t>>;

std::set<std::string> agents_in(const std::vector<Intake>& intake, const EntriesByDay& days) {
    std::set<std::string> agents;
    for (const auto& day : days)
        for (const auto i : day) agents.insert(intake[i].drug);
    return agents;
}

/// Whether an agent is taken on most of the days; one taken now and then has no usual dose times.
bool is_regular(const std::vector<Intake>& intake, const EntriesByDay& days, const std::string& drug) {
    const auto with = std::count_if(days.begin(), days.end(), [&](const auto& day) {
        return std::any_of(day.begin(), day.end(), [&](std::size_t i) { return intake[i].drug == drug; });
    });
    return 2 * static_cast<std::size_t>(with) > days.size();
}

Regimen found_in(const std::vector<Intake>& intake, const EntriesByDay& days) {
    Regimen regimen;
    const auto agents = agents_in(intake, days);
    for (const std::string& drug : agents) {
        if (agents.size() > 1 && !is_regular(intake, days, drug)) continue;
        const Regimen usual = usual_regimen(intake, days, drug);
        regimen.doses.insert(regimen.doses.end(), usual.doses.begin(), usual.doses.end());
    }
    std::sort(regimen.doses.begin(), regimen.doses.end());
    return regimen;
}

}  // namespace

std::vector<DatedRegimen> intended_regimens(const Context& context, const std::vector<DiaryDay>& days,
                                            const std::vector<bool>& slips, bool& found) {
    std::vector<DatedRegimen> regimens = context.input.intended;
    std::stable_sort(regimens.begin(), regimens.end(),
                     [](const DatedRegimen& a, const DatedRegimen& b) { return a.from < b.from; });
    EntriesByDay before;
    for (const DiaryDay& day : days) {
        if (day.known != DayKnown::recorded || regimen_on(regimens, day.day) != nullptr) continue;
        before.emplace_back();
        for (const auto i : day.intake)
            if (!slips[i]) before.back().push_back(i);
    }
    const Regimen usual = found_in(context.input.diary.intake, before);
    found = !usual.doses.empty();
    if (found) regimens.insert(regimens.begin(), {days.front().day, usual});
    return regimens;
}

}  // namespace evenfall::stabilization
