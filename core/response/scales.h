// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/diary.h"
#include "model/plan.h"
#include "model/words.h"
#include "units/result.h"

// Published scales as data. A scale whose owner allows it is a form with its items; of the others only the
// total is taken down, from a form that the clinic holds by its own right. A score is never turned into a
// dose.

namespace evenfall {

/// What is entered: the answers to the items, or the total alone.
enum class ScaleEntry { items, total };
template <>
struct Words<ScaleEntry> {
    static constexpr std::array<WordPair<ScaleEntry>, 2> table{
        {{ScaleEntry::items, "items"}, {ScaleEntry::total, "total"}}};
};

/// A band of totals, from `from` to the next band's. The word is also the id of its sentence: "scale-band-"
/// with hyphens.
struct ScaleBand {
    int from = 0;
    std::string band;

    bool operator==(const ScaleBand&) const = default;
};

/// An answer that raises a rule: item `item` (from 1; 0: the total) at `from` or more. Where an item is left
/// blank `blank_rule` is raised instead: a blank is not a no.
struct ScaleAlarm {
    int item = 0;
    int from = 1;
    std::string rule;
    std::string blank_rule;

    bool operator==(const ScaleAlarm&) const = default;
};

/// A scale: shape, bands, and who says so. Sentences (items, choices, licence) are ids of `resources/texts`.
struct Scale {
    std::string id;  ///< "PHQ-9"
    ScaleEntry entry = ScaleEntry::items;
    int item_count = 0;                ///< 1 where only the total is entered
    int most = 0;                      ///< of one item, or of the total; the least is 0
    std::vector<std::string> items;    ///< sentence of each item; empty where it may not be reproduced
    std::vector<std::string> choices;  ///< sentence of each answer from 0 up
    std::vector<ScaleBand> bands;      ///< ascending; empty where none is published or they are disputed
    std::vector<ScaleAlarm> alarms;
    std::string source, how;
    std::string licence;  ///< sentence on who owns it and what may be done with it

    bool operator==(const Scale&) const = default;
};

/// The scales that the program knows, in the order in which they are offered.
struct Scales {
    std::vector<Scale> all;

    const Scale* find(std::string_view id) const;
};

/// Reads `resources/scales.json`. Faults: those of StrictObject, `scales-version`, `scale-id-twice`,
/// `scale-shape` (bands not ascending from 0, or counts that do not fit).
Result<Scales> load_scales(const std::filesystem::path& file);
Result<Scales> parse_scales(std::string_view text, std::string_view file_name);

/// An item that was left blank, where answers are listed as numbers.
inline constexpr int kBlankItem = -1;

/// The score of one form.
struct ScaleScore {
    std::string scale;
    Day on{};
    std::vector<int> items;           ///< as answered; kBlankItem where left blank
    std::optional<int> total;         ///< empty where an item is blank: nothing is guessed
    std::optional<std::string> band;  ///< empty without a total or without published bands
    std::vector<Flag> flags;

    bool operator==(const ScaleScore&) const = default;
};

/// Scores a form. Faults, all of them: `scale-unknown`, `scale-item-count`, `scale-item-range`,
/// `scale-total-range`. `place` names the form in the input.
Result<ScaleScore> score(const ScaleAnswers& answers, const Scales& scales, const std::string& place);

/// All forms in order of day. Faults of all of them together.
Result<std::vector<ScaleScore>> score_all(const std::vector<ScaleAnswers>& answers, const Scales& scales);

}  // namespace evenfall
