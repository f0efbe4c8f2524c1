// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/level_curve.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "kinetics/levels.h"
#include "kinetics/share_arrived.h"
#include "kinetics/steady.h"
#include "units/zone.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

struct Say {
    Q_DECLARE_TR_FUNCTIONS(LevelCurve)
};

constexpr int kMostPoints = 1500;

Regimen regimen_of(const Stretch& stretch, const std::string& drug) {
    Regimen regimen;
    for (const PlannedDose& dose : stretch.doses)
        if (dose.drug == drug && !dose.amount.is_zero())
            regimen.doses.push_back({dose.at, dose.drug, dose.amount, {}, {}});
    return regimen;
}

/// The last change of the daily amount on or before today, downwards.
std::optional<std::size_t> last_cut(const Course& course) {
    if (!course.current) return std::nullopt;
    for (std::size_t i = *course.current; i > 0; --i) {
        const Dose before = course.stretches[i - 1].daily, after = course.stretches[i].daily;
        if (after < before) return i;
        if (after > before) return std::nullopt;
    }
    return std::nullopt;
}

/// The doses as taken where the diary was kept, and as planned on all other days.
std::vector<kinetics::TimedDose> all_doses(const LevelRequest& request, LocalTime origin, const Zone& zone) {
    auto doses = kinetics::timed_doses(request.intake, request.drug, origin, zone);
    Day from = request.from;
    const auto plan_until = [&](Day until) {
        if (from >= until) return;
        const auto planned = kinetics::timed_doses(request.regimens, request.drug, from, until, origin, zone);
        doses.insert(doses.end(), planned.begin(), planned.end());
    };
    for (const Day day : request.diary_days) {
        plan_until(day);
        from = std::max(from, day + days(1));
    }
    plan_until(request.until);
    return doses;
}

LevelCurve no_curve(const QString& why) {
    LevelCurve curve;
    curve.fault = why;
    return curve;
}

void add_arrived(LevelCurve& curve, const LevelRequest& request, const Zone& zone) {
    if (!request.last_cut) return;
    const double hours = kinetics::hours_between(LocalTime(*request.last_cut), request.now, zone);
    const auto share = kinetics::share_arrived_range(*request.kinetics, request.drug, request.before_cut,
                                                     request.after_cut, hours);
    if (!share) return;
    curve.arrived = {static_cast<int>(std::lround(100 * share->least)),
                     static_cast<int>(std::lround(100 * share->most))};
    curve.last_cut = *request.last_cut;
}

void add_diary(LevelRequest& request, const Diary& diary) {
    const auto within = [&](Day day) { return day >= request.from && day < request.until; };
    for (const Intake& intake : diary.intake) {
        if (intake.drug != request.drug || !within(day_of(intake.taken_at))) continue;
        request.intake.push_back(intake);
        request.diary_days.push_back(day_of(intake.taken_at));
    }
    for (const Day day : diary.kept_empty)
        if (within(day)) request.diary_days.push_back(day);
    std::ranges::sort(request.diary_days);
    const auto doubled = std::ranges::unique(request.diary_days);
    request.diary_days.erase(doubled.begin(), doubled.end());
}

}  // namespace

LevelRequest level_request(const PatientRecord& record, const Course& course, const Formulary& formulary,
                           LocalTime now) {
    LevelRequest request;
    request.drug = course.drug;
    request.now = now;
    if (const Drug* drug = formulary.find(course.drug)) request.kinetics = drug->kinetics;
    if (course.stretches.empty()) return request;
    for (const Stretch& stretch : course.stretches)
        request.regimens.push_back({stretch.from, regimen_of(stretch, course.drug)});
    request.from = course.stretches.front().from;
    const Stretch& last = course.stretches.back();
    request.until = last.to.value_or(std::max(last.from, day_of(now)) + days(28));
    add_diary(request, diary_of(record));
    if (const auto cut = last_cut(course)) {
        request.last_cut = course.stretches[*cut].from;
        request.before_cut =
            kinetics::daily_doses(regimen_of(course.stretches[*cut - 1], course.drug), course.drug);
        request.after_cut =
            kinetics::daily_doses(regimen_of(course.stretches[*cut], course.drug), course.drug);
    }
    return request;
}

LevelCurve compute_level_curve(const LevelRequest& request, std::stop_token stop) {
    if (request.regimens.empty()) return {};
    if (!request.kinetics) return no_curve(Say::tr("No model is known for this agent."));
    const auto before = kinetics::daily_doses(request.regimens.front().regimen, request.drug);
    const double reference = kinetics::daily_mg(before);
    if (reference <= 0) return no_curve(Say::tr("No regimen before the taper is recorded to compare with."));

    const Zone zone = Zone::of_machine();
    const auto doses = all_doses(request, LocalTime(request.from), zone);
    const auto length = (request.until - request.from).count();
    const auto stride = std::max<std::int64_t>(1, (length + kMostPoints - 1) / kMostPoints);
    const kinetics::Grid grid{24.0 * static_cast<double>(stride), 24.0 * static_cast<double>(stride),
                              static_cast<std::size_t>(length / stride)};
    LevelCurve curve;
    curve.from_diary = !request.intake.empty();
    const Kinetics& middle = *request.kinetics;
    for (const Kinetics& constants : {middle, kinetics::fast_end(middle), kinetics::slow_end(middle)}) {
        if (stop.stop_requested()) return curve;
        const auto model = kinetics::Model::make(constants, request.drug);
        if (!model) return no_curve(Say::tr("The constants of this agent's model cannot be used."));
        const auto level =
            kinetics::relative_averages(*model, kinetics::steady_start(*model, before), doses, grid);
        const bool first = curve.points.empty();
        for (std::size_t i = 0; i < level.size(); ++i) {
            const double percent = 100 * level[i] / reference;
            if (first)
                curve.points.push_back({axis_day(request.from) + static_cast<double>((i + 1) * stride),
                                        percent, percent, percent});
            curve.points[i].low = std::min(curve.points[i].low, percent);
            curve.points[i].high = std::max(curve.points[i].high, percent);
        }
    }
    add_arrived(curve, request, zone);
    return curve;
}

}  // namespace evenfall::ui
