// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAbstractSpinBox>

#include "record/sections.h"
#include "ui/acceptance/clinic_window.h"
#include "ui/acceptance/hands.h"
#include "ui/support/invented_clinic.h"

namespace evenfall::ui {
namespace {

/// What no field was made for: empty, negative, zero, enormous, a wrong unit, no number, odd dates, markup,
/// marks that turn the writing round, and far too much of it.
QStringList hostile_texts() {
    return {QString(),
            QStringLiteral("-1"),
            QStringLiteral("0"),
            QStringLiteral("999999999999999999999 mg"),
            QStringLiteral("1 mcg"),
            QStringLiteral("1,5"),
            QStringLiteral("nan"),
            QStringLiteral("2025-02-29"),
            QStringLiteral("0001-01-01"),
            QStringLiteral("9999-12-31"),
            QStringLiteral("24:60"),
            QStringLiteral("<b onclick='x'>&amp;</b>'; DROP TABLE log; --"),
            QString::fromUtf8("\u202Egm 5.0\u202C"),
            QString::fromUtf8("e\u0301\u0301\u0301\u0301 שלום مرحبا 🜲"),
            QString(10'000, u'x')};
}

/// Leaves whatever dialog comes up.
class LeavesDialogs : public QObject {
  public:
    LeavesDialogs() {
        connect(&timer_, &QTimer::timeout, this, [] {
            if (auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget())) dialog->reject();
        });
        timer_.start(5);
    }

  private:
    QTimer timer_;
};

/// The fields of a page that take text, by their names.
template <class Field>
std::vector<QPointer<Field>> fields(QWidget& page) {
    std::vector<QPointer<Field>> found;
    for (Field* each : page.findChildren<Field*>())
        if (each->isVisible() && each->isEnabled() && !each->isReadOnly()) found.emplace_back(each);
    return found;
}

/// Pastes a text over what stands in a line, as a hand does, and commits it.
void paste(QLineEdit& line, const QString& text) {
    line.setFocus();
    line.selectAll();
    line.insert(text);
    QTest::keyClick(&line, Qt::Key_Return);
}

void paste(QPlainTextEdit& lines, const QString& text) {
    lines.setFocus();
    lines.selectAll();
    lines.insertPlainText(text);
    QTest::keyClick(&lines, Qt::Key_Tab);
}

class HostileInput : public testing::TestWithParam<std::string> {
  protected:
    void SetUp() override {
        workbench_ = small_clinic();
        window_ = std::make_unique<MainWindow>(*workbench_, every_page());
        window_->resize(1440, 900);
        window_->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window_.get()));
        workbench_->select(workbench_->desk().patients().front());
        window_->show_page(QString::fromStdString(GetParam()));
        settle();
    }

    template <class Field>
    void try_all() {
        const LeavesDialogs left;
        for (const QString& text : hostile_texts())
            for (const QPointer<Field>& field : fields<Field>(*window_->page())) {
                if (!field || !field->isVisible() || !field->isEnabled()) continue;
                paste(*field, text);
                QCoreApplication::processEvents();
            }
    }

    /// Every amount and date that reached the record is one that a person could have meant.
    void expect_a_sound_record() {
        for (const PatientId& patient : workbench_->desk().patients()) {
            const auto record = workbench_->desk().record(patient);
            ASSERT_TRUE(record.ok());
            for (const HistoryLine& line : (*record)->lines) EXPECT_NE(line.standing, Standing::unreadable);
            ASSERT_TRUE((*record)->person.has_value());
            EXPECT_FALSE((*record)->person->value.name.empty());
            EXPECT_LE((*record)->person->value.name.size(), 1000u);
            for (const auto& regimen : (*record)->regimens)
                for (const auto& dose : regimen.value.regimen.regimen.doses)
                    EXPECT_TRUE(dose.amount > Dose() && dose.amount < Dose::milligrams(10'000));
            EXPECT_TRUE(workbench_->desk().course(patient, workbench_->now()).ok());
        }
    }

    std::unique_ptr<Workbench> workbench_;
    std::unique_ptr<MainWindow> window_;
};

TEST_P(HostileInput, LeavesARecordThatIsSound) {
    try_all<QLineEdit>();
    try_all<QPlainTextEdit>();
    expect_a_sound_record();
}

/// What is wrong is not swallowed: it stands in its field until somebody mends it.
TEST_P(HostileInput, KeepsWhatWasTypedWhereItIsRefused) {
    const LeavesDialogs left;
    for (const QPointer<QLineEdit>& line : fields<QLineEdit>(*window_->page())) {
        if (!line || !line->isVisible() || !line->isEnabled()) continue;
        if (qobject_cast<QAbstractSpinBox*>(line->parentWidget())) continue;  // it takes digits only
        const std::size_t written = workbench_->record()->lines.size();
        paste(*line, QStringLiteral("1 mcg"));
        QCoreApplication::processEvents();
        if (!line || workbench_->record()->lines.size() != written) continue;  // it was words, and is kept
        EXPECT_FALSE(line->text().isEmpty()) << spoken_name(line).toStdString();
    }
}

/// Every page, and every part of the record.
std::vector<std::string> all_places() {
    std::vector<std::string> places;
    for (const PageMaker& page : every_page())
        if (page.id != QStringLiteral("record")) places.push_back(page.id.toStdString());
    for (const SectionMaker& part : record_sections()) places.push_back("record/" + part.id.toStdString());
    return places;
}

INSTANTIATE_TEST_SUITE_P(OnEveryPage, HostileInput, testing::ValuesIn(all_places()), [](const auto& page) {
    std::string name = page.param;
    std::ranges::replace_if(
        name, [](char c) { return c < 'a' || c > 'z'; }, '_');
    return name;
});

}  // namespace
}  // namespace evenfall::ui
