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

std::vector<MeasureRow> measure_rows(const StabilizationCheck& check) {
    const Measures& m = check.measures;
    const QString unit = to_text(check.unit);
    std::vector<MeasureRow> rows = {
        {Say::tr("Days recorded"), Say::tr("%1; %2 unknown").arg(m.recorded_days).arg(m.unknown_days),
         Say::tr("Days on which a dose or a symptom was written down, or that were kept without one. A day "
                 "without "
                 "any entry is unknown, never missed."),
         "diary-days"},
        {Say::tr("Days with the intended number of doses"), of_days(m.days_as_intended, m.recorded_days),
         Say::tr("Recorded days on which each agent was taken as often as intended, of all recorded days."),
         "steady-limits"},
        {Say::tr("Doses written down"), Say::tr("%1; %2 intended").arg(m.doses).arg(m.intended_doses),
         Say::tr(
             "Entries that count, and the doses intended on the same days. Left out as likely duplicates or "
             "slips of units: %1.")
             .arg(m.left_out),
         "likely-duplicate"},
        {Say::tr("Missed, extra"), Say::tr("%1, %2").arg(m.missed).arg(m.extra),
         Say::tr(
             "Entries are matched to the day's dose times so that the distances are least in sum; dose times "
             "left over are missed, entries left over are extra."),
         "dose-time-window"},
        {Say::tr("Late, early"), Say::tr("%1, %2").arg(m.late).arg(m.early),
         Say::tr("Matched entries further from their dose time than the tolerance."), "late-dose"},
        {Say::tr("Taken because of symptoms, forgotten"), Say::tr("%1, %2").arg(m.for_symptoms).arg(m.forgot),
         Say::tr("As the entries themselves say; where they say nothing, neither is counted."),
         "doses-for-symptoms"},
        {Say::tr("Mean daily total"),
         Say::tr("%1 %2").arg(two_decimals(m.mean_total), unit),
         Say::tr(
             "The sum of each recorded day's entries, averaged; several agents by their usual equivalence."),
         {}},
        {Say::tr("Daily totals vary by"),
         Say::tr("%1 (standard deviation ÷ mean)").arg(share_percent(m.total_cv)),
         Say::tr(
             "The coefficient of variation of the recorded days' totals: sample standard deviation ÷ mean."),
         {}},
        {Say::tr("Daily totals off the intended by"), share_percent(m.total_off_intended),
         Say::tr(
             "The root mean square of (taken − intended) ÷ intended over the recorded days, each against the "
             "regimen of its own date."),
         "erratic-limits"},
        {Say::tr("Trend of the daily total"),
         Say::tr("%1 %2 a week").arg(two_decimals(m.trend_per_week), unit),
         Say::tr("The least-squares slope of the recorded days' totals."), "steady-climb"},
        {Say::tr("Hours between doses"),
         Say::tr("mean %1 h, longest %2 h, vary by %3")
             .arg(one_decimal(m.interval_mean_h), one_decimal(m.longest_interval_h),
                  share_percent(m.interval_cv)),
         Say::tr("Real hours from each entry to the next, days of 23 and 25 hours included; not over unknown "
                 "days."),
         {}},
        {Say::tr("Long gaps"), QString::number(m.long_gaps),
         Say::tr("Intervals longer than the intended one by more than the limit."), "long-gap"}};
    if (m.largest_change_on)
        rows.push_back({Say::tr("Largest change from a day to the next"),
                        Say::tr("%1 %2 on %3")
                            .arg(two_decimals(m.largest_change), unit, short_day(*m.largest_change_on)),
                        Say::tr("Between two recorded days that follow each other."),
                        {}});
    return rows;
}

std::vector<MeasureRow> dose_time_rows(const StabilizationCheck& check) {
    std::vector<MeasureRow> rows;
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
        rows.push_back(
            {Say::tr("%1 %2 %3").arg(text_of(kept.at), to_text(kept.drug), text_of(kept.amount)), says,
             Say::tr("The entries matched to this dose time; when they were taken as the circular mean "
                     "and standard deviation of their clock times."),
             "times-irregular"});
    }
    return rows;
}

QString rule_in_words(const Rules& rules, const std::string& id) {
    const Rule* rule = rules.find(id);
    if (rule == nullptr) return {};
    QStringList values;
    for (const auto& [name, value] : rule->values)
        values << Say::tr("%1 %2").arg(to_text(name).replace(QLatin1Char('_'), QLatin1Char(' ')),
                                       to_text(value));
    const QString limits =
        values.isEmpty() ? QString() : Say::tr(" (%1)").arg(values.join(QStringLiteral(", ")));
    return Say::tr("Rule %1%2. Source: %3.").arg(to_text(id), limits, to_text(rule->source));
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
               "Ratings between two doses: %1, in the late half of the interval: %2. A late rating exceeds "
               "an early "
               "one with probability %3 (as rated: %4; 0.50 is chance), p %5.")
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
    std::string said = entry;
    const bool missing = said.ends_with(kNotWrittenDown);
    if (missing) said.erase(said.size() - kNotWrittenDown.size());
    const std::size_t end = said.find(' ');
    const auto time = parse_local_time(said.substr(0, end), {});
    if (!time) return sentence_case(to_text(said));
    const QString rest = end == std::string::npos ? QString() : to_text(said.substr(end));
    const QString words = Say::tr("%1, %2%3").arg(short_day(day_of(*time)), text_of(clock_of(*time)), rest);
    return missing ? Say::tr("%1: intended, not written down").arg(words) : words;
}

}  // namespace evenfall::ui
