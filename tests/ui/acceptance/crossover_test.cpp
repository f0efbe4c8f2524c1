// SPDX-License-Identifier: GPL-3.0-or-later
#include <QListView>

#include "plan/crossover_dialog.h"
#include "plan/steps_table.h"
#include "shell/caseload_pane.h"
#include "ui/acceptance/clinic_window.h"
#include "ui/acceptance/hands.h"
#include "ui/support/walk.h"

// A crossover from alprazolam to diazepam with the taper to OFF after it, for a person on an opioid: planned,
// compared, adjusted, signed with the passphrase, held and planned again, in the program's own window.

namespace evenfall::ui {
namespace {

using std::chrono::days;

constexpr const char* kPassphrase = "four unrelated words here";
const Day kMonday = day_at(2026, 11, 23);

class CrossoverJobTest : public testing::Test {
  protected:
    /// A desk with one person on alprazolam three times a day, everything before a plan taken care of.
    void sit_down(const std::string& risk) {
        const auto resources = resources_folder();
        auto desk = Desk::open(
            log_in_memory("user", [] { return Instant(std::chrono::seconds(1'795'512'600)); }),
            load_formulary(resources / "formulary.json").value(),
            Rules::load(resources / "rules.json").value(), {"user", "Mara Keel", Role::prescriber, "L-1"});
        Person person;
        person.reference = "0840";
        person.name = "Tomas Brandt";
        const PatientId patient = desk->add_person(person, today).value();
        RiskScreen screen;
        for (const std::string& question : kRiskWords) screen.answers[question] = Answer::no;
        screen.answers[risk] = Answer::yes;
        History history;
        history.treatment = "talking therapy";
        Baseline baseline;
        baseline.on = today;
        RegimenRecorded regimen;
        regimen.regimen = {today - days(200),
                           {{{{8 * 60}, "alprazolam", Dose::micrograms(500), "", ""},
                             {{14 * 60}, "alprazolam", Dose::micrograms(500), "", ""},
                             {{22 * 60}, "alprazolam", Dose::milligrams(1), "", ""}}}};
        const ProductsChosen products{{{"alprazolam", Form::tablet, Dose::micrograms(500), Cuts::halves, {}},
                                       {"diazepam", Form::tablet, Dose::milligrams(5), Cuts::halves, {}},
                                       {"diazepam", Form::tablet, Dose::milligrams(2), Cuts::quarters, {}}}};
        const auto now = [this] { return at_clock(today, ClockTime{9 * 60 + 30}); };
        ASSERT_TRUE(desk->carry_out(patient, {screen}, {}, now()));
        Suitability outcome{SuitabilityOutcome::outpatient_taper, {}, "steady, well supported"};
        std::vector<Override> reasons;
        for (const Objection& objection : desk->objections(patient, outcome, now()))
            reasons.push_back({objection.flag.rule, "weighed with the person"});
        const auto done =
            desk->carry_out(patient, {regimen, products, history, baseline, outcome}, reasons, now());
        ASSERT_TRUE(done) << done.faults().front().id;
        workbench = std::make_unique<Workbench>(std::move(*desk), Texts::load(resources, "en").value(), now);
        WindowServices services;
        services.prove = [](const std::string& typed) -> Result<Done> {
            if (typed == kPassphrase) return Done{};
            return Fault{"store-wrong-passphrase", "passphrase", {}};
        };
        window = std::make_unique<MainWindow>(*workbench, every_page(), services);
        window->show();
        workbench->select(patient);
        open_plan();
    }

    void open_plan() {
        window->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get()));
        QTest::keyClick(window.get(), Qt::Key_4, Qt::ControlModifier);
        steps_stand();
    }

    void on_day(Day day) {
        today = day;
        plan_page().refresh();
        steps_stand();
    }

    PlanPage& plan_page() { return *qobject_cast<PlanPage*>(window->page()); }
    void steps_stand() {
        ASSERT_NE(qobject_cast<PlanPage*>(window->page()), nullptr);
        ASSERT_TRUE(QTest::qWaitFor([this] { return !plan_page().computing(); }, 20'000));
    }
    void change(const char* name, const char* text) {
        type_in(*window, name, text);
        steps_stand();
    }
    std::string cell(int row, int column) {
        const StepsModel& steps = plan_page().steps();
        return steps.data(steps.index(row, column), Qt::DisplayRole).toString().toStdString();
    }
    const PatientRecord& record() { return *workbench->record(); }

    /// Presses the button that signs, and answers the question with reasons and the passphrase.
    void sign(const char* button, std::vector<std::string> says) {
        Dialogs dialogs;
        dialogs.expect([&](QDialog& dialog) {
            const std::string words = words_of(dialog);
            for (const std::string& each : says)
                EXPECT_NE(words.find(each), std::string::npos) << "“" << each << "” is not in:\n" << words;
            EXPECT_EQ(nameless(dialog).join(QStringLiteral("; ")).toStdString(), "");
            for (QLineEdit* line : dialog.findChildren<QLineEdit*>())
                if (line->accessibleName().startsWith(QLatin1String("Reason")))
                    QTest::keyClicks(line, QStringLiteral("agreed with the person"));
            auto* passphrase = find_named<QLineEdit>(dialog, QStringLiteral("Your passphrase"));
            ASSERT_NE(passphrase, nullptr);
            EXPECT_EQ(dialog.focusWidget(), passphrase);
            QTest::keyClicks(passphrase, QString::fromLatin1(kPassphrase));
            QTest::keyClick(passphrase, Qt::Key_Return);
            EXPECT_TRUE(QTest::qWaitFor([&dialog] { return !dialog.isVisible(); }));
        });
        press(*window, button);
        steps_stand();
    }

    void cross_over();
    void compare_and_adjust();
    void sign_two_stages();
    void hold_and_go_on();

    Day today = kMonday;
    std::unique_ptr<Workbench> workbench;
    std::unique_ptr<MainWindow> window;
};

/// Ways across come with the opioid's warning; the first whole-dose way of three stages is chosen by keys.
void CrossoverJobTest::cross_over() {
    Dialogs dialogs;
    dialogs.expect([](QDialog& opened) {
        auto& dialog = dynamic_cast<CrossoverDialog&>(opened);
        ASSERT_TRUE(QTest::qWaitFor([&] { return !dialog.computing(); }));
        EXPECT_EQ(nameless(dialog).join(QStringLiteral("; ")).toStdString(), "");
        const std::string words = words_of(dialog);
        EXPECT_NE(words.find("An opioid is taken as well"), std::string::npos) << words;
        EXPECT_NE(words.find("Dip: "), std::string::npos);
        EXPECT_NE(words.find("Overshoot: "), std::string::npos);
        EXPECT_NE(words.find("all as diazepam: 20 mg"), std::string::npos) << words;
        ASSERT_GE(dialog.ways().size(), 2U);
        type_in(dialog, "Days for each stage, days", "0");
        EXPECT_NE(words_of(dialog).find("1 to 90"), std::string::npos) << words_of(dialog);
        type_in(dialog, "Days for each stage, days", "7");
        ASSERT_TRUE(QTest::qWaitFor([&] { return !dialog.computing(); }));
        int number = 0;
        for (std::size_t i = 0; i < dialog.ways().size() && number == 0; ++i)
            if (dialog.ways()[i].stages.size() == 3) number = static_cast<int>(i) + 1;
        ASSERT_GT(number, 0);
        settle();  // the cards are laid out after they were made
        auto* choose = find_named<QAbstractButton>(dialog, QStringLiteral("Choose way %1").arg(number));
        ASSERT_NE(choose, nullptr);
        choose->setFocus();
        QTest::keyClick(choose, Qt::Key_Space);
    });
    press(*window, "Cross over…");
    steps_stand();
    ASSERT_TRUE(plan_page().plan()) << words_of(*window);
}

void CrossoverJobTest::compare_and_adjust() {
    const auto& plan = plan_page().plan();
    EXPECT_NE(cell(0, StepsModel::step_column).find("Stage 1 of 3"), std::string::npos);
    EXPECT_NE(cell(0, StepsModel::daily_column).find("1 mg of alprazolam + 10 mg of diazepam"),
              std::string::npos)
        << cell(0, StepsModel::daily_column);
    EXPECT_NE(cell(2, StepsModel::daily_column).find("20 mg of diazepam"), std::string::npos);
    EXPECT_TRUE(plan->steps.back().daily.is_zero()) << "a taper to OFF follows";
    press(*window, "Keep to compare");
    change("Target, share of the current dose, percent", "6");
    ASSERT_EQ(plan_page().variants().size(), 1U);
    const auto kept = plan_page().variants()[0].figures;
    EXPECT_LT(kept.days, (plan->steps.back().starts - plan->steps.front().starts).count());
    press(*window, "Use plan A");
    steps_stand();
    EXPECT_EQ(plan->request.target, Share::percent(10));
    change("Cap, share of the current dose, percent", "0");
    EXPECT_FALSE(plan) << "a cap of nothing is refused at its field";
    EXPECT_NE(words_of(*window).find("more than 0 % and less than 100 %"), std::string::npos);
    change("Cap, share of the current dose, percent", "10");
    ASSERT_TRUE(plan);
}

void CrossoverJobTest::sign_two_stages() {
    sign("Sign the first 2 stages", {"Tomas Brandt", "0840", "2 stages of the crossover to diazepam",
                                     "22:00: 10 mg of diazepam", "08:00: 0.5 mg of alprazolam"});
    ASSERT_EQ(record().plans.size(), 1U);
    const Plan& plan = record().plans[0].value.plan;
    EXPECT_EQ(plan.request.drug, "diazepam");
    EXPECT_EQ(plan.steps[1].status, StepStatus::committed);
    EXPECT_EQ(plan.steps[2].status, StepStatus::outlook);
}

/// In the second week the dose is held; after the review the last stage and the taper are built anew.
void CrossoverJobTest::hold_and_go_on() {
    on_day(kMonday + days(8));
    auto dialogs = std::make_unique<Dialogs>();
    dialogs->expect([](QDialog& dialog) {
        type_words(dialog, "Reason", "Sleepy in the mornings with the opioid.");
        press(dialog, "Hold the dose");
    });
    press(*window, "Hold the dose…");
    steps_stand();
    EXPECT_TRUE(workbench->course().on_hold);
    on_day(kMonday + days(40));
    EXPECT_EQ(workbench->course().daily_today, Dose::milligrams(15)) << "time alone never resumes";
    dialogs->expect([](QDialog& dialog) {
        type_in(dialog, "Next reduction on, year-month-day", "2027-01-04");
        press(dialog, "Build the steps");
    });
    press(*window, "Go on…");
    steps_stand();
    dialogs.reset();  // the question of the signature has its own
    ASSERT_TRUE(plan_page().plan()) << words_of(*window);
    EXPECT_EQ(plan_page().plan()->steps[2].starts, day_at(2027, 1, 4));
    sign("Sign the next stage", {"20 mg of diazepam"});
}

TEST_F(CrossoverJobTest, IsPlannedComparedAdjustedHeldAndPlannedAgain) {
    sit_down("opioid");
    if (HasFatalFailure()) return;
    cross_over();
    if (HasFatalFailure()) return;
    compare_and_adjust();
    if (HasFatalFailure()) return;
    sign_two_stages();
    if (HasFatalFailure()) return;
    hold_and_go_on();
    if (HasFatalFailure()) return;
    ASSERT_EQ(record().plans.size(), 2U);
    EXPECT_EQ(record().holds_ended.size(), 1U);
    EXPECT_FALSE(workbench->course().on_hold);
    on_day(day_at(2027, 1, 5));
    EXPECT_EQ(workbench->course().daily_today, Dose::milligrams(20));
    const Plan& plan = *plan_page().plan();
    EXPECT_EQ(plan.steps[3].doses[0].drug, "diazepam");
    EXPECT_LT(plan.steps[3].daily, Dose::milligrams(20));
    EXPECT_EQ(plan_page().sign_button()->text().toStdString(), "Sign the next 2 steps")
        << "the taper follows";
}

TEST_F(CrossoverJobTest, AWeakLiverMeetsWhatSpeaksAgainstItFirst) {
    sit_down("weak liver");
    if (HasFatalFailure()) return;
    Dialogs dialogs;
    dialogs.expect([](QDialog& opened) {
        auto& dialog = dynamic_cast<CrossoverDialog&>(opened);
        ASSERT_TRUE(QTest::qWaitFor([&] { return !dialog.computing(); }));
        EXPECT_NE(words_of(dialog).find("First: what speaks against crossing here"), std::string::npos);
        EXPECT_NE(words_of(dialog).find("With a weak liver or in older age"), std::string::npos);
        EXPECT_EQ(find_named<QAbstractButton>(dialog, QStringLiteral("Choose way 1")), nullptr)
            << "no way is shown before it was heard";
        press(dialog, "Lay out ways across all the same");
        settle();
        ASSERT_NE(find_named<QAbstractButton>(dialog, QStringLiteral("Choose way 1")), nullptr);
        choose(dialog, "To", "oxazepam");
        ASSERT_TRUE(QTest::qWaitFor([&] { return !dialog.computing(); }));
        EXPECT_EQ(words_of(dialog).find("First: what speaks against crossing here"), std::string::npos)
            << "oxazepam is cleared by glucuronidation";
        QTest::keyClick(&dialog, Qt::Key_Escape);
    });
    press(*window, "Cross over…");
    EXPECT_TRUE(record().plans.empty());
}

}  // namespace
}  // namespace evenfall::ui
