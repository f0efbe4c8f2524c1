// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "course/day_words.h"
#include "course/scene.h"
#include "drawing/pieces.h"

// What the lanes say: names for assistive technology, the sentence beneath the lanes, and where a number
// comes from.

namespace evenfall::ui {
namespace {

using std::chrono::days;

struct Say {
    Q_DECLARE_TR_FUNCTIONS(CourseItems)
};

QString stretch_name(const Stretch& stretch) {
    switch (stretch.kind) {
        case Stretch::Kind::before:
            return Say::tr("Before the taper");
        case Stretch::Kind::hold:
            return stretch.step > 0 ? Say::tr("Hold on step %1").arg(stretch.step)
                                    : Say::tr("Hold before the first step");
        case Stretch::Kind::off:
            return Say::tr("OFF");
        default:
            return Say::tr("Step %1").arg(stretch.step);
    }
}

QString status_of(const Stretch& stretch) {
    switch (stretch.kind) {
        case Stretch::Kind::before:
            return Say::tr("as recorded before the plan");
        case Stretch::Kind::past:
            return Say::tr("done");
        case Stretch::Kind::today:
            return Say::tr("in force today");
        case Stretch::Kind::committed:
            return Say::tr("signed");
        case Stretch::Kind::outlook:
            return Say::tr("outlook: not yet agreed");
        case Stretch::Kind::hold:
            return Say::tr("the dose stays where it is");
        case Stretch::Kind::off:
            return Say::tr("nothing is taken");
    }
    return {};
}

/// The daily amount of the stretch before that differs, or nothing.
std::optional<Dose> amount_before(const std::vector<Stretch>& stretches, std::size_t index) {
    while (index-- > 0)
        if (stretches[index].daily != stretches[index + 1].daily) return stretches[index].daily;
    return std::nullopt;
}

QString change_text(const std::vector<Stretch>& stretches, std::size_t index) {
    const Stretch& stretch = stretches[index];
    const bool changes = index > 0 && stretches[index - 1].daily != stretch.daily;
    if (!changes) return daily_text(stretch.daily);
    if (stretches[index - 1].daily.is_zero()) return daily_text(stretch.daily);
    const QString cut =
        QString::fromStdString(print_percent(Share::cut(stretches[index - 1].daily, stretch.daily)));
    return Say::tr("%1 to %2, %3 % of the last dose")
        .arg(amount_digits(stretches[index - 1].daily), daily_text(stretch.daily), cut);
}

QString length_text(const Stretch& stretch) {
    if (!stretch.to) return Say::tr("until further notice");
    const auto length = (*stretch.to - stretch.from).count();
    return length == 1 ? Say::tr("1 day") : Say::tr("%1 days").arg(length);
}

QString because_of(const std::vector<Stretch>& stretches, std::size_t index) {
    const Stretch& stretch = stretches[index];
    QStringList lines;
    if (const auto before = amount_before(stretches, index); before && !before->is_zero())
        lines << Say::tr("The cut is a share of the dose before it: (%1 − %2) ÷ %1 = %3 %.")
                     .arg(amount_text(*before), amount_text(stretch.daily),
                          QString::fromStdString(print_percent(Share::cut(*before, stretch.daily))));
    for (const PlannedDose& dose : stretch.doses)
        lines << Say::tr("%1: %2 %3%4")
                     .arg(QString::fromStdString(print_clock(dose.at)), QString::fromStdString(dose.drug),
                          amount_text(dose.amount),
                          dose.pieces.empty() ? QString() : Say::tr(", %1").arg(pieces_text(dose.pieces)));
    if (!stretch.diazepam.usual.is_zero())
        lines << Say::tr(
                     "All agents of the day as diazepam: %1 (%2 to %3), a starting point, not a measured "
                     "effect.")
                     .arg(amount_text(stretch.diazepam.usual), amount_text(stretch.diazepam.least),
                          amount_text(stretch.diazepam.most));
    return lines.join(QLatin1Char('\n'));
}

QString percent(double value) {
    return QString::number(std::lround(value));
}

}  // namespace

std::vector<LaneItem> step_items(const CourseScene& scene) {
    std::vector<LaneItem> items;
    const auto& stretches = scene.course.stretches;
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        const Stretch& stretch = stretches[i];
        const QString says = Say::tr("%1, from %2 (%3): %4; %5.")
                                 .arg(stretch_name(stretch), full_day(stretch.from), length_text(stretch),
                                      change_text(stretches, i), status_of(stretch)) +
                             (scene.as_diazepam ? Say::tr(" Agents trade places: all amounts are drawn as "
                                                          "diazepam, by the usual equivalences.")
                                                : QString());
        items.push_back({axis_day(stretch.from), shown_end(stretch, scene.today),
                         Say::tr("%1, %2, from %3, %4")
                             .arg(stretch_name(stretch), daily_text(stretch.daily), full_day(stretch.from),
                                  status_of(stretch)),
                         says, because_of(stretches, i), stretch.flags});
    }
    return items;
}

std::vector<LaneItem> dose_items(const CourseScene& scene) {
    if (scene.course.taken.empty()) return step_items(scene);
    std::vector<LaneItem> items;
    for (const TakenDay& taken : scene.course.taken) {
        const bool as_planned = taken.planned && *taken.planned == taken.total;
        const QString beside =
            !taken.planned ? Say::tr("no plan for that day")
            : as_planned   ? Say::tr("as planned")
                           : Say::tr("not as planned: %1 was planned").arg(amount_text(*taken.planned));
        const double at = axis_day(taken.day);
        items.push_back(
            {at,
             at + 1,
             Say::tr("%1: %2 taken, %3").arg(short_day(taken.day), amount_text(taken.total), beside),
             Say::tr("%1: %2 of %3 taken, %4.")
                 .arg(full_day(taken.day), amount_text(taken.total),
                      QString::fromStdString(scene.course.drug), beside),
             Say::tr(
                 "The sum of the day's diary entries of %1; the planned amount is that of the step in force.")
                 .arg(QString::fromStdString(scene.course.drug)),
             {}});
    }
    return items;
}

namespace {

LaneItem cut_item(const ArrivedCut& cut) {
    const QString share = cut.least == cut.most ? Say::tr("about %1 %").arg(cut.least)
                                                : Say::tr("%1 to %2 %").arg(cut.least).arg(cut.most);
    return {
        axis_day(cut.on),
        axis_day(cut.on) + 1,
        Say::tr("Cut of %1: %2 has arrived, modelled").arg(short_day(cut.on), share),
        Say::tr("Cut of %1, %2 to %3: by now %4 of it has arrived in the body, modelled.")
            .arg(full_day(cut.on), amount_digits(cut.from), daily_text(cut.to), share),
        Say::tr(
            "(level without this cut − level with it) ÷ the difference of their steady states, as 24-hour "
            "averages, for the shortest and the longest published half-lives. Later and earlier cuts do "
            "not enter. It says what has arrived, never what is felt."),
        {}};
}

}  // namespace

std::vector<LaneItem> level_items(const LevelCurve& curve) {
    std::vector<LaneItem> items;
    const QString origin = curve.from_diary
                               ? Say::tr("Doses: from the diary where it was kept, else from the plan.")
                               : Say::tr("Doses: from the plan; no diary entries.");
    double next = 0;
    for (const LevelPoint& point : curve.points) {
        // One item a week is enough to walk through; every day is in the chart.
        if (!items.empty() && point.place < next) continue;
        const Day on = day_at_place(point.place - 1);
        const QString value =
            Say::tr("%1 % (%2 to %3 %)").arg(percent(point.middle), percent(point.low), percent(point.high));
        next = point.place + 6;
        items.push_back(
            {point.place - 1,
             next,
             Say::tr("%1: %2 of before, modelled").arg(short_day(on), value),
             Say::tr("%1: modelled level %2 of the average before the taper.").arg(full_day(on), value),
             Say::tr(
                 "A 24-hour average of the linear model of the agent and its active metabolites: relative, "
                 "never a measured concentration. Middle and range are the 50th, 10th and 90th percentile "
                 "of %1 virtual patients within the published half-lives and absorption, whose sources stand "
                 "on the "
                 "drug's page. Tolerance is not modelled. %2 %3")
                 .arg(curve.patients)
                 .arg(curve.reference, origin),
             {{"level-spread", {}, {}}}});
    }
    for (const ArrivedCut& cut : curve.cuts) items.push_back(cut_item(cut));
    std::ranges::stable_sort(items, {}, &LaneItem::from);
    return items;
}

std::vector<LaneItem> symptom_items(const SymptomRow& row, int days_per_cell) {
    std::vector<LaneItem> items;
    for (const SymptomCell& cell : symptom_cells(row, days_per_cell)) {
        const QString when = cell.days == 1 ? short_day(cell.from)
                             : cell.days == 7
                                 ? Say::tr("week of %1").arg(short_day(cell.from))
                                 : Say::tr("%1 weeks from %2").arg(cell.days / 7).arg(short_day(cell.from));
        const QString count = cell.count == 1 ? Say::tr("one rating") : Say::tr("%1 ratings").arg(cell.count);
        items.push_back({axis_day(cell.from),
                         axis_day(cell.from) + cell.days,
                         Say::tr("%1, %2: %3 of 10").arg(capitalised(row.item), when).arg(cell.mean),
                         Say::tr("%1, %2: mean %3 of 10, worst %4, from %5.")
                             .arg(capitalised(row.item), when)
                             .arg(cell.mean)
                             .arg(cell.worst)
                             .arg(count),
                         Say::tr("As the person rated it, 0 (none) to 10 (worst); the mean is rounded."),
                         {}});
    }
    return items;
}

QString contact_name(ContactMark::Kind kind) {
    switch (kind) {
        case ContactMark::Kind::check_in:
            return Say::tr("Check-in");
        case ContactMark::Kind::paper:
            return Say::tr("Paper issued");
        case ContactMark::Kind::signature:
            return Say::tr("Signature");
        case ContactMark::Kind::planned:
            return Say::tr("Planned contact");
        case ContactMark::Kind::note:
            return Say::tr("Note");
        case ContactMark::Kind::supply:
            return Say::tr("Supply counted");
        case ContactMark::Kind::regimen:
            return Say::tr("Regimen recorded");
    }
    return {};
}

std::vector<LaneItem> contact_items(const CourseScene& scene) {
    std::vector<LaneItem> items;
    for (std::size_t i = 0; i < scene.course.contacts.size(); ++i) {
        const ContactMark& mark = scene.course.contacts[i];
        const QString text = i < scene.contact_texts.size() ? scene.contact_texts[i] : QString();
        const double at = axis_day(mark.on);
        items.push_back({at,
                         at + 1,
                         Say::tr("%1, %2").arg(contact_name(mark.kind), short_day(mark.on)),
                         text.isEmpty()
                             ? Say::tr("%1, %2.").arg(contact_name(mark.kind), full_day(mark.on))
                             : Say::tr("%1, %2: %3").arg(contact_name(mark.kind), full_day(mark.on), text),
                         {},
                         {}});
    }
    return items;
}

}  // namespace evenfall::ui
