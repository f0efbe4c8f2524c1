// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractButton>
#include <QAccessible>
#include <QApplication>
#include <QComboBox>
#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QPointer>
#include <QPushButton>
#include <QTest>
#include <QTimer>
#include <deque>
#include <functional>

#include <gtest/gtest.h>

namespace evenfall::ui {

/// Lets the window lay itself out and answer, as it does between two moves of a hand.
inline void settle() {
    QTest::qWait(1);
}

/// What a screen reader calls a widget: the name that it was given, or its text.
inline QString spoken_name(QWidget* widget) {
    if (!widget->accessibleName().isEmpty()) return widget->accessibleName();
    QAccessibleInterface* face = QAccessible::queryAccessibleInterface(widget);
    return face ? face->text(QAccessible::Name) : QString();
}

/// The number-th visible widget of that kind and accessible name beneath a root, or null.
template <class Widget>
Widget* find_named(QWidget& root, const QString& name, int number = 0) {
    for (Widget* each : root.findChildren<Widget*>())
        if (each->isVisible() && spoken_name(each) == name && number-- == 0) return each;
    return nullptr;
}

/// Types over what stands in a line, key by key, and leaves it.
inline void type_in(QWidget& root, const char* name, const char* text, int number = 0) {
    settle();
    auto* line = find_named<QLineEdit>(root, QString::fromUtf8(name), number);
    ASSERT_NE(line, nullptr) << "no line “" << name << "”";
    line->setFocus();
    QTest::keyClick(line, Qt::Key_A, Qt::ControlModifier);
    QTest::keyClick(line, Qt::Key_Delete);
    QTest::keyClicks(line, QString::fromUtf8(text));
    QTest::keyClick(line, Qt::Key_Tab);
}

inline void type_words(QWidget& root, const char* name, const char* text) {
    settle();
    auto* lines = find_named<QPlainTextEdit>(root, QString::fromUtf8(name));
    ASSERT_NE(lines, nullptr) << "no lines “" << name << "”";
    lines->setFocus();
    QTest::keyClicks(lines, QString::fromUtf8(text));
}

inline void press(QWidget& root, const char* name) {
    settle();
    auto* button = find_named<QAbstractButton>(root, QString::fromUtf8(name));
    ASSERT_NE(button, nullptr) << "no button “" << name << "”";
    ASSERT_TRUE(button->isEnabled()) << name << ": " << button->toolTip().toStdString();
    // A check box is pressed on its mark: the empty ground beside its words takes no click.
    QTest::mouseClick(button, Qt::LeftButton, {}, {12, button->height() / 2});
}

/// Goes through a choice with the arrow keys until it says the text.
inline void choose(QWidget& root, const char* name, const char* text, int number = 0) {
    settle();
    auto* box = find_named<QComboBox>(root, QString::fromUtf8(name), number);
    ASSERT_NE(box, nullptr) << "no choice “" << name << "”";
    box->setFocus();
    QTest::keyClick(box, Qt::Key_Home);
    const QString wanted = QString::fromUtf8(text);
    for (int at = 1; at < box->count() && box->currentText() != wanted; ++at)
        QTest::keyClick(box, Qt::Key_Down);
    EXPECT_EQ(box->currentText().toStdString(), text);
}

/// Goes through a list with the arrow keys until it says the text.
inline void choose_line(QWidget& root, const char* list, const char* text) {
    settle();
    auto* widget = find_named<QListWidget>(root, QString::fromUtf8(list));
    ASSERT_NE(widget, nullptr) << "no list “" << list << "”";
    widget->setFocus();
    QTest::keyClick(widget, Qt::Key_Home);
    const QString wanted = QString::fromUtf8(text);
    const auto here = [widget] { return widget->currentItem() ? widget->currentItem()->text() : QString(); };
    for (int at = 1; at < widget->count() && !here().startsWith(wanted); ++at)
        QTest::keyClick(widget, Qt::Key_Down);
    EXPECT_EQ(here().left(wanted.size()).toStdString(), text);
}

/// Everything that visible labels say, one a line.
inline std::string words_of(const QWidget& root) {
    settle();
    std::string all;
    for (const QLabel* label : root.findChildren<QLabel*>())
        if (label->isVisible() && !label->text().isEmpty()) all += label->text().toStdString() + '\n';
    return all;
}

/// Answers the dialogs that come up while a button is held in its event loop, one act each, in their order.
/// A dialog that nobody expected is left and told as a failure.
class Dialogs : public QObject {
  public:
    Dialogs() {
        connect(&timer_, &QTimer::timeout, this, &Dialogs::look);
        timer_.start(10);
    }
    ~Dialogs() override { EXPECT_TRUE(acts_.empty()) << acts_.size() << " dialogs never came up"; }

    void expect(std::function<void(QDialog&)> act) { acts_.push_back(std::move(act)); }
    const std::string& last_words() const { return words_; }

  private:
    void look() {
        auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
        if (!dialog || !dialog->isVisible() || dialog == answered_) return;
        answered_ = dialog;
        words_ = words_of(*dialog);
        if (acts_.empty()) {
            ADD_FAILURE() << "nobody expected this dialog:\n" << words_;
            return dialog->reject();
        }
        const auto act = std::move(acts_.front());
        acts_.pop_front();
        act(*dialog);
        QTimer::singleShot(0, dialog, [dialog] {
            if (!dialog->isVisible()) return;
            ADD_FAILURE() << "the dialog stays open:\n" << words_of(*dialog);
            dialog->reject();
        });
    }

    QTimer timer_;
    QPointer<QDialog> answered_;
    std::deque<std::function<void(QDialog&)>> acts_;
    std::string words_;
};

}  // namespace evenfall::ui
