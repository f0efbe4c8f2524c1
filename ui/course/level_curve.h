// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <stop_token>
#include <vector>

#include "casework/course.h"
#include "course/scene.h"
#include "kinetics/doses.h"

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
    std::vector<kinetics::DailyDose> before_cut, after_cut;
    std::optional<Day> last_cut;
};

LevelRequest level_request(const PatientRecord& record, const Course& course, const Formulary& formulary,
                           LocalTime now);

/// The curve; at most about 1 500 points, a whole number of days apart. Nothing is computed further once
/// `stop` asks.
LevelCurve compute_level_curve(const LevelRequest& request, std::stop_token stop);

}  // namespace evenfall::ui
