// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <functional>
#include <optional>
#include <vector>

#include "casework/course.h"
#include "course/time_axis.h"

namespace evenfall::ui {

/// How often a symptom was rated in a stretch of days, and how.
struct SymptomCell {
    Day from{};
    int days = 1;
    int count = 0;
    int mean = 0;  ///< rounded, a half upwards
    int worst = 0;

    bool operator==(const SymptomCell&) const = default;
};

/// Everything that was rated of one symptom.
struct SymptomRow {
    QString item;
    std::vector<Rating> ratings;  ///< in order of time

    bool operator==(const SymptomRow&) const = default;
};

/// The cells of a row in blocks of so many days, each block beginning on a Monday where it is a week or more.
/// Blocks without a rating have no cell.
std::vector<SymptomCell> symptom_cells(const SymptomRow& row, int days_per_cell);

/// The modelled level of one day, in percent of the average before the taper.
struct LevelPoint {
    double place = 0;  ///< axis day: the end of the 24 hours that are averaged
    double low = 0, middle = 0, high = 0;

    bool operator==(const LevelPoint&) const = default;
};

/// How much of one cut has arrived by now, modelled: percent, over the published half-lives.
struct ArrivedCut {
    Day on{};
    Dose from, to;  ///< the daily amounts before and after
    int least = 0, most = 0;

    bool operator==(const ArrivedCut&) const = default;
};

/// The level lane's content: empty while it is computed, or where no model is known.
struct LevelCurve {
    std::vector<LevelPoint> points;
    std::optional<QString> fault;  ///< why there is none
    std::vector<ArrivedCut> cuts;  ///< those made by now, in order of time
    int patients = 0;              ///< virtual patients behind the band
    bool from_diary = false;       ///< whether diary entries went in where they exist
    QString reference;             ///< what 100 % stands for

    bool operator==(const LevelCurve&) const = default;
};

/// What the lanes show: values only.
struct CourseScene {
    Course course;
    std::vector<SymptomRow> symptoms;    ///< the most often rated first
    std::vector<QString> contact_texts;  ///< the sentence of each of the course's contacts
    Day today{};
    bool as_diazepam = false;  ///< agents trade places: every amount is drawn as diazepam

    bool is_empty() const { return course.stretches.empty() && symptoms.empty() && course.contacts.empty(); }
    bool operator==(const CourseScene&) const = default;
};

/// Gathers the scene from a record and its course. `say` renders a message in the window's language.
CourseScene make_scene(const PatientRecord& record, const Course& course, Day today,
                       const std::function<QString(const Message&)>& say);

/// Where a stretch ends on the time axis: one without an end runs on beyond today.
double shown_end(const Stretch& stretch, Day today);

/// The whole time that the scene can show, with a little room at both ends.
TimeRange limits_of(const CourseScene& scene);

/// Something on a lane that can be chosen, told and listed.
struct LaneItem {
    double from = 0, to = 0;  ///< axis days; a mark has to == from + 1
    QString name;             ///< short, for assistive technology
    QString says;             ///< the sentence beneath the lanes
    QString because;          ///< inputs and origin, for "Why?"
    std::vector<Flag> flags;

    bool operator==(const LaneItem&) const = default;
};

/// The words for a kind of contact: "call or visit", "signature", …
QString contact_name(ContactMark::Kind kind);

/// The items of the lanes, in order of time.
std::vector<LaneItem> step_items(const CourseScene& scene);
std::vector<LaneItem> dose_items(const CourseScene& scene);
std::vector<LaneItem> level_items(const LevelCurve& curve);
std::vector<LaneItem> symptom_items(const SymptomRow& row, int days_per_cell);
std::vector<LaneItem> contact_items(const CourseScene& scene);

}  // namespace evenfall::ui
