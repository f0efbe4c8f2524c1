// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <stop_token>
#include <vector>

#include "casework/course.h"
#include "course/scene.h"
#include "kinetics/average_band.h"
#include "kinetics/doses.h"
#include "rules/rules.h"

namespace evenfall::ui {

/// What the level lane is computed from: values only, so that it can be computed on another thread.
struct LevelRequest {
    std::optional<Kinetics> kinetics;
    std::string drug;
    std::vector<DatedRegimen> regimens;  ///< what the steps ask for, in order of time
    std::vector<Intake> intake;          ///< diary entries of the agent, on `diary_days` alone
    std::vector<Day> diary_days;         ///< ascending; on these the diary counts, on others the steps
    Day from{}, until{};
    LocalTime now{};
    /// A change downwards of the daily amount, on or before today.
    struct Cut {
        Day on{};
        Dose from, to;
        std::vector<kinetics::DailyDose> before, after;
    };
    std::vector<Cut> cuts;
    std::vector<Day> days_before;  ///< of `diary_days`, those before the first change of the daily amount
    /// Fewer of them say little of what is usual; rule `diary-days`.
    std::size_t least_days_before = 7;
    int patients = 200;  ///< rule `level-spread`
    double absorption_factor = 1;
};

LevelRequest level_request(const PatientRecord& record, const Course& course, const Formulary& formulary,
                           const Rules& rules, LocalTime now);

/// The curve: the 10th, 50th and 90th percentile over virtual patients of the 24 h average, at most about
/// 1 500 points, a whole number of days apart. Nothing is computed further once `stop` asks; `progress` is
/// told the share done on the thread that computes.
LevelCurve compute_level_curve(const LevelRequest& request, std::stop_token stop,
                               const kinetics::Progress& progress = {});

}  // namespace evenfall::ui
