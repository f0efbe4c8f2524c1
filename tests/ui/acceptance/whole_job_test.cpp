// SPDX-License-Identifier: GPL-3.0-or-later
#include <QListView>
#include <QProcess>
#include <QRegularExpression>
#include <QSignalSpy>
#include <QTemporaryDir>

#include "casework/store_log.h"
#include "record/answer_choice.h"
#include "shell/caseload_pane.h"
#include "shell/unlock.h"
#include "ui/acceptance/clinic_window.h"
#include "ui/acceptance/hands.h"
#include "ui/support/walk.h"

// The main job once through, as a prescriber would do it on a new laptop: from the first run to two papers
// on the desk, by keys and the mouse.

namespace evenfall::ui {
namespace {

constexpr const char* kPassphrase = "four unrelated words here";

LocalTime fixed_now() {
    return at_clock(day_at(2026, 11, 24), ClockTime{9 * 60 + 30});
}

class WholeJobTest : public testing::Test {
  protected:
    WholeJobTest() : file(std::filesystem::path(folder.path().toStdString()) / "clinic.evenfall") {
        options.kdf = crypto::Kdf::least();
        options.now = [] { return std::int64_t{1'795'512'600'000'000}; };  // 09:30 UTC, in µs
    }

    void first_run() {
        UnlockWindow door(file, *texts, options);
        QSignalSpy opened(&door, &UnlockWindow::opened);
        door.show();
        type_in(door, "Clinic, as its papers name it", "Harbour Lane");
        type_in(door, "Your name", "Mara Keel");
        type_in(door, "Passphrase", kPassphrase);
        type_in(door, "Passphrase again", kPassphrase);
        commit(door);
        ASSERT_TRUE(QTest::qWaitFor([&door] { return !door.recovery_key().isEmpty(); }));
        static const QRegularExpression number(QStringLiteral("group ([1-7])"));
        const auto asked = number.match(QString::fromStdString(words_of(door)));
        ASSERT_TRUE(asked.hasMatch());
        const QStringList groups =
            door.recovery_key().split(QRegularExpression(QStringLiteral("[^0-9A-Z]+")), Qt::SkipEmptyParts);
        type_in(door, "One group of the key",
                groups[asked.captured(1).toInt() - 1].toLower().toStdString().c_str());
        commit(door);
        ASSERT_EQ(opened.count(), 1);
        sit_down(*door.take_store());
        Clinic clinic;
        clinic.name = door.new_clinic().toStdString();
        ASSERT_TRUE(workbench().carry_out_for_clinic({clinic}));
    }

    void unlock() {
        UnlockWindow door(file, *texts, options);
        QSignalSpy opened(&door, &UnlockWindow::opened);
        door.show();
        type_in(door, "Your name", "Mara Keel");
        type_in(door, "Your passphrase", kPassphrase);
        commit(door);
        ASSERT_TRUE(QTest::qWaitFor([&opened] { return opened.count() == 1; }));
        sit_down(*door.take_store());
    }

    void sit_down(Store store) {
        const Worker worker = worker_of(store);
        auto desk = Desk::open(std::make_unique<StoreLog>(std::move(store)),
                               load_formulary(resources_folder() / "formulary.json").value(),
                               Rules::load(resources_folder() / "rules.json").value(), worker);
        ASSERT_TRUE(desk.ok());
        place = std::make_unique<Place>(std::move(*desk), fixed_now);
        place->window->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(place->window.get()));
    }

    static void commit(QWidget& door) {
        for (UnlockStep* step : door.findChildren<UnlockStep*>())
            if (step->isVisible()) return QTest::mouseClick(step->commit_button(), Qt::LeftButton);
    }

    MainWindow& window() { return *place->window; }
    Workbench& workbench() { return *place->workbench; }
    void page(Qt::Key key) {
        window().activateWindow();  // off screen nothing does so when a dialog goes
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window()));
        QTest::keyClick(&window(), key, Qt::ControlModifier);
        settle();
        ASSERT_NE(window().page(), nullptr);
    }
    void part(const char* title) { choose_line(window(), "Parts of the record", title); }
    PlanPage& plan_page() { return *qobject_cast<PlanPage*>(window().page()); }
    PapersPage& papers_page() { return *qobject_cast<PapersPage*>(window().page()); }
    bool steps_stand() {
        if (!qobject_cast<PlanPage*>(window().page())) return false;
        return QTest::qWaitFor([this] { return !plan_page().computing() && plan_page().plan(); });
    }
    std::string cell(int row, int column) {
        const StepsModel& steps = plan_page().steps();
        return steps.data(steps.index(row, column), Qt::DisplayRole).toString().toStdString();
    }

    void enter_and_sign();
    void add_the_person();
    void record_what_is_taken();
    void record_the_rest();
    void sign_the_outcome();
    void ask_for_the_plan();
    void sign_two_steps();
    void expect_two_steps();
    void find_the_person();
    void find_the_plan(const Plan& signed_plan);
    void enter_the_numbers();
    std::string paper(const char* title, const char* name);

    QTemporaryDir folder;
    std::filesystem::path file;
    StoreOptions options;
    Result<Texts> texts = Texts::load(resources_folder(), "en");
    std::unique_ptr<Place> place;
};

void WholeJobTest::add_the_person() {
    Dialogs dialogs;
    dialogs.expect([](QDialog& dialog) {
        EXPECT_EQ(nameless(dialog).join(QStringLiteral("; ")).toStdString(), "");
        type_in(dialog, "Name", "Linnea Marsh");
        type_in(dialog, "Reference", "0731");
        type_in(dialog, "Date of birth, year-month-day", "1971-06-09");
        press(dialog, "Add this person");
    });
    QTest::keyClick(&window(), Qt::Key_N, Qt::ControlModifier);
    ASSERT_NE(workbench().record(), nullptr);
    EXPECT_EQ(workbench().record()->person->value.name, "Linnea Marsh");
}

/// Clonazepam 1 mg at 08:00 and 1.5 mg at 21:00.
void WholeJobTest::record_what_is_taken() {
    page(Qt::Key_5);
    part("What is taken");
    type_in(window(), "In force from, year-month-day", "2026-10-01");
    type_in(window(), "Time, hours and minutes", "8");
    choose(window(), "Agent", "clonazepam");
    type_in(window(), "Amount, milligrams", "1");
    press(window(), "Add a dose");
    type_in(window(), "Time, hours and minutes", "21:00", 1);
    choose(window(), "Agent", "clonazepam", 1);
    type_in(window(), "Amount, milligrams", "1.5", 1);
    EXPECT_NE(words_of(window()).find("2.5 mg"), std::string::npos) << "the sum of the day is said";
    press(window(), "Save: What is taken");
    ASSERT_EQ(workbench().record()->regimens.size(), 1U) << words_of(window());
}

void WholeJobTest::record_the_rest() {
    part("Products at hand");
    press(window(), "clonazepam 0.5 mg tablet, cut into halves");
    press(window(), "clonazepam 0.125 mg orally disintegrating tablet, not cut");
    press(window(), "Save: Products at hand");
    ASSERT_TRUE(workbench().record()->products.has_value());
    ASSERT_EQ(workbench().record()->products->value.products.size(), 2U);
    part("Why and since when");
    type_in(window(), "Taken for", "panic attacks");
    type_in(window(), "Since, year-month-day", "2014-03-01");
    type_words(window(), "Present treatment of that", "talking therapy each week, sertraline 50 mg");
    press(window(), "Save: Why and since when");
    part("Cutting tablets");
    choose(window(), "Finest piece", "Quarters");
    press(window(), "Save: Cutting tablets");
    part("Symptoms before");
    type_in(window(), "Anxiety, of 10", "4");
    type_in(window(), "Poor sleep, of 10", "3");
    press(window(), "Save: Symptoms before the first cut");
    ASSERT_TRUE(workbench().record()->baseline.has_value());
    EXPECT_EQ(workbench().record()->baseline->value.severity.at("anxiety"), 4);
    EXPECT_EQ(workbench().record()->history->value.treatment, "talking therapy each week, sertraline 50 mg");
}

void WholeJobTest::sign_the_outcome() {
    part("Risk screen");
    for (AnswerChoice* choice : window().findChildren<AnswerChoice*>())
        if (choice->isVisible()) QTest::keyClick(choice, Qt::Key_N);
    press(window(), "Save: Risk screen");
    ASSERT_TRUE(workbench().record()->risks.has_value());
    for (const std::string& word : kRiskWords)
        EXPECT_EQ(workbench().record()->risks->value.answers.at(word), Answer::no) << word;
    choose(window(), "Outcome", "Outpatient taper");
    Dialogs dialogs;
    dialogs.expect([](QDialog& dialog) { press(dialog, "Sign"); });
    press(window(), "Sign the outcome");
    ASSERT_TRUE(workbench().record()->suitability.has_value());
    EXPECT_EQ(workbench().record()->suitability->value.outcome, SuitabilityOutcome::outpatient_taper);
}

/// 8 % of the current dose each two weeks, never more than 10 %, from Monday 7 December 2026.
void WholeJobTest::ask_for_the_plan() {
    page(Qt::Key_4);
    choose(window(), "Finest piece of 0.5 mg tablet", "down to quarters");
    type_in(window(), "Next reduction on, year-month-day", "2026-12-07");
    type_in(window(), "Target, share of the current dose, percent", "8");
    type_in(window(), "Cap, share of the current dose, percent", "10");
    type_in(window(), "Length of a step, days", "14");
    type_in(window(), "Steps to sign, steps", "2");
    ASSERT_TRUE(steps_stand()) << words_of(window());
}

/// By hand: 8 % of 2.5 mg is 0.2 mg. Quarters of 0.5 mg and 0.125 mg pieces make multiples of 0.125 mg; the
/// smallest cut is 0.125 mg = 5 %. Two such pieces, 0.25 mg, would be 10 %. After that 0.125 of 2.375 is
/// 5.26 %, and 0.25 would be 10.5 %, over the cap.
void WholeJobTest::expect_two_steps() {
    const auto& plan = plan_page().plan();
    ASSERT_GE(plan->steps.size(), 2U);
    EXPECT_EQ(cell(0, StepsModel::daily_column), "2.375 mg a day, 5 % of the last dose");
    EXPECT_EQ(cell(1, StepsModel::daily_column), "2.25 mg a day, 5.3 % of the last dose");
    EXPECT_NE(cell(0, StepsModel::step_column).find("Mon 7 Dec 2026"), std::string::npos)
        << cell(0, StepsModel::step_column);
    EXPECT_NE(cell(1, StepsModel::step_column).find("Mon 21 Dec 2026"), std::string::npos)
        << cell(1, StepsModel::step_column);
    EXPECT_EQ(cell(0, StepsModel::pieces_column),
              "08:00: 2 tablets of 0.5 mg = 1 mg\n"
              "21:00: 2 tablets + half + quarter of a 0.5 mg tablet = 1.375 mg");
    EXPECT_EQ(cell(1, StepsModel::pieces_column),
              "08:00: 2 tablets of 0.5 mg = 1 mg\n"
              "21:00: 2 tablets + half of a 0.5 mg tablet = 1.25 mg");
    const auto& first = plan->steps[0];
    ASSERT_EQ(first.doses.size(), 2U);
    EXPECT_EQ(first.doses[0].amount, Dose::milligrams(1));
    EXPECT_EQ(first.doses[1].amount, Dose::micrograms(1375));
    EXPECT_EQ(first.starts, day_at(2026, 12, 7));
    EXPECT_EQ(plan->steps[1].starts, day_at(2026, 12, 21));
    EXPECT_EQ(first.days, 14);
}

void WholeJobTest::sign_two_steps() {
    // 0.125 of 1.25 mg is 10 %; 0.125 of 1.125 mg is 11.1 %.
    EXPECT_NE(words_of(window()).find(
                  "From 1.125 mg a day on, every cut that these products make is over the cap of 10 %; "
                  "the smallest is 0.125 mg, 11.1 %."),
              std::string::npos)
        << words_of(window());
    Dialogs dialogs;
    dialogs.expect([](QDialog& dialog) {
        EXPECT_NE(words_of(dialog).find("Sign the 2 steps to 2.25 mg a day?"), std::string::npos);
        EXPECT_NE(words_of(dialog).find("2.375 mg"), std::string::npos) << words_of(dialog);
        press(dialog, "Sign the first 2 steps");
    });
    press(window(), "Sign the first 2 steps");
    ASSERT_EQ(workbench().record()->plans.size(), 1U) << words_of(window());
    const PlanCommitted& signed_plan = workbench().record()->plans[0].value;
    EXPECT_TRUE(signed_plan.overrides.empty());
    EXPECT_EQ(signed_plan.signed_by.name, "Mara Keel");
}

void WholeJobTest::enter_the_numbers() {
    page(Qt::Key_6);
    choose_line(window(), "Papers", "Schedule");
    EXPECT_FALSE(papers_page().faults().empty()) << "a paper without numbers to call is refused";
    EXPECT_EQ(find_named<QLineEdit>(window(), QStringLiteral("Name of the clinic"))->text(),
              QStringLiteral("Harbour Lane"));
    type_in(window(), "Telephone in office hours", "555-0140");
    type_in(window(), "Telephone at all other hours", "555-0141");
    type_in(window(), "Emergency number", "911");
    type_in(window(), "Crisis number, thoughts of suicide", "988");
    press(window(), "Save the numbers");
    EXPECT_TRUE(papers_page().faults().empty());
}

/// Saves a paper by its button and gives back its words, read by another program.
std::string WholeJobTest::paper(const char* title, const char* name) {
    const QString path = folder.filePath(QString::fromLatin1(name));
    papers_page().ask_for_file = [path](const QString&) { return path; };
    choose_line(window(), "Papers", title);
    press(window(), "Save PDF…");
    QProcess reader;
    reader.start(QStringLiteral("pdftotext"), {QStringLiteral("-layout"), path, QStringLiteral("-")});
    EXPECT_TRUE(reader.waitForFinished()) << "pdftotext (poppler-utils) is needed";
    EXPECT_EQ(reader.exitCode(), 0);
    return reader.readAllStandardOutput().toStdString();
}

/// How often a text stands in another.
int count_of(const std::string& text, const std::string& part) {
    int count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++count;
    return count;
}

/// The words of a paper with every run of space as one, so that a line's end is none.
std::string flowing(const std::string& text) {
    return QString::fromStdString(text).simplified().toStdString();
}

/// The rows of the day-by-day calendar, by date: what stands beside "Mon 7 Dec", whose year the line above
/// its step says.
std::map<QDate, std::string> rows_by_day(const std::string& calendar) {
    static const QRegularExpression row(
        QStringLiteral("^\\s*(Mon|Tue|Wed|Thu|Fri|Sat|Sun) ([0-9]{1,2} [A-Z][a-z]{2})\\s{2,}(.*)$"));
    static const QRegularExpression step(
        QStringLiteral("^\\s*Step [0-9]+ (?:from|goes on) .*?([0-9]{1,2} [A-Z][a-z]{2})[a-z]* (20[0-9]{2})"));
    const auto date = [](const QString& day, int year) {
        return QLocale::c().toDate(day + u' ' + QString::number(year), QStringLiteral("d MMM yyyy"));
    };
    std::map<QDate, std::string> rows;
    QDate from;
    for (const QString& line : QString::fromStdString(calendar).split(u'\n')) {
        if (const auto begins = step.match(line); begins.hasMatch())
            from = date(begins.captured(1), begins.captured(2).toInt());
        const auto found = row.match(line);
        if (!found.hasMatch()) continue;
        const QDate this_year = date(found.captured(2), from.year());
        const QDate day = this_year < from ? date(found.captured(2), from.year() + 1) : this_year;
        EXPECT_EQ(QLocale::c().dayName(day.dayOfWeek(), QLocale::ShortFormat), found.captured(1));
        EXPECT_FALSE(rows.contains(day)) << "a day stands twice";
        rows[day] = flowing(found.captured(3).toStdString());
    }
    return rows;
}

void WholeJobTest::enter_and_sign() {
    first_run();
    for (const auto step :
         {&WholeJobTest::add_the_person, &WholeJobTest::record_what_is_taken, &WholeJobTest::record_the_rest,
          &WholeJobTest::sign_the_outcome, &WholeJobTest::ask_for_the_plan, &WholeJobTest::expect_two_steps,
          &WholeJobTest::sign_two_steps}) {
        if (HasFatalFailure()) return;
        (this->*step)();
    }
}

void WholeJobTest::find_the_person() {
    QTest::keyClick(window().caseload().list(), Qt::Key_L);
    QTest::keyClicks(window().caseload().search_field(), QStringLiteral("innea"));
    QTest::keyClick(window().caseload().search_field(), Qt::Key_Return);
    const PatientRecord* record = workbench().record();
    ASSERT_NE(record, nullptr);
    EXPECT_EQ(record->person->value.name, "Linnea Marsh");
    EXPECT_EQ(record->person->value.born, day_at(1971, 6, 9));
    ASSERT_EQ(record->regimens.size(), 1U);
    const auto& doses = record->regimens[0].value.regimen.regimen.doses;
    ASSERT_EQ(doses.size(), 2U);
    EXPECT_EQ(doses[0].drug, "clonazepam");
    EXPECT_EQ(doses[0].at.minutes, 8 * 60);
    EXPECT_EQ(doses[0].amount, Dose::milligrams(1));
    EXPECT_EQ(doses[1].at.minutes, 21 * 60);
    EXPECT_EQ(doses[1].amount, Dose::micrograms(1500));
}

void WholeJobTest::find_the_plan(const Plan& signed_plan) {
    ASSERT_EQ(workbench().record()->plans.size(), 1U);
    EXPECT_EQ(workbench().record()->plans[0].value.plan, signed_plan) << "read back exactly as it was signed";
    page(Qt::Key_4);
    ASSERT_TRUE(steps_stand());
    expect_two_steps();
    EXPECT_NE(cell(0, StepsModel::step_column).find("signed"), std::string::npos);
    EXPECT_NE(cell(1, StepsModel::step_column).find("signed"), std::string::npos);
}

void expect_words(const std::string& text, const std::vector<const char*>& words) {
    const std::string flow = flowing(text);
    for (const char* says : words)
        EXPECT_NE(flow.find(says), std::string::npos) << "“" << says << "” is not in:\n" << text;
}

/// One day of the calendar. By hand: 1 + 1.375 = 2.375 mg until 20 December, then 1 + 1.25 = 2.25 mg.
void expect_day(QDate day, const std::string& words) {
    SCOPED_TRACE(day.toString(Qt::ISODate).toStdString());
    EXPECT_EQ(words, day < QDate(2026, 12, 21) ? "1 mg 1.375 mg" : "1 mg 1.25 mg");
}

/// What stands above the days of a step in the calendar.
void expect_words_of_steps(const std::string& calendar) {
    const std::string flow = flowing(calendar);
    for (const char* says : {"Step 1 from Monday 7 December 2026", "Bedtime 21:00: 1.375 mg (was 1.5 mg)",
                             "2.375 mg is all doses of one day added up. It is not one more dose.",
                             "Step 2 from Monday 21 December 2026", "Bedtime 21:00: 1.25 mg (was 1.375 mg)",
                             "2.25 mg is all doses of one day added up. It is not one more dose."})
        EXPECT_EQ(count_of(flow, says), 1) << says;
    // Above the days of each step, and again where they go on on the next page.
    EXPECT_EQ(count_of(flow, "2 tablets of 0.5 mg = 1 mg"), 2 + count_of(flow, "goes on")) << calendar;
}

void expect_schedule(const std::string& schedule) {
    const auto calendar_at = schedule.find("day by day: hang this up");
    ASSERT_NE(calendar_at, std::string::npos) << schedule;
    expect_words(schedule.substr(0, calendar_at),
                 {"Your schedule for clonazepam",
                  "Linnea Marsh",
                  "born 9 Jun 1971",
                  "reference 0731",
                  "Monday 7 December 2026 to Sunday 3 January 2027",
                  "Until Sunday 6 December 2026, keep taking your doses as you do now",
                  "08:00: clonazepam 1 mg",
                  "21:00: clonazepam 1.5 mg",
                  "from 7 Dec",
                  "from 21 Dec",
                  "to 20 Dec 2026",
                  "2.375 mg in",
                  "5 % less",
                  "to 3 Jan 2027",
                  "2.25 mg in",
                  "5.3 % less",
                  "This sheet holds until Sunday",
                  "3 January 2027, that day too.",
                  "911",
                  "988",
                  "555-0140",
                  "555-0141",
                  "Mara Keel",
                  "Page 1 of"});
    EXPECT_EQ(schedule.find("2.125 mg"), std::string::npos) << "the outlook is not agreed";
    const auto rows = rows_by_day(schedule.substr(calendar_at));
    ASSERT_EQ(rows.size(), 28U) << schedule;
    EXPECT_EQ(rows.begin()->first, QDate(2026, 12, 7));
    EXPECT_EQ(rows.rbegin()->first, QDate(2027, 1, 3));
    for (const auto& [day, row] : rows) expect_day(day, row);
    expect_words_of_steps(schedule.substr(calendar_at));
}

TEST_F(WholeJobTest, GoesFromTheFirstRunToTwoPapersThatSayWhatWasSigned) {
    enter_and_sign();
    if (HasFatalFailure()) return;
    const Plan signed_plan = workbench().record()->plans[0].value.plan;
    place.reset();

    unlock();
    if (HasFatalFailure()) return;
    find_the_person();
    if (HasFatalFailure()) return;
    find_the_plan(signed_plan);
    page(Qt::Key_1);

    enter_the_numbers();
    const std::string schedule = paper("Schedule", "schedule.pdf");
    const std::string caution = paper("Caution sheet", "caution.pdf");
    EXPECT_EQ(workbench().record()->papers.size(), 1U) << "that the schedule left the room is on the record";
    expect_schedule(schedule);
    expect_words(caution, {"Caution sheet for clonazepam", "Never stop suddenly", "Call 911 at once",
                           "Call 988 at any hour", "Linnea Marsh", "reference 0731"});
}

}  // namespace
}  // namespace evenfall::ui
