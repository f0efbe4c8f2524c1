// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/level_curve.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>
#include <map>

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

/// The changes downwards up to today's stretch.
std::vector<LevelRequest::Cut> cuts_of(const Course& course) {
    std::vector<LevelRequest::Cut> cuts;
    for (std::size_t i = 1; course.current && i <= *course.current; ++i) {
        const Stretch &before = course.stretches[i - 1], &after = course.stretches[i];
        if (after.daily < before.daily)
            cuts.push_back({after.from, before.daily, after.daily,
                            kinetics::daily_doses(regimen_of(before, course.drug), course.drug),
                            kinetics::daily_doses(regimen_of(after, course.drug), course.drug)});
    }
    return cuts;
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
    for (const LevelRequest::Cut& cut : request.cuts) {
        const double hours = kinetics::hours_between(LocalTime(cut.on), request.now, zone);
        const auto share =
            kinetics::share_arrived_range(*request.kinetics, request.drug, cut.before, cut.after, hours);
        if (share)
            curve.cuts.push_back({cut.on, cut.from, cut.to, static_cast<int>(std::lround(100 * share->least)),
                                  static_cast<int>(std::lround(100 * share->most))});
    }
}

/// What 100 % stands for, in mg/day: the mean of the diary days before the first change where there are
/// enough of them, else the stated regimen.
struct Reference {
    double mg = 0;
    QString says;
};

Reference reference_of(const LevelRequest& request, double stated_mg) {
    const auto mg = [](double amount) { return QString::number(amount, 'g', 4); };
    if (request.days_before.size() < request.least_days_before)
        return {stated_mg,
                Say::tr("100 % is the average of the recorded regimen, %1 mg a day, at steady state.")
                    .arg(mg(stated_mg))};
    std::map<Day, double> totals;
    for (const Day day : request.days_before) totals[day] = 0;
    for (const Intake& intake : request.intake)
        if (const auto day = totals.find(day_of(intake.taken_at)); day != totals.end())
            day->second += intake.amount.mg();
    double sum = 0, least = totals.begin()->second, most = least;
    for (const auto& [day, total] : totals) {
        sum += total;
        least = std::min(least, total);
        most = std::max(most, total);
    }
    const double mean = sum / static_cast<double>(totals.size());
    if (mean <= 0) return {stated_mg, {}};
    return {mean,
            Say::tr("100 % is the mean of the %1 diary days before the first change, %2 mg a day (%3 to "
                    "%4 mg).")
                .arg(totals.size())
                .arg(mg(mean), mg(least), mg(most))};
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
                           const Rules& rules, LocalTime now) {
    LevelRequest request;
    request.drug = course.drug;
    request.now = now;
    request.patients = rules.whole("level-spread", "patients");
    request.absorption_factor = rules.number("level-spread", "absorption_factor");
    request.least_days_before = static_cast<std::size_t>(rules.whole("diary-days", "least_days"));
    if (const Drug* drug = formulary.find(course.drug)) request.kinetics = drug->kinetics;
    if (course.stretches.empty()) return request;
    for (const Stretch& stretch : course.stretches)
        request.regimens.push_back({stretch.from, regimen_of(stretch, course.drug)});
    request.from = course.stretches.front().from;
    const Stretch& last = course.stretches.back();
    request.until = last.to.value_or(std::max(last.from, day_of(now)) + days(28));
    add_diary(request, diary_of(record));
    const auto& stretches = course.stretches;
    const auto changed = std::ranges::find_if(
        stretches, [&](const Stretch& stretch) { return stretch.daily != stretches.front().daily; });
    const Day until = std::min(changed == stretches.end() ? request.until : changed->from, day_of(now));
    for (const Day day : request.diary_days)
        if (day < until) request.days_before.push_back(day);
    request.cuts = cuts_of(course);
    return request;
}

LevelCurve compute_level_curve(const LevelRequest& request, std::stop_token stop,
                               const kinetics::Progress& progress) {
    if (request.regimens.empty()) return {};
    if (!request.kinetics) return no_curve(Say::tr("No model is known for this agent."));
    const auto before = kinetics::daily_doses(request.regimens.front().regimen, request.drug);
    if (kinetics::daily_mg(before) <= 0)
        return no_curve(Say::tr("No regimen before the taper is recorded to compare with."));
    const Reference reference = reference_of(request, kinetics::daily_mg(before));

    const Zone zone = Zone::of_machine();
    const auto length = (request.until - request.from).count();
    const auto stride = std::max<std::int64_t>(1, (length + kMostPoints - 1) / kMostPoints);
    kinetics::EnsembleRequest band;
    band.agents.push_back(
        {request.drug, *request.kinetics, {}, before, all_doses(request, LocalTime(request.from), zone)});
    band.grid = {24.0 * static_cast<double>(stride), 24.0 * static_cast<double>(stride),
                 static_cast<std::size_t>(length / stride)};
    band.patients = request.patients;
    band.absorption_factor = request.absorption_factor;
    const auto ran = kinetics::run_average_band(band, stop, progress);
    if (!ran) return no_curve(Say::tr("The constants of this agent's model cannot be used."));
    LevelCurve curve;
    if (!*ran) return curve;
    const kinetics::Band& levels = (*ran)->bands.front();
    const auto percent = [&](double level) { return 100 * level / reference.mg; };
    for (std::size_t i = 0; i < levels.p50.size(); ++i)
        curve.points.push_back(
            {axis_day(request.from) + static_cast<double>(i + 1) * static_cast<double>(stride),
             percent(levels.p10[i]), percent(levels.p50[i]), percent(levels.p90[i])});
    curve.patients = request.patients;
    curve.from_diary = !request.intake.empty();
    curve.reference = reference.says;
    add_arrived(curve, request, zone);
    return curve;
}

}  // namespace evenfall::ui
