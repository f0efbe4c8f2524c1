// SPDX-License-Identifier: GPL-3.0-or-later
#include "clinic/clinic_window.h"

#include <QComboBox>
#include <QPushButton>
#include <QTest>

#include <gtest/gtest.h>

#include "casework/in_force.h"
#include "controls/typed_field.h"
#include "ui/support/invented_clinic.h"
#include "ui/support/walk.h"

namespace evenfall::ui {
namespace {

class ClinicWindowTest : public testing::Test {
  protected:
    void open(Role role = Role::prescriber) {
        workbench = empty_workbench(role);
        window = std::make_unique<ClinicWindow>(*workbench);
        window->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get()));
    }
    template <class Widget>
    Widget* named(const char* name) {
        for (Widget* each : window->findChildren<Widget*>())
            if (each->isVisible() && each->accessibleName() == QString::fromUtf8(name)) return each;
        return nullptr;
    }
    void type(const char* name, const char* text) {
        auto* line = named<QLineEdit>(name);
        ASSERT_NE(line, nullptr) << name;
        line->setFocus();
        line->selectAll();
        QTest::keyClicks(line, QString::fromUtf8(text));
    }
    void press(const char* name) {
        auto* button = named<QPushButton>(name);
        ASSERT_NE(button, nullptr) << name;
        QTest::mouseClick(button, Qt::LeftButton);
        QCoreApplication::processEvents();
    }
    std::string words() {
        std::string all;
        for (const QLabel* label : window->findChildren<QLabel*>())
            if (label->isVisible()) all += label->text().toStdString() + '\n';
        return all;
    }

    std::unique_ptr<Workbench> workbench;
    std::unique_ptr<ClinicWindow> window;
};

TEST_F(ClinicWindowTest, SavesNumbersAndWhatAFillCovers) {
    open();
    type("Name of the clinic", "Harbour Street Clinic");
    type("Telephone in office hours", "555-0100");
    type("Days that a fill covers, days", "14");
    press("Save the clinic");
    const Clinic clinic = workbench->desk().clinic();
    EXPECT_EQ(clinic.name, "Harbour Street Clinic");
    EXPECT_EQ(clinic.phone, "555-0100");
    EXPECT_EQ(clinic.days_per_fill, 14);
}

TEST_F(ClinicWindowTest, ChangesARuleWithAReasonAndSaysWhatWasShipped) {
    open();
    window->show_rule("cut-over-cap");
    type("Percent", "7.5");
    type("Why the clinic uses its own value", "slower, by our own protocol");
    press("Use this value");
    EXPECT_EQ(workbench->desk().rules().percent("cut-over-cap", "percent"), Share::of(75, 1000));
    EXPECT_NE(words().find("clinic's choice; shipped with percent 10"), std::string::npos) << words();
    EXPECT_NE(words().find("slower, by our own protocol"), std::string::npos) << words();
}

TEST_F(ClinicWindowTest, RefusesAValueThatCannotBeAndKeepsIt) {
    open();
    window->show_rule("hold-ends");
    for (const char* value : {"1.5", "abc", "-3", "0", "99999"}) {
        type("Days", value);
        type("Why the clinic uses its own value", "because");
        press("Use this value");
        EXPECT_EQ(workbench->desk().rules().whole("hold-ends", "days"), 7) << value;
        EXPECT_EQ(named<QLineEdit>("Days")->text().toStdString(), value);
        EXPECT_NE(words().find("hold-ends\""), std::string::npos) << words();
    }
}

TEST_F(ClinicWindowTest, TakesPricesInTheClinicsOwnCurrency) {
    open();
    window->show_prices();
    named<QComboBox>("Agent")->setCurrentText(QStringLiteral("clonazepam"));
    QCoreApplication::processEvents();
    EXPECT_EQ(nameless(*window).join(u'\n').toStdString(), "");
    type("Currency", "crowns");
    type("Price of one, clonazepam 0.5 mg tablet", "0.12");
    press("Save the prices");
    const Product tablet{"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::halves, {}};
    const auto price = [&] { return find_price(prices_in_force(workbench->desk().clinic_record()), tablet); };
    EXPECT_EQ(price(), Price{120'000});
    EXPECT_EQ(workbench->desk().clinic_record().currency->value.currency, "crowns");
    EXPECT_EQ(named<QComboBox>("Agent")->currentText().toStdString(), "clonazepam")
        << "it stays where one was";
    EXPECT_EQ(named<QLineEdit>("Price of one, clonazepam 0.5 mg tablet")->text().toStdString(), "0.12");
    type("Price of one, clonazepam 0.5 mg tablet", "0,20");
    press("Save the prices");
    EXPECT_EQ(price(), Price{120'000}) << "nothing unreadable is written";
    EXPECT_NE(words().find("\"0,20\" is not a price"), std::string::npos) << words();
    named<QLineEdit>("Price of one, clonazepam 0.5 mg tablet")->clear();
    press("Save the prices");
    EXPECT_FALSE(price());
}

TEST_F(ClinicWindowTest, WritesNothingWithoutAReason) {
    open();
    window->show_rule("hold-ends");
    type("Days", "5");
    press("Use this value");
    EXPECT_EQ(workbench->desk().rules().whole("hold-ends", "days"), 7);
    EXPECT_NE(words().find("A reason is needed"), std::string::npos) << words();
}

TEST_F(ClinicWindowTest, LetsANurseReadAndSaysWhoMayChange) {
    open(Role::nurse);
    auto* keep = named<QPushButton>("Save the clinic");
    ASSERT_NE(keep, nullptr);
    EXPECT_FALSE(keep->isEnabled());
    EXPECT_FALSE(keep->toolTip().isEmpty());
}

TEST_F(ClinicWindowTest, NamesEveryControl) {
    open();
    EXPECT_EQ(nameless(*window).join(u'\n').toStdString(), "");
    window->show_rule("cut-over-cap");
    EXPECT_EQ(nameless(*window).join(u'\n').toStdString(), "");
}

}  // namespace
}  // namespace evenfall::ui
