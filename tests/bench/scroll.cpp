// SPDX-License-Identifier: GPL-3.0-or-later
#include <QApplication>
#include <QElapsedTimer>
#include <QPixmap>
#include <QScrollBar>
#include <algorithm>
#include <cstdio>
#include <random>

#include "diary/diary_view.h"
#include "rules/texts.h"
#include "theme/theme.h"

// Ten years of diary in the Diary view: every frame of a walk through all of it, row by row and page by page,
// at 100 % and at 200 %. Aim: no frame over 16 ms. The reference of the same run is a frame of the empty
// view.

namespace evenfall {
namespace {

StabilizationInput ten_years() {
    std::mt19937_64 random(10);
    const auto between = [&](int low, int high) {
        return low + static_cast<int>((random() >> 11U) % static_cast<std::uint64_t>(high - low + 1));
    };
    const Day first = day_at(2017, 1, 1);
    StabilizationInput input;
    Regimen regimen;
    for (const int hour : {8, 14, 20})
        regimen.doses.push_back({{hour * 60}, "lorazepam", Dose::milligrams(1), {}, {}});
    input.intended.push_back({{}, regimen});
    for (int day = 0; day < 3652; ++day) {
        const LocalTime start(first + std::chrono::days(day));
        for (const DoseTime& each : regimen.doses) {
            if (between(0, 9) == 0) continue;
            const Dose amount = between(0, 9) == 0 ? Dose::micrograms(1500) : each.amount;
            input.diary.intake.push_back({start + std::chrono::minutes(each.at.minutes + between(-90, 90)),
                                          each.drug, amount, TakenWhy::unsaid, ""});
        }
        for (const char* item : {"anxiety", "sleep", "tremor", "sweating", "restlessness", "low mood"})
            input.diary.ratings.push_back({start + std::chrono::hours(between(9, 22)), item, between(0, 10)});
    }
    input.as_of = LocalTime(first + std::chrono::days(3653));
    return input;
}

/// One frame painted, in milliseconds.
double frame(ui::DiaryView& view, QPixmap& screen) {
    QElapsedTimer timer;
    timer.start();
    view.viewport()->render(&screen);
    return static_cast<double>(timer.nsecsElapsed()) / 1e6;
}

struct Frames {
    double worst = 0, median = 0;
    std::size_t count = 0;
};

Frames walk(ui::DiaryView& view, double scale, int step) {
    QPixmap screen((QSizeF(view.viewport()->size()) * scale).toSize());
    screen.setDevicePixelRatio(scale);
    std::vector<double> times;
    QScrollBar& bar = *view.verticalScrollBar();
    for (int at = bar.minimum(); at <= bar.maximum(); at += step) {
        bar.setValue(at);
        times.push_back(frame(view, screen));
    }
    std::ranges::sort(times);
    return {times.back(), times[times.size() / 2], times.size()};
}

int measure() {
    const auto formulary =
        std::make_shared<const Formulary>(load_formulary(resources_folder() / "formulary.json").value());
    const auto rules = std::make_shared<const Rules>(Rules::load(resources_folder() / "rules.json").value());
    ui::DiaryView empty, view;
    for (ui::DiaryView* each : {&empty, &view}) each->resize(1100, 820);
    view.show_sheet(ui::make_sheet({ten_years(), formulary, rules, {}}, {}));
    std::printf("%zu rows\n", view.sheet().rows.size());
    for (const double scale : {1.0, 2.0}) {
        QPixmap screen((QSizeF(empty.viewport()->size()) * scale).toSize());
        screen.setDevicePixelRatio(scale);
        double nothing = 1e9;
        for (int i = 0; i < 50; ++i) nothing = std::min(nothing, frame(empty, screen));
        for (const auto& [words, step] : {std::pair{"row by row", 26}, std::pair{"page by page", 700}}) {
            const Frames found = walk(view, scale, step);
            std::printf(
                "%3.0f %%, %-12s: %zu frames, median %.1f ms, worst %.1f ms (aim: 16); empty view %.1f ms\n",
                100 * scale, words, found.count, found.median, found.worst, nothing);
        }
    }
    return 0;
}

}  // namespace
}  // namespace evenfall

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QApplication application(argc, argv);
    evenfall::ui::apply_theme(*qApp, evenfall::ui::ThemeKind::light);
    return evenfall::measure();
}
