// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/check_words.h"

#include <QCoreApplication>
#include <cmath>

#include "course/day_words.h"
#include "diary/days.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

struct Say {
    Q_DECLARE_TR_FUNCTIONS(CheckWords)
};

QString one_decimal(double value) {
    return QString::number(value, 'f', 1);
}

/// Two decimals; what rounds to nothing has no sign.
QString two_decimals(double value) {
    return QString::number(std::abs(value) < 0.005 ? 0.0 : value, 'f', 2);
}

QString of_days(int part, int whole) {
    return Say::tr("%1 of %2").arg(part).arg(whole);
}

}  // namespace

const char* verdict_text(Verdict verdict) {
    switch (verdict) {
        case Verdict::steady:
            return "stabilization-verdict-steady";
        case Verdict::uneven:
            return "stabilization-verdict-uneven";
        case Verdict::erratic:
            return "stabilization-verdict-erratic";
        case Verdict::too_little:
            break;
    }
    return "stabilization-verdict-too-little";
}

const char* verdict_meaning(Verdict verdict) {
    switch (verdict) {
        case Verdict::steady:
            return "stabilization-verdict-steady-means";
        case Verdict::uneven:
            return "stabilization-verdict-uneven-means";
        case Verdict::erratic:
            return "stabilization-verdict-erratic-means";
        case Verdict::too_little:
            break;
    }
    return "stabilization-verdict-too-little-means";
}

const char* use_text(Use use) {
    switch (use) {
        case Use::scheduled:
            return "stabilization-use-scheduled";
        case Use::night_only:
            return "stabilization-use-night-only";
        case Use::as_needed:
            return "stabilization-use-as-needed-title";
        case Use::unknown:
            break;
    }
    return "stabilization-use-unknown-title";
}

const char* dose_times_text(DoseTimes source) {
    switch (source) {
        case DoseTimes::given:
            return "stabilization-dose-times-given-title";
        case DoseTimes::found:
            return "stabilization-dose-times-found-title";
        case DoseTimes::none:
            break;
    }
    return "stabilization-dose-times-none-title";
}

QString percent(double value) {
    return Say::tr("%1 %").arg(static_cast<int>(std::lround(value)));
}

QString share_percent(double share) {
    return percent(100 * share);
}

std::vector<std::pair<QString, QString>> measure_rows(const StabilizationCheck& check) {
    const Measures& m = check.measures;
    const QString unit = to_text(check.unit);
    std::vector<std::pair<QString, QString>> rows = {
        {Say::tr("Days recorded"), Say::tr("%1; %2 unknown").arg(m.recorded_days).arg(m.unknown_days)},
        {Say::tr("Days with the intended number of doses"), of_days(m.days_as_intended, m.recorded_days)},
        {Say::tr("Doses written down"), Say::tr("%1; %2 intended").arg(m.doses).arg(m.intended_doses)},
        {Say::tr("Missed, extra"), Say::tr("%1, %2").arg(m.missed).arg(m.extra)},
        {Say::tr("Late, early"), Say::tr("%1, %2").arg(m.late).arg(m.early)},
        {Say::tr("Taken because of symptoms, forgotten"),
         Say::tr("%1, %2").arg(m.for_symptoms).arg(m.forgot)},
        {Say::tr("Mean daily total"), Say::tr("%1 %2").arg(two_decimals(m.mean_total), unit)},
        {Say::tr("Daily totals vary by"),
         Say::tr("%1 (standard deviation ÷ mean)").arg(share_percent(m.total_cv))},
        {Say::tr("Daily totals off the intended by"), share_percent(m.total_off_intended)},
        {Say::tr("Trend of the daily total"),
         Say::tr("%1 %2 a week").arg(two_decimals(m.trend_per_week), unit)},
        {Say::tr("Hours between doses"),
         Say::tr("mean %1 h, longest %2 h, vary by %3")
             .arg(one_decimal(m.interval_mean_h), one_decimal(m.longest_interval_h),
                  share_percent(m.interval_cv))},
        {Say::tr("Long gaps"), QString::number(m.long_gaps)}};
    if (m.largest_change_on)
        rows.emplace_back(Say::tr("Largest change from a day to the next"),
                          Say::tr("%1 %2 on %3")
                              .arg(two_decimals(m.largest_change), unit, short_day(*m.largest_change_on)));
    return rows;
}

std::vector<std::pair<QString, QString>> dose_time_rows(const StabilizationCheck& check) {
    std::vector<std::pair<QString, QString>> rows;
    for (const DoseTimeKept& kept : check.measures.dose_times) {
        QString says = Say::tr("taken %1, missed %2, late %3, early %4")
                           .arg(of_days(kept.taken, kept.days))
                           .arg(kept.missed)
                           .arg(kept.late)
                           .arg(kept.early);
        if (kept.usual)
            says += Say::tr("; usually at %1, give or take %2 min")
                        .arg(text_of(*kept.usual))
                        .arg(std::lround(kept.sd_minutes));
        rows.emplace_back(Say::tr("%1 %2 %3").arg(text_of(kept.at), to_text(kept.drug), text_of(kept.amount)),
                          says);
    }
    return rows;
}

QString level_sentence(const LevelBand& levels) {
    if (levels.hours.empty()) return Say::tr("No level could be modelled.");
    return Say::tr(
               "Modelled, percent of the intended average. As taken: peak %1, trough %2, peak to trough %3 "
               "of the average. As intended: "
               "peak %4, trough %5, peak to trough %6.")
        .arg(percent(levels.as_taken.peak), percent(levels.as_taken.trough),
             share_percent(levels.as_taken.fluctuation), percent(levels.as_intended.peak),
             percent(levels.as_intended.trough), share_percent(levels.as_intended.fluctuation));
}

QString between_sentence(const BetweenDose& between) {
    if (between.ratings == 0) return Say::tr("No rating lies between two doses.");
    return Say::tr(
               "%1 ratings lie between two doses, %2 of them in the late half of the interval. A late rating "
               "exceeds an early one with "
               "probability %3 (as rated: %4; 0.50 is chance), p %5.")
        .arg(between.ratings)
        .arg(between.late)
        .arg(between.late_over_early, 0, 'f', 2)
        .arg(between.late_over_early_raw, 0, 'f', 2)
        .arg(between.p_value, 0, 'f', 3);
}

std::optional<Day> day_in(const std::string& entry, ClockTime begins) {
    const std::size_t end = entry.find(' ');
    const auto time = parse_local_time(entry.substr(0, end), {});
    if (time) return diary_day_of(*time, begins);
    const auto day = parse_day(entry.substr(0, end), {});
    return day ? std::optional<Day>(*day) : std::nullopt;
}

QString entry_in_words(const std::string& entry) {
    const std::size_t end = entry.find(' ');
    const auto time = parse_local_time(entry.substr(0, end), {});
    if (!time) return sentence_case(to_text(entry));
    const QString rest = end == std::string::npos ? QString() : to_text(entry.substr(end));
    return Say::tr("%1, %2%3").arg(short_day(day_of(*time)), text_of(clock_of(*time)), rest);
}

}  // namespace evenfall::ui
