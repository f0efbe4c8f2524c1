// SPDX-License-Identifier: GPL-3.0-or-later
#include <set>

#include "exchange/caseload_file.h"
#include "model/strict_json.h"
#include "shell/caseload_pane.h"
#include "theme/theme.h"
#include "ui/acceptance/clinic_window.h"
#include "ui/acceptance/hands.h"
#include "ui/support/walk.h"

namespace evenfall::ui {
namespace {

const std::filesystem::path kCaseload =
    std::filesystem::path(EVENFALL_SOURCE_DIR) / "sample_data" / "caseload.json";

/// The shipped caseload in the window, on the morning that it is told of.
class MorningTest : public testing::Test {
  protected:
    void SetUp() override {
        auto file = read_caseload(read_text_file(kCaseload, 32u << 20).value(), "caseload.json").value();
        const LocalTime now = file.as_of;
        const Instant at(now.time_since_epoch());
        auto log = log_in_memory(
            "demo", [at] { return at; }, std::move(file.events));
        auto desk = Desk::open(std::move(log), load_formulary(resources_folder() / "formulary.json").value(),
                               Rules::load(resources_folder() / "rules.json").value(),
                               {"demo", "Demo prescriber", Role::prescriber, "demo"});
        ASSERT_TRUE(desk.ok());
        place = std::make_unique<Place>(std::move(*desk), [now] { return now; });
        place->window->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(place->window.get()));
    }
    void TearDown() override { apply_theme(*qApp, ThemeKind::light); }

    MainWindow& window() { return *place->window; }
    Workbench& workbench() { return *place->workbench; }
    CaseloadModel& model() { return window().caseload().model(); }
    CaseloadList* list() { return window().caseload().list(); }
    const CaseloadLine* here() { return model().line(list()->currentIndex()); }
    std::vector<CaseloadLine> shown() {
        std::vector<CaseloadLine> lines;
        for (int row = 0; row < model().rowCount(); ++row)
            if (const CaseloadLine* line = model().line(model().index(row))) lines.push_back(*line);
        return lines;
    }
    void key(Qt::Key code, Qt::KeyboardModifiers with = {}) {
        QWidget* focus = QApplication::focusWidget();
        QTest::keyClick(focus ? focus : &window(), code, with);
    }
    std::string chosen() {
        const PatientRecord* record = workbench().record();
        return record ? record->person->value.name : std::string();
    }

    std::unique_ptr<Place> place;
};

TEST_F(MorningTest, PutsTheThreeDangersFirstAndSaysWhy) {
    const auto lines = shown();
    ASSERT_GE(lines.size(), 16U);
    const std::vector<std::string> dangers = {"uicid", "eizure", "tomorrow"};
    std::vector<std::string> found(3);
    for (std::size_t at = 0; at < 3; ++at) {
        const Flag& why = lines[at].reasons.front().flag;
        const std::string says = workbench().sentence(why).toStdString();
        EXPECT_NE(lines[at].reasons.front().urgency, Urgency::steady) << lines[at].name;
        EXPECT_FALSE(workbench().source(why).isEmpty()) << why.rule;
        for (std::size_t danger = 0; danger < dangers.size(); ++danger)
            if (says.find(dangers[danger]) != std::string::npos) found[danger] = lines[at].name;
    }
    for (std::size_t danger = 0; danger < dangers.size(); ++danger)
        EXPECT_FALSE(found[danger].empty()) << dangers[danger] << " does not stand among the first three";
    EXPECT_EQ(std::set<std::string>(found.begin(), found.end()).size(), 3U) << "three people";
    for (std::size_t at = 1; at < lines.size(); ++at)
        EXPECT_GE(lines[at].reasons.front().urgency, lines[at - 1].reasons.front().urgency)
            << lines[at].name << " presses more than the person above";
    for (const CaseloadLine& line : lines)
        for (const Reason& reason : line.reasons) {
            EXPECT_FALSE(workbench().sentence(reason.flag).isEmpty()) << reason.flag.rule;
            EXPECT_FALSE(workbench().sentence(reason.flag).contains(u'{')) << reason.flag.rule;
        }
}

TEST_F(MorningTest, WalksTheWholeListByArrowsAndOpensEachByEnter) {
    ASSERT_EQ(QApplication::focusWidget(), list()) << "the list has the focus when the window opens";
    const auto lines = shown();
    key(Qt::Key_Home);
    for (std::size_t at = 0; at < lines.size(); ++at) {
        if (at > 0) key(Qt::Key_Down);
        ASSERT_NE(here(), nullptr) << "a heading is never stood on, line " << at;
        EXPECT_EQ(here()->patient, lines[at].patient);
        key(Qt::Key_Return);
        EXPECT_EQ(workbench().patient(), lines[at].patient);
        ASSERT_EQ(QApplication::focusWidget(), list()) << "the next arrow goes on in the list";
    }
    for (std::size_t at = lines.size() - 1; at > 0; --at) {
        key(Qt::Key_Up);
        ASSERT_NE(here(), nullptr);
        EXPECT_EQ(here()->patient, lines[at - 1].patient);
    }
}

/// Whoever looks for a name, or at one reason, is told which dangers are out of sight.
TEST_F(MorningTest, SaysHowManyDangersASearchHidesAndShowsThemAgain) {
    window().caseload().search_field()->setText(QStringLiteral("brightwater"));
    auto* hidden = find_named<QPushButton>(window(), QStringLiteral("2 dangers are not shown: show all"));
    ASSERT_NE(hidden, nullptr);
    EXPECT_EQ(shown().size(), 1u);
    hidden->click();
    settle();
    EXPECT_FALSE(hidden->isVisible());
    EXPECT_GT(shown().size(), 15u);
    EXPECT_EQ(shown().front().reasons.front().urgency, Urgency::red_flag);
}

TEST_F(MorningTest, FindsAPersonBySlashAndReturnsByEscape) {
    key(Qt::Key_Home);
    key(Qt::Key_Slash);
    ASSERT_EQ(QApplication::focusWidget(), window().caseload().search_field());
    QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("castell"));
    ASSERT_EQ(shown().size(), 1U);
    key(Qt::Key_Return);
    EXPECT_EQ(chosen(), "Imre Castellane");
    key(Qt::Key_Slash);
    ASSERT_EQ(QApplication::focusWidget(), window().caseload().search_field());
    key(Qt::Key_Escape);
    EXPECT_EQ(QApplication::focusWidget(), list());
    EXPECT_GE(shown().size(), 16U);
}

TEST_F(MorningTest, ShowsEachPageByItsKey) {
    key(Qt::Key_Home);
    key(Qt::Key_Return);
    const auto pages = every_page();
    std::set<Page*> seen;
    for (std::size_t at = 0; at < pages.size(); ++at) {
        key(static_cast<Qt::Key>(Qt::Key_1 + static_cast<int>(at)), Qt::ControlModifier);
        ASSERT_NE(window().page(), nullptr);
        EXPECT_TRUE(window().page()->isVisible());
        seen.insert(window().page());
    }
    EXPECT_EQ(seen.size(), pages.size());
}

/// Every person on every page, in one theme: all controls named, nothing falls over, something is drawn.
class EveryoneTest : public MorningTest, public testing::WithParamInterface<ThemeKind> {
  protected:
    void wait_for_page() {
        for (int turn = 0; turn < 400 && window().page()->busy(); ++turn) QTest::qWait(5);
        EXPECT_FALSE(window().page()->busy()) << chosen();
        QApplication::processEvents();
    }
};

TEST_P(EveryoneTest, ShowsEveryPageWithEveryControlNamed) {
    apply_theme(*qApp, GetParam());
    for (const CaseloadLine& line : shown()) {
        workbench().select(line.patient);
        for (const PageMaker& maker : every_page()) {
            window().show_page(maker.id);
            wait_for_page();
            const std::string where = line.name + ", " + maker.id.toStdString();
            EXPECT_EQ(nameless(window()).join(QStringLiteral("; ")).toStdString(), "") << where;
            const QImage picture = window().page()->grab().toImage();
            ASSERT_FALSE(picture.isNull()) << where;
            std::set<QRgb> colours;
            for (int y = 0; y < picture.height(); y += 3)
                for (int x = 0; x < picture.width(); x += 3) colours.insert(picture.pixel(x, y));
            EXPECT_GT(colours.size(), 4U) << where << " is blank";
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Themes, EveryoneTest,
                         testing::Values(ThemeKind::light, ThemeKind::dark, ThemeKind::contrast),
                         [](const auto& tested) {
                             return tested.param == ThemeKind::light  ? "light"
                                    : tested.param == ThemeKind::dark ? "dark"
                                                                      : "contrast";
                         });

}  // namespace
}  // namespace evenfall::ui
