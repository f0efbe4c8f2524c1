// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <map>
#include <memory>
#include <optional>
#include <stop_token>
#include <vector>

#include "formulary/formulary.h"
#include "rules/rules.h"
#include "stabilization/check.h"

namespace evenfall::ui {

/// What the diary page is made of: values only, so that it can be made on another thread.
struct SheetRequest {
    StabilizationInput input;
    std::shared_ptr<const Formulary> formulary;
    std::shared_ptr<const Rules> rules;
    std::map<Day, QString> marks;  ///< words at the day on which a step or regimen begins
};

/// What was rated of one symptom on a day.
struct Score {
    int worst = -1;  ///< 0 to 10; negative: not rated
    int count = 0;
};

/// A symptom's column.
struct SheetItem {
    std::string item;
    QString name;
    QString group;
};

/// The diary day by day, oldest first, up to the day that runs.
struct Sheet {
    Diary diary;
    std::vector<DayRow> rows;
    std::vector<std::vector<Score>> scores;  ///< by row, then by item
    std::vector<SheetItem> items;
    std::vector<double> burden;  ///< by row: mean of the day's items, 0 to 10; negative: nothing rated
    std::map<Day, QString> marks;
    ClockTime begins;
    LocalTime as_of{};
    int tolerance_minutes = 0;  ///< of "on time"

    bool is_empty() const { return rows.empty(); }
    std::optional<std::size_t> row_of(Day day) const;
};

Sheet make_sheet(const SheetRequest& request, std::stop_token stop);

/// A symptom's name and group in the window's language. What the clinic's list does not hold is "Other".
QString symptom_name(const std::string& item);
QString symptom_group(const std::string& item);
/// The symptoms of the clinic's list, in its order.
const std::vector<std::string>& listed_symptoms();
/// Puts items into the order of the list, others behind it.
std::vector<std::string> in_list_order(std::vector<std::string> items);

}  // namespace evenfall::ui
