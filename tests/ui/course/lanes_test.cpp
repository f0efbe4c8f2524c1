// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAccessible>
#include <QLineSeries>
#include <QScatterSeries>
#include <QTest>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>
#include <functional>
#include <random>

#include <gtest/gtest.h>

#include "course/course_view.h"
#include "course/latest.h"
#include "course/level_curve.h"
#include "course/log_dose_chart.h"
#include "theme/theme.h"
#include "ui/course/sample_scene.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

bool near_colour(QRgb seen, const QColor& wanted) {
    return std::abs(qRed(seen) - wanted.red()) + std::abs(qGreen(seen) - wanted.green()) +
               std::abs(qBlue(seen) - wanted.blue()) <
           40;
}

int pixels(const QImage& image, const QRectF& box, const QColor& wanted) {
    int count = 0;
    const QRect within = box.toRect().intersected(image.rect());
    for (int y = within.top(); y <= within.bottom(); ++y)
        for (int x = within.left(); x <= within.right(); ++x) count += near_colour(image.pixel(x, y), wanted);
    return count;
}

class LanesTest : public testing::Test {
  protected:
    void SetUp() override {
        view_.resize(900, 720);
        view_.show();
        view_.show_scene(scene_);
        view_.show_range(CourseRange::all);
    }

    Lane* lane(std::size_t index) { return view_.lanes()[index]; }

    CourseScene scene_ = sample::scene();
    CourseView view_;
};

/// Whoever takes one dose until further notice takes it today too, however long ago that was written down.
TEST(CourseSceneItems, DrawADoseUntilFurtherNoticeBeyondToday) {
    CourseScene scene;
    scene.today = day_at(2026, 12, 16);
    Stretch stretch;
    stretch.from = day_at(2026, 10, 18);
    stretch.daily = Dose::milligrams(3);
    scene.course.stretches = {stretch};
    ASSERT_EQ(step_items(scene).size(), 1u);
    EXPECT_GT(step_items(scene)[0].to, axis_day(scene.today));
    EXPECT_GT(limits_of(scene).last, axis_day(scene.today) + 7);
}

TEST(LogScale, GivesEveryAmountAFinitePlaceAndZeroTheShelf) {
    std::mt19937_64 random(4);
    for (int i = 0; i < 2'000; ++i) {
        std::vector<Dose> amounts{Dose()};
        for (int j = 0; j < 5; ++j)
            amounts.push_back(Dose::nanograms(
                static_cast<std::int64_t>(std::pow(10, std::uniform_real_distribution(3.5, 10.5)(random)))));
        const LogScale scale = LogScale::holding(amounts);
        for (const Dose amount : amounts) {
            EXPECT_TRUE(std::isfinite(scale.place(amount)));
            EXPECT_GE(scale.place(amount), scale.least());
            EXPECT_LE(scale.place(amount), scale.top());
        }
        EXPECT_LT(scale.place(Dose()), scale.shelf_top());
        EXPECT_LT(scale.shelf_top(), scale.bottom());
        for (const Dose amount : amounts) EXPECT_EQ(scale.place(amount) >= scale.bottom(), !amount.is_zero());
    }
}

TEST(LogScale, LabelsRoundAmountsThatDoNotCrowdAlsoWithinADecade) {
    const LogScale narrow = LogScale::holding({Dose::micrograms(2'500), Dose::micrograms(2'000)});
    const auto ticks = narrow.ticks(0.1);
    ASSERT_GE(ticks.size(), 3u);
    for (std::size_t i = 1; i < ticks.size(); ++i) EXPECT_GE(ticks[i].place - ticks[i - 1].place, 0.1);
    const LogScale small = LogScale::holding({Dose::micrograms(125), Dose::milligrams(2)});
    std::string labels;
    for (const auto& tick : small.ticks(0.05)) labels += tick.label.toStdString() + " ";
    EXPECT_NE(labels.find("0.125 0.25 0.5 1 2"), std::string::npos) << labels;
}

TEST(LogDoseChart, ARunOfStairsHoldsNoZeroAndNoGap) {
    const std::vector<Tread> treads{{0, 10, Dose::milligrams(2), false},
                                    {10, 20, Dose::milligrams(1), false},
                                    {20, 30, Dose(), true},
                                    {40, 50, Dose::milligrams(1), false}};
    const LogScale scale = LogScale::holding({Dose::milligrams(2), Dose::milligrams(1)});
    const auto planned = LogDoseChart::runs(treads, scale, false);
    ASSERT_EQ(planned.size(), 2u);
    EXPECT_EQ(planned[0].front(), QPointF(0, std::log10(2.0)));
    EXPECT_EQ(planned[0].back(), QPointF(20, 0));
    EXPECT_EQ(planned[1].size(), 2);
    const auto outlook = LogDoseChart::runs(treads, scale, true);
    ASSERT_EQ(outlook.size(), 1u);
    EXPECT_EQ(outlook[0].front(), QPointF(20, 0));
    EXPECT_EQ(outlook[0].back(), QPointF(30, scale.shelf()));
}

TEST(LogDoseChart, AValueThatIsNotFiniteNeverReachesASeries) {
    QLineSeries series;
    LaneChart::replace(&series, {{0, 1}, {1, std::nan("")}, {2, -INFINITY}, {3, 2}});
    EXPECT_EQ(series.points(), (QList<QPointF>{{0, 1}, {3, 2}}));
}

TEST_F(LanesTest, TheStairsAreThereAlthoughAZeroIsInThePlanAndInTheDiary) {
    auto* dose = static_cast<DoseLane*>(lane(1));
    const QImage image = dose->grab().toImage();
    const Stretch& signed_step = scene_.course.stretches[7];
    const double y = dose->chart().y(dose->chart().scale().place(signed_step.daily));
    const double left = dose->plot().left() + view_.axis().x(signed_step.from);
    const double right = dose->plot().left() + view_.axis().x(*signed_step.to);
    const int planned = pixels(image, QRectF(left + 2, y - 3, right - left - 4, 6), tone(Tone::planned));
    EXPECT_GE(planned, static_cast<int>(right - left - 6));
    const double shelf = dose->chart().y(dose->chart().scale().shelf());
    const double off_left = dose->plot().left() + view_.axis().x(scene_.course.stretches.back().from);
    EXPECT_GT(pixels(image, QRectF(off_left, shelf - 3, 40, 6), tone(Tone::outlook)), 15);
}

TEST_F(LanesTest, StairsAndGridLinesAgreeOnTheScaleAtEveryHeight) {
    auto* dose = static_cast<DoseLane*>(lane(1));
    for (const int height : {720, 900, 640, 1000}) {
        view_.resize(900, height);
        QApplication::processEvents();
        const QImage image = dose->grab().toImage();
        const LogDoseChart& chart = dose->chart();
        for (const double mg : {20.0, 10.0, 5.0, 2.0}) {
            const double y = chart.y(std::log10(mg));
            EXPECT_GE(pixels(image, QRectF(dose->plot().left() + 1, y - 1, 8, 3), tone(Tone::line)), 8) << mg;
        }
        for (QAbstractSeries* series : chart.chart()->series()) {
            const auto* line = qobject_cast<QLineSeries*>(series);
            if (!line || line->count() == 0) continue;
            const QPointF point = line->at(0);
            EXPECT_NEAR(chart.chart()->mapToPosition(point, series).y(), chart.y(point.y()), 0.5);
        }
    }
}

TEST_F(LanesTest, TheChartLiesOnTheSameColumnsAsTheOtherLanes) {
    auto* dose = static_cast<DoseLane*>(lane(1));
    EXPECT_EQ(dose->chart().chart()->plotArea(), dose->plot());
    for (const Lane* each : view_.lanes()) {
        EXPECT_EQ(each->plot().left(), dose->plot().left());
        EXPECT_EQ(each->plot().width(), view_.axis().width());
    }
}

TEST_F(LanesTest, EveryItemIsAChildForAssistiveTechnologyWithNameAndPlace) {
    for (Lane* each : view_.lanes()) {
        QAccessibleInterface* face = QAccessible::queryAccessibleInterface(each);
        ASSERT_NE(face, nullptr);
        EXPECT_EQ(face->role(), QAccessible::List);
        EXPECT_FALSE(face->text(QAccessible::Name).isEmpty());
        ASSERT_EQ(face->childCount(), static_cast<int>(each->items().size()));
        for (int i = 0; i < face->childCount(); ++i) {
            EXPECT_FALSE(face->child(i)->text(QAccessible::Name).isEmpty());
            EXPECT_EQ(face->indexOfChild(face->child(i)), i);
        }
    }
    QAccessibleInterface* steps = QAccessible::queryAccessibleInterface(lane(0));
    EXPECT_GT(steps->child(3)->rect().width(), 5);
    steps->child(3)->actionInterface()->doAction(QAccessibleActionInterface::pressAction());
    EXPECT_EQ(view_.choice(), (LaneChoice{0, 3}));
}

TEST_F(LanesTest, ArrowsMoveOneChoiceAlongALaneAndAcrossLanesAtTheSameTime) {
    view_.choose(LaneChoice{0, 4});
    QTest::keyClick(&view_, Qt::Key_Right);
    EXPECT_EQ(view_.choice(), (LaneChoice{0, 5}));
    QTest::keyClick(&view_, Qt::Key_Down);
    ASSERT_EQ(view_.choice()->lane, 1u);
    const LaneItem& step = lane(0)->items()[5];
    EXPECT_GE(view_.chosen_item()->from, step.from - 1);
    EXPECT_LE(view_.chosen_item()->to, step.to + 1);
    EXPECT_FALSE(lane(0)->selected());
    QTest::keyClick(&view_, Qt::Key_Escape);
    EXPECT_FALSE(view_.choice());
}

TEST_F(LanesTest, KeysZoomAndGoToTheEndsAndToToday) {
    const double all = view_.axis().visible().days();
    QTest::keyClick(&view_, Qt::Key_Plus);
    EXPECT_NEAR(view_.axis().visible().days(), all / 1.25, 1e-6);
    QTest::keyClick(&view_, Qt::Key_Home);
    EXPECT_NEAR(view_.axis().visible().first, view_.axis().limits().first, 1e-6);
    QTest::keyClick(&view_, Qt::Key_End);
    EXPECT_NEAR(view_.axis().visible().last, view_.axis().limits().last, 1e-6);
    for (int i = 0; i < 6; ++i) QTest::keyClick(&view_, Qt::Key_Plus);
    QTest::keyClick(&view_, Qt::Key_T);
    EXPECT_TRUE(view_.axis().sees(axis_day(scene_.today), axis_day(scene_.today) + 1));
    QTest::keyClick(&view_, Qt::Key_Minus);
    EXPECT_LE(view_.axis().visible().days(), all);
}

TEST_F(LanesTest, TheWheelZoomsWithControlAlone) {
    const TimeRange before = view_.axis().visible();
    const auto turn = [&](Qt::KeyboardModifiers keys) {
        QWheelEvent wheel({400, 300}, view_.mapToGlobal(QPointF(400, 300)), {}, {0, 120}, Qt::NoButton, keys,
                          Qt::NoScrollPhase, false);
        QApplication::sendEvent(&view_, &wheel);
    };
    turn(Qt::NoModifier);
    EXPECT_EQ(view_.axis().visible(), before);
    turn(Qt::ControlModifier);
    EXPECT_LT(view_.axis().visible().days(), before.days());
}

TEST_F(LanesTest, ClickingABlockChoosesItAndSaysWhatItIs) {
    const QPointF centre = lane(0)->item_rect(6).center();
    QTest::mouseClick(lane(0), Qt::LeftButton, {}, centre.toPoint());
    ASSERT_EQ(view_.choice(), (LaneChoice{0, 6}));
    EXPECT_EQ(view_.chosen_item()->says.toStdString(),
              "Step 5, from Mon 16 Nov 2026 (14 days): 22.5 to 20.5 mg a day, 8.9 % of the last dose; in "
              "force today.");
}

TEST(SymptomCells, AreTheRoundedMeansOfTheirWeeksWhateverIsShown) {
    SymptomRow row{QStringLiteral("sleep"), {}};
    const Day monday = day_at(2026, 11, 23);
    for (const auto& [offset, severity] : {std::pair{0, 3}, {1, 4}, {7, 9}})
        row.ratings.push_back({at_clock(monday + days(offset), {600}), "sleep", severity});
    const auto weeks = symptom_cells(row, 7);
    ASSERT_EQ(weeks.size(), 2u);
    EXPECT_EQ(weeks[0], (SymptomCell{monday, 7, 2, 4, 4}));
    EXPECT_EQ(weeks[1], (SymptomCell{monday + days(7), 7, 1, 9, 9}));
    EXPECT_EQ(symptom_cells(row, 1).size(), 3u);
}

TEST(LevelCurve, StaysAtAHundredPercentWhileNothingChangesAndFallsAfterACut) {
    const auto formulary = load_formulary(std::string(EVENFALL_SOURCE_DIR) + "/resources/formulary.json");
    ASSERT_TRUE(formulary);
    const CourseScene scene = sample::scene();
    const auto rules = Rules::load(std::string(EVENFALL_SOURCE_DIR) + "/resources/rules.json");
    ASSERT_TRUE(rules);
    const auto request = level_request({}, scene.course, *formulary, *rules, at_clock(scene.today, {600}));
    const LevelCurve curve = compute_level_curve(request, {});
    ASSERT_FALSE(curve.fault);
    ASSERT_GT(curve.points.size(), 100u);
    for (const LevelPoint& point : curve.points) {
        EXPECT_TRUE(std::isfinite(point.low) && point.low <= point.middle && point.middle <= point.high);
        const bool before = point.place <= axis_day(scene.course.stretches[1].from);
        EXPECT_TRUE(!before || std::abs(point.middle - 100) < 0.5) << point.middle;
    }
    EXPECT_LT(curve.points.back().middle, 10);
    ASSERT_FALSE(curve.cuts.empty());
    EXPECT_LT(curve.cuts.back().least, curve.cuts.back().most);
    EXPECT_EQ(curve.cuts.back().on, day_at(2026, 11, 16));
    EXPECT_TRUE(std::ranges::is_sorted(curve.cuts, std::greater<>(), &ArrivedCut::least));
    EXPECT_EQ(curve.patients, 200);
    EXPECT_FALSE(curve.from_diary);
}

LevelRequest sample_level_request() {
    const auto formulary =
        load_formulary(std::string(EVENFALL_SOURCE_DIR) + "/resources/formulary.json").value();
    const auto rules = Rules::load(std::string(EVENFALL_SOURCE_DIR) + "/resources/rules.json").value();
    const CourseScene scene = sample::scene();
    return level_request({}, scene.course, formulary, rules, at_clock(scene.today, {600}));
}

TEST(LevelCurve, SaysOfEachCutMadeHowMuchHasArrivedAsARange) {
    const LevelCurve curve = compute_level_curve(sample_level_request(), {});
    const auto items = level_items(curve);
    EXPECT_TRUE(std::ranges::is_sorted(items, {}, &LaneItem::from));
    for (const ArrivedCut& cut : curve.cuts) {
        EXPECT_LT(cut.to, cut.from);
        const QString share = QStringLiteral("%1 to %2 %").arg(cut.least).arg(cut.most);
        const auto said = std::ranges::count_if(items, [&](const LaneItem& item) {
            return item.from == axis_day(cut.on) && item.name.startsWith(QLatin1String("Cut of ")) &&
                   (cut.least == cut.most || item.name.contains(share)) &&
                   item.name.contains(QLatin1String("modelled"));
        });
        EXPECT_EQ(said, 1) << print_day(cut.on);
    }
    EXPECT_TRUE(curve.reference.contains(QLatin1String("100 % is the average of the recorded regimen")));
}

TEST(LevelCurve, IsTheBandOfTheSameVirtualPatientsEveryTime) {
    const LevelRequest request = sample_level_request();
    const LevelCurve curve = compute_level_curve(request, {});
    EXPECT_EQ(curve, compute_level_curve(request, {}));
    const auto wide = std::ranges::count_if(
        curve.points, [](const LevelPoint& point) { return point.high > point.low + 0.1; });
    EXPECT_GT(wide, 20);
}

TEST(LevelCurve, TellsHowFarItIsAndStopsWhenAsked) {
    const LevelRequest request = sample_level_request();
    double last = 0;
    compute_level_curve(request, {}, [&](double share) { last = share; });
    EXPECT_EQ(last, 1);
    std::stop_source source;
    const LevelCurve stopped =
        compute_level_curve(request, source.get_token(), [&](double) { source.request_stop(); });
    EXPECT_TRUE(stopped.points.empty());
    EXPECT_FALSE(stopped.fault);
}

TEST(LevelCurve, TakesTheDiaryBeforeTheTaperAsReferenceWhereThereIsOne) {
    LevelRequest request = sample_level_request();
    const double stated =
        kinetics::daily_mg(kinetics::daily_doses(request.regimens.front().regimen, request.drug));
    for (int day = 0; day < 14; ++day) {
        const Day on = request.from + days(day);
        request.diary_days.push_back(on);
        request.days_before.push_back(on);
        request.intake.push_back({at_clock(on, {540}), request.drug,
                                  Dose::micrograms(std::llround(stated * 900)), TakenWhy::unsaid, ""});
    }
    const LevelCurve curve = compute_level_curve(request, {});
    EXPECT_TRUE(curve.from_diary);
    EXPECT_TRUE(curve.reference.contains(QLatin1String("the mean of the 14 diary days")))
        << curve.reference.toStdString();
    EXPECT_GT(curve.points.front().middle, 103);  // the body comes from the stated regimen, which was more
}

TEST(Latest, DropsWhatIsStaleAndNeverWaits) {
    std::vector<int> seen;
    Latest<int> latest([&](int value) { seen.push_back(value); });
    std::atomic<bool> first_may_end{false};
    latest.start([&](std::stop_token) {
        while (!first_may_end) std::this_thread::yield();
        return 1;
    });
    latest.start([](std::stop_token) { return 2; });
    EXPECT_TRUE(latest.busy());
    ASSERT_TRUE(QTest::qWaitFor([&] { return !latest.busy(); }, 10'000));
    first_may_end = true;
    latest.start([](std::stop_token) { return 3; });
    ASSERT_TRUE(QTest::qWaitFor([&] { return !latest.busy(); }, 10'000));
    EXPECT_EQ(seen, (std::vector<int>{2, 3}));
}

}  // namespace
}  // namespace evenfall::ui
