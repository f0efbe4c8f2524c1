// SPDX-License-Identifier: GPL-3.0-or-later
#include <QFileDialog>
#include <QProcess>
#include <QTemporaryDir>
#include <algorithm>
#include <set>

#include "casework/dangers.h"
#include "exchange/caseload_file.h"
#include "model/strict_json.h"
#include "shell/caseload_pane.h"
#include "ui/acceptance/clinic_window.h"
#include "ui/acceptance/hands.h"

namespace evenfall::ui {
namespace {

/// The nurse's morning with the shipped caseload, worked through by keys alone.
class NurseMorning : public testing::Test {
  protected:
    void SetUp() override {
        const auto path = std::filesystem::path(EVENFALL_SOURCE_DIR) / "sample_data" / "caseload.json";
        auto file = read_caseload(read_text_file(path, 32u << 20).value(), "caseload.json").value();
        now = file.as_of;
        const Instant at(now.time_since_epoch());
        auto log = log_in_memory(
            "nurse", [at] { return at; }, std::move(file.events));
        auto desk = Desk::open(std::move(log), load_formulary(resources_folder() / "formulary.json").value(),
                               Rules::load(resources_folder() / "rules.json").value(),
                               {"nurse", "N. Amarante", Role::nurse, ""});
        ASSERT_TRUE(desk.ok());
        place = std::make_unique<Place>(std::move(*desk), [this] { return now; });
        place->window->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(place->window.get()));
    }
    Workbench& workbench() { return *place->workbench; }
    CaseloadModel& model() { return place->window->caseload().model(); }
    const PatientRecord& record() { return *workbench().record(); }
    void key(Qt::Key code, Qt::KeyboardModifiers with = {}) {
        QWidget* focus = QApplication::focusWidget();
        QTest::keyClick(focus ? focus : place->window.get(), code, with);
        settle();
    }
    void type(const char* text) { QTest::keyClicks(QApplication::focusWidget(), QString::fromUtf8(text)); }
    std::string said() { return words_of(*place->window); }
    /// Opens a person by the first letters of a word of their name.
    void find(const char* letters) {
        back_to_list();
        key(Qt::Key_Slash);
        type(letters);
        key(Qt::Key_Return);
    }
    /// From anywhere back to the list.
    void back_to_list() {
        key(Qt::Key_F, Qt::ControlModifier);
        key(Qt::Key_Escape);
    }
    std::vector<Danger> dangers() {
        return standing_dangers(record(), workbench().desk().rules(), workbench().desk().scales(), now);
    }

    /// Puts down where the person is, and who was told, by the card of the danger.
    void act_on_danger() {
        key(Qt::Key_1, Qt::AltModifier);
        ASSERT_EQ(spoken_name(QApplication::focusWidget()).toStdString(), "Where is the person?") << said();
        type("at home, in the kitchen");
        key(Qt::Key_Tab);
        type("her mother");
        key(Qt::Key_Tab);
        key(Qt::Key_Return);  // the number to call back stands there already
        ASSERT_EQ(spoken_name(QApplication::focusWidget()).toStdString(), "Who was told");
        type("R. Vantongeren");
        key(Qt::Key_Tab);
        key(Qt::Key_Tab);
        type("calls back within ten minutes");
        key(Qt::Key_Return);
    }

    LocalTime now{};
    std::unique_ptr<Place> place;
};

TEST_F(NurseMorning, TheThreeDangersStandOnTopInTheRightWordsAndAreSeenToFirst) {
    key(Qt::Key_Home);
    std::vector<std::string> captions;
    for (int at = 0; at < 3; ++at) {
        const auto lines = model().shown();
        const CaseloadLine& line = lines[static_cast<std::size_t>(at)];
        captions.push_back(workbench().caption(line.reasons.front().flag).toStdString());
        EXPECT_NE(line.reasons.front().urgency, Urgency::steady);
        EXPECT_FALSE(line.phone.empty()) << line.name;
    }
    EXPECT_EQ(captions[0], "Seizure: emergency");
    EXPECT_EQ(captions[1], "Suicidal thoughts: call now");
    EXPECT_EQ(captions[2], "Supply ends tomorrow");

    for (const char* name : {"abarquez", "thorvald"}) {
        find(name);
        EXPECT_NE(said().find("Nobody has been told"), std::string::npos);
        act_on_danger();
        ASSERT_FALSE(dangers().empty());
        for (const Danger& each : dangers()) EXPECT_TRUE(each.told) << each.flag.rule;
        EXPECT_EQ(said().find("Nobody has been told"), std::string::npos) << said();
        EXPECT_NE(said().find("Told: R. Vantongeren"), std::string::npos);
        back_to_list();
    }
    // Who is in hand still stands above everything else.
    EXPECT_EQ(model().shown()[0].reasons.front().urgency, Urgency::red_flag);
    EXPECT_EQ(model().shown()[1].reasons.front().urgency, Urgency::red_flag);
    find("quiroz");
    EXPECT_EQ(record().person->value.name, "Anselm Quiroz-Teague");
    EXPECT_NE(said().find("Supply ends tomorrow"), std::string::npos);
    key(Qt::Key_1, Qt::AltModifier);
    EXPECT_TRUE(place->window->page()->inherits("evenfall::ui::RecordPage"));
}

TEST_F(NurseMorning, HomeOpensWhoeverStandsHighlightedOnTopAfterADangerWasTold) {
    for (const char* name : {"thorvald", "abarquez"}) {
        find(name);
        act_on_danger();
        back_to_list();
        for (const Qt::Key move : {Qt::Key_Home, Qt::Key_Down, Qt::Key_End, Qt::Key_Up, Qt::Key_Home}) {
            key(move);
            CaseloadList* list = place->window->caseload().list();
            const CaseloadLine* line = model().line(list->currentIndex());
            ASSERT_NE(line, nullptr);
            EXPECT_TRUE(list->selectionModel()->isSelected(list->currentIndex()));
            EXPECT_EQ(list->selectionModel()->selectedIndexes().size(), 1);
            const PatientId highlighted = line->patient;
            if (move == Qt::Key_Home) {
                EXPECT_EQ(highlighted, model().shown().front().patient);
            }
            key(Qt::Key_Return);
            EXPECT_EQ(record().id, highlighted) << name << ", key " << move;
            back_to_list();
            EXPECT_EQ(model().line(list->currentIndex())->patient, highlighted);
        }
    }
}

TEST_F(NurseMorning, ALateCallIsMadeByKeysAloneAndLeavesTheList) {
    key(Qt::Key_Slash);
    type("merriwether");
    key(Qt::Key_Return);
    ASSERT_EQ(record().person->value.name, "Joaquín Merriwether-Paz");
    const std::size_t calls = record().check_ins.size();
    key(Qt::Key_7, Qt::ControlModifier);
    ASSERT_TRUE(
        spoken_name(QApplication::focusWidget()).startsWith(QStringLiteral("Days since the last call")));
    key(Qt::Key_P);
    const CallAsks asks = asks_of(record(), workbench().course(), workbench().desk().rules(), now);
    for (std::size_t at = 0; at < asks.symptoms.size(); ++at) key(Qt::Key_2);
    key(Qt::Key_Return);
    for (std::size_t at = 0; at < asks.dangers.size(); ++at) key(Qt::Key_N);
    for (int at = 0; at < 4; ++at) key(Qt::Key_1);
    key(Qt::Key_Return, Qt::ControlModifier);
    ASSERT_EQ(record().check_ins.size(), calls + 1);
    EXPECT_NE(said().find("The call is saved."), std::string::npos);
    const auto lines = model().shown();
    const auto line = std::ranges::find(lines, record().id, &CaseloadLine::patient);
    ASSERT_NE(line, lines.end());
    for (const Reason& reason : line->reasons) {
        EXPECT_NE(reason.flag.rule, "contact-overdue");
        EXPECT_NE(reason.flag.rule, "call-unanswered");
    }
}

TEST_F(NurseMorning, FiltersByReasonAgentClinicianAndNurse) {
    QComboBox* box = place->window->caseload().filter_box();
    const auto everyone = model().shown().size();
    std::set<QString> kinds;
    for (int at = 1; at < box->count(); ++at) {
        kinds.insert(box->itemText(at).section(u':', 0, 0));
        box->setFocus();
        box->setCurrentIndex(at);
        emit box->activated(at);
        const auto shown = model().shown().size();
        EXPECT_GE(shown, 1u) << box->itemText(at).toStdString();
        EXPECT_LE(shown, everyone);
    }
    EXPECT_EQ(kinds.size(), 4u);
    box->setCurrentIndex(0);
    emit box->activated(0);
    EXPECT_EQ(model().shown().size(), everyone);
}

TEST_F(NurseMorning, AReasonIsPutOffWithADayAndAReasonAndSaysSoOnTheRecord) {
    key(Qt::Key_Slash);
    type("merriwether");
    key(Qt::Key_Return);
    const auto before = reasons_for(record(), workbench().course(), workbench().desk().ground(), now);
    const std::string rule = before.front().flag.rule;
    ASSERT_FALSE(is_never_put_off(rule, workbench().desk().rules()));
    ASSERT_TRUE(
        workbench().carry_out({ReasonSnoozed{rule, workbench().today() + std::chrono::days(2), "at work"}}));
    const auto after = reasons_for(record(), workbench().course(), workbench().desk().ground(), now);
    EXPECT_NE(after.front().flag.rule, rule);
    EXPECT_EQ(record().lines.back().kind, "reason-snoozed");
}

/// Acts on the dialog that a click brings up, once it stands.
void when_a_dialog_stands(std::function<void(QDialog&)> act) {
    QTimer::singleShot(100, qApp, [act = std::move(act)] {
        auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
        ASSERT_NE(dialog, nullptr) << "no dialog came up";
        act(*dialog);
        if (dialog->isVisible()) dialog->reject();
    });
}

TEST_F(NurseMorning, TheMorningListIsShownAndSavedAsAPaperThatNamesWhoPresses) {
    const QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("list.pdf"));
    bool asked = false;
    when_a_dialog_stands([&](QDialog& dialog) {
        EXPECT_NE(words_of(dialog).find("stays in the clinic"), std::string::npos);
        when_a_dialog_stands([&](QDialog& inner) {
            auto* file = qobject_cast<QFileDialog*>(&inner);
            ASSERT_NE(file, nullptr);
            auto* name = file->findChild<QLineEdit*>(QStringLiteral("fileNameEdit"));
            ASSERT_NE(name, nullptr);
            name->setFocus();
            name->clear();
            QTest::keyClicks(name, path);
            QTest::keyClick(name, Qt::Key_Return);
        });
        find_named<QPushButton>(dialog, QStringLiteral("Save as PDF"))->click();
        when_a_dialog_stands([&asked](QDialog& inner) { asked = inner.inherits("QPrintDialog"); });
        find_named<QPushButton>(dialog, QStringLiteral("Print"))->click();
        EXPECT_TRUE(dialog.isVisible()) << "a print that was called off keeps the list";
        if (const QString at = qEnvironmentVariable("EVENFALL_PICTURES"); !at.isEmpty()) {
            dialog.grab().save(at + QStringLiteral("/morning-dialog.png"));
            QFile::copy(path, at + QStringLiteral("/morning.pdf"));
        }
    });
    find_named<QPushButton>(*place->window, QStringLiteral("Print the morning list of those shown"))->click();
    EXPECT_TRUE(asked) << "nobody asked for a printer";
    QProcess reader;
    reader.start(QStringLiteral("pdftotext"), {QStringLiteral("-layout"), path, QStringLiteral("-")});
    ASSERT_TRUE(reader.waitForFinished()) << "pdftotext (poppler-utils) is needed";
    const QString text =
        QString::fromUtf8(reader.readAllStandardOutput()).replace(QChar(0x00A0), u' ').simplified();
    for (const CaseloadLine& line : model().shown())
        EXPECT_EQ(text.contains(QString::fromStdString(line.reference)),
                  line.reasons.front().urgency != Urgency::steady)
            << line.reference;
}

TEST_F(NurseMorning, TheDialogPutsOffWhatStandsOnTheCardBehindIt) {
    find("merriwether");
    const auto before = reasons_for(record(), workbench().course(), workbench().desk().ground(), now);
    const QString wanted = QStringLiteral("Put off: ") + workbench().sentence(before.front().flag);
    auto* later = find_named<QPushButton>(*place->window, wanted);
    ASSERT_NE(later, nullptr) << wanted.toStdString();
    when_a_dialog_stands([](QDialog& dialog) {
        QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("works until Friday"));
        if (const QString at = qEnvironmentVariable("EVENFALL_PICTURES"); !at.isEmpty())
            dialog.grab().save(at + QStringLiteral("/put-off.png"));
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    });
    later->click();
    ASSERT_EQ(record().snoozed.size(), 1u);
    EXPECT_EQ(record().snoozed.back().value.rule, before.front().flag.rule);
    EXPECT_EQ(record().snoozed.back().value.reason, "works until Friday");
    EXPECT_EQ(record().snoozed.back().value.until, workbench().today() + std::chrono::days(1));
}

TEST_F(NurseMorning, WhoMovedAwayLeavesTheListAndIsFoundBySearch) {
    key(Qt::Key_Home);
    key(Qt::Key_Return);
    const PatientId gone = record().id;
    const QString name = QString::fromStdString(record().person->value.name);
    ASSERT_TRUE(workbench().carry_out(
        {StandingChanged{CareStanding::moved_away, workbench().today(), "handed over"}}));
    const auto lines = model().shown();
    EXPECT_EQ(std::ranges::find(lines, gone, &CaseloadLine::patient), lines.end());
    model().search(name);
    ASSERT_EQ(model().shown().size(), 1u);
    EXPECT_EQ(model().shown().front().patient, gone);
}

}  // namespace
}  // namespace evenfall::ui
