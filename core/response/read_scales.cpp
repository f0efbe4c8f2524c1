// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "model/strict_json.h"
#include "model/strict_object.h"
#include "response/scales.h"

namespace evenfall {
namespace {

using nlohmann::json;

constexpr int kVersion = 1;
constexpr int kMostItems = 100;
constexpr int kMostPoints = 1000;

void read_bands(StrictObject& object, Scale& scale, Faults& faults) {
    object.list(
        "bands",
        [&](const json& value, const std::string& place) {
            StrictObject band(value, place, faults);
            ScaleBand read;
            band.whole("from", read.from, 0, kMostPoints);
            band.text("band", read.band);
            scale.bands.push_back(std::move(read));
        },
        Need::may);
}

void read_alarms(StrictObject& object, Scale& scale, Faults& faults) {
    object.list(
        "alarms",
        [&](const json& value, const std::string& place) {
            StrictObject alarm(value, place, faults);
            ScaleAlarm read;
            alarm.whole("item", read.item, 0, kMostItems);
            alarm.whole("from", read.from, 0, kMostPoints);
            alarm.text("rule", read.rule);
            alarm.text("blank_rule", read.blank_rule, Need::may);
            scale.alarms.push_back(std::move(read));
        },
        Need::may);
}

/// Whether counts, bands and alarms fit each other.
bool fits(const Scale& scale) {
    const bool items = scale.entry == ScaleEntry::items;
    const auto count = static_cast<std::size_t>(scale.item_count);
    if (items ? scale.items.size() != count : scale.item_count != 1 || !scale.items.empty()) return false;
    if (items && scale.choices.size() != static_cast<std::size_t>(scale.most) + 1) return false;
    for (std::size_t i = 0; i < scale.bands.size(); ++i)
        if (i == 0 ? scale.bands[i].from != 0 : scale.bands[i].from <= scale.bands[i - 1].from) return false;
    return std::ranges::all_of(scale.alarms,
                               [&](const ScaleAlarm& each) { return each.item <= scale.item_count; });
}

Scale read_scale(const json& value, const std::string& place, Faults& faults) {
    Scale scale;
    StrictObject object(value, place, faults);
    object.text("id", scale.id);
    object.word("entry", scale.entry);
    object.whole("item_count", scale.item_count, 1, kMostItems);
    object.whole("most", scale.most, 1, kMostPoints);
    object.texts("items", scale.items, Need::may);
    object.texts("choices", scale.choices, Need::may);
    read_bands(object, scale, faults);
    read_alarms(object, scale, faults);
    object.text("source", scale.source);
    object.text("how", scale.how);
    object.text("licence", scale.licence);
    if (!fits(scale)) faults.push_back({"scale-shape", place, {{"scale", scale.id.substr(0, 40)}}});
    return scale;
}

Result<Scales> read(const json& file, const std::string& place) {
    Faults faults;
    Scales scales;
    {
        StrictObject object(file, place, faults);
        int version = 0;
        if (object.whole("version", version, 0, kMostPoints) && version != kVersion)
            object.fault("version", "scales-version", {{"version", std::to_string(version)}});
        object.list("scales", [&](const json& value, const std::string& at) {
            Scale scale = read_scale(value, at, faults);
            if (scales.find(scale.id))
                faults.push_back({"scale-id-twice", at, {{"scale", scale.id.substr(0, 40)}}});
            scales.all.push_back(std::move(scale));
        });
    }
    if (!faults.empty()) return faults;
    return scales;
}

}  // namespace

Result<Scales> load_scales(const std::filesystem::path& file) {
    const auto loaded = load_strict_json(file);
    if (!loaded) return loaded.faults();
    return read(*loaded, "");
}

Result<Scales> parse_scales(std::string_view text, std::string_view file_name) {
    const auto parsed = parse_strict_json(text, file_name);
    if (!parsed) return parsed.faults();
    return read(*parsed, "");
}

}  // namespace evenfall
