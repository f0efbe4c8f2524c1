// SPDX-License-Identifier: GPL-3.0-or-later
#include "response/scales.h"

#include <algorithm>
#include <numeric>

namespace evenfall {
namespace {

std::string known_scales(const Scales& scales) {
    std::string joined;
    for (const Scale& each : scales.all) joined += (joined.empty() ? "" : ", ") + each.id;
    return joined;
}

void check_range(const ScaleAnswers& answers, const Scale& scale, const std::string& place, Faults& faults) {
    for (std::size_t i = 0; i < answers.items.size(); ++i) {
        const int answer = answers.items[i];
        const bool blank = answer == kBlankItem && scale.entry == ScaleEntry::items;
        if (blank || (answer >= 0 && answer <= scale.most)) continue;
        faults.push_back({scale.entry == ScaleEntry::total ? "scale-total-range" : "scale-item-range",
                          place + ".items[" + std::to_string(i) + "]",
                          {{"scale", scale.id},
                           {"item", std::to_string(i + 1)},
                           {"answer", std::to_string(answer)},
                           {"most", std::to_string(scale.most)}}});
    }
}

std::optional<std::string> band_of(const Scale& scale, int total) {
    std::optional<std::string> band;
    for (const ScaleBand& each : scale.bands)
        if (total >= each.from) band = each.band;
    return band;
}

void raise_alarms(const Scale& scale, ScaleScore& result) {
    for (const ScaleAlarm& alarm : scale.alarms) {
        const int value = alarm.item == 0 ? result.total.value_or(kBlankItem)
                                          : result.items[static_cast<std::size_t>(alarm.item - 1)];
        const bool blank = value == kBlankItem;
        if (!blank && value < alarm.from) continue;
        const std::string& rule = blank ? alarm.blank_rule : alarm.rule;
        if (rule.empty()) continue;
        result.flags.push_back(
            {rule,
             {{"scale", scale.id}, {"on", print_day(result.on)}, {"answer", std::to_string(value)}},
             {}});
    }
}

void note_blanks(const Scale& scale, ScaleScore& result) {
    std::string blanks;
    for (std::size_t i = 0; i < result.items.size(); ++i)
        if (result.items[i] == kBlankItem) blanks += (blanks.empty() ? "" : ", ") + std::to_string(i + 1);
    if (blanks.empty()) return;
    result.total.reset();
    result.flags.push_back(
        {"scale-items-blank", {{"scale", scale.id}, {"on", print_day(result.on)}, {"items", blanks}}, {}});
}

}  // namespace

const Scale* Scales::find(std::string_view id) const {
    const auto found = std::ranges::find(all, id, &Scale::id);
    return found == all.end() ? nullptr : &*found;
}

Result<ScaleScore> score(const ScaleAnswers& answers, const Scales& scales, const std::string& place) {
    const Scale* scale = scales.find(answers.scale);
    if (!scale)
        return Fault{"scale-unknown",
                     place + ".scale",
                     {{"scale", answers.scale.substr(0, 40)}, {"expected", known_scales(scales)}}};
    Faults faults;
    if (answers.items.size() != static_cast<std::size_t>(scale->item_count))
        faults.push_back({"scale-item-count",
                          place + ".items",
                          {{"scale", scale->id},
                           {"given", std::to_string(answers.items.size())},
                           {"expected", std::to_string(scale->item_count)}}});
    check_range(answers, *scale, place, faults);
    if (!faults.empty()) return faults;
    ScaleScore result;
    result.scale = scale->id;
    result.on = answers.on;
    result.items = answers.items;
    result.total = std::accumulate(answers.items.begin(), answers.items.end(), 0);
    note_blanks(*scale, result);
    if (result.total) result.band = band_of(*scale, *result.total);
    raise_alarms(*scale, result);
    return result;
}

Result<std::vector<ScaleScore>> score_all(const std::vector<ScaleAnswers>& answers, const Scales& scales) {
    std::vector<ScaleScore> scores;
    Faults faults;
    for (std::size_t i = 0; i < answers.size(); ++i) {
        ScaleScore one;
        if (take(score(answers[i], scales, "scales[" + std::to_string(i) + "]"), one, faults))
            scores.push_back(std::move(one));
    }
    if (!faults.empty()) return faults;
    std::ranges::stable_sort(scores, {}, &ScaleScore::on);
    return scores;
}

}  // namespace evenfall
