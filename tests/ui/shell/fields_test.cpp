// SPDX-License-Identifier: GPL-3.0-or-later
#include <QComboBox>
#include <QTest>
#include <QWheelEvent>

#include <gtest/gtest.h>

#include "controls/typed_field.h"
#include "controls/wheel_guard.h"
#include "rules/texts.h"

namespace evenfall::ui {
namespace {

const Texts& texts() {
    static const Result<Texts> loaded = Texts::load(resources_folder(), "en");
    return *loaded;
}

TEST(DoseEdit, RefusesWhateverTheParserRefusesAndSaysSo) {
    for (const char* typed : {"1,5", "1,500", ".5", "5.", "-1", "+1", "1e3", "1 5", "1.5 U", "1.5 ug",
                              "1.5 µg", "abc", "0.0000001", "1000000", "1.5.2", "0x10", "nan"}) {
        DoseEdit field(texts(), QStringLiteral("Amount"));
        QTest::keyClicks(field.edit(), QString::fromUtf8(typed));
        const std::string text = typed;
        const bool letters = text.find_first_of("abcdefghijklmnopqrstuvwxyzUµ") != std::string::npos;
        ASSERT_FALSE(letters ? parse_dose(text, {}).ok() : parse_mg(text, {}).ok()) << typed;
        EXPECT_TRUE(field.is_refused()) << typed;
        EXPECT_FALSE(field.dose().has_value()) << typed;
        EXPECT_FALSE(field.fault().isEmpty()) << typed;
        EXPECT_EQ(field.typed(), QString::fromUtf8(typed)) << "what was typed is kept";
    }
}

TEST(DoseEdit, EchoesWhatItUnderstood) {
    DoseEdit field(texts(), QStringLiteral("Amount"));
    for (const auto& [typed, ng, echo] : {std::tuple{"1.5", 1'500'000, "= 1.5 mg"},
                                          {"0.125", 125'000, "= 0.125 mg"},
                                          {"2.50", 2'500'000, "= 2.5 mg"},
                                          {"500 mcg", 500'000, "= 0.5 mg"},
                                          {"3 mg", 3'000'000, "= 3 mg"}}) {
        field.set_typed(QString::fromLatin1(typed));
        ASSERT_TRUE(field.dose().has_value()) << typed;
        EXPECT_EQ(field.dose()->ng(), ng);
        EXPECT_EQ(field.edit()->echo(), QString::fromLatin1(echo));
        EXPECT_FALSE(field.is_refused());
    }
}

TEST(DoseEdit, NamesItsUnitToAScreenReader) {
    EXPECT_EQ(DoseEdit(texts(), QStringLiteral("Amount")).edit()->accessibleName(),
              QStringLiteral("Amount, milligrams"));
}

TEST(DoseEdit, ThatIsRequiredSaysSoWhenBlank) {
    DoseEdit field(texts(), QStringLiteral("Amount"));
    EXPECT_TRUE(field.check());
    field.set_required(true);
    EXPECT_FALSE(field.check());
    EXPECT_FALSE(field.fault().isEmpty());
}

TEST(ClockEdit, UnderstandsHowPeopleTypeATime) {
    ClockEdit field(texts(), QStringLiteral("Time"));
    for (const auto& [typed, minutes] :
         {std::pair{"8", 480}, {"08:00", 480}, {"8:05", 485}, {"2130", 1290}, {"23:59", 1439}}) {
        field.set_typed(QString::fromLatin1(typed));
        ASSERT_TRUE(field.time().has_value()) << typed;
        EXPECT_EQ(field.time()->minutes, minutes);
    }
    for (const char* typed : {"25", "24:00", "8.30", "800", "8:60", "noon"}) {
        field.set_typed(QString::fromLatin1(typed));
        EXPECT_TRUE(field.is_refused()) << typed;
    }
}

TEST(DayEdit, EchoesTheWeekdayAndRefusesDaysThatAreNotInTheCalendar) {
    DayEdit field(texts(), QStringLiteral("From"));
    field.set_typed(QStringLiteral("2026-11-26"));
    EXPECT_EQ(field.edit()->echo(), QStringLiteral("Thu 26 Nov 2026"));
    field.set_typed(QStringLiteral("2028-02-29"));
    EXPECT_TRUE(field.day().has_value());
    for (const char* typed : {"2026-02-29", "26-11-2026", "2026-13-01", "tomorrow"}) {
        field.set_typed(QString::fromLatin1(typed));
        EXPECT_TRUE(field.is_refused()) << typed;
    }
}

TEST(WholeEdit, KeepsToItsBounds) {
    WholeEdit field(texts(), QStringLiteral("Confidence"), 0, 10, QStringLiteral("of 10"));
    for (const char* typed : {"11", "-1", "2.5", "1,0", "99999999999999999999", "ten"}) {
        field.set_typed(QString::fromLatin1(typed));
        EXPECT_FALSE(field.number().has_value()) << typed;
        EXPECT_FALSE(field.fault().isEmpty()) << typed;
    }
    field.set_typed(QStringLiteral("10"));
    EXPECT_EQ(field.number(), 10);
}

TEST(WheelGuard, LeavesAListBoxWithoutFocusAlone) {
    QWidget window;
    QComboBox box(&window);
    box.addItems({QStringLiteral("a"), QStringLiteral("b"), QStringLiteral("c")});
    const auto turn = [&box] {
        QWheelEvent event(QPointF(5, 5), box.mapToGlobal(QPointF(5, 5)), {}, {0, -120}, Qt::NoButton,
                          Qt::NoModifier, Qt::NoScrollPhase, false);
        QApplication::sendEvent(&box, &event);
    };
    turn();
    const int without_guard = box.currentIndex();
    WheelGuard guard;
    qApp->installEventFilter(&guard);
    turn();
    EXPECT_EQ(without_guard, 1) << "without the guard Qt changes the value";
    EXPECT_EQ(box.currentIndex(), without_guard);
}

}  // namespace
}  // namespace evenfall::ui
