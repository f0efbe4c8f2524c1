// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QDialog>
#include <QFrame>
#include <functional>
#include <optional>

#include "casework/desk.h"

class QVBoxLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace evenfall::ui {

class Workbench;

/// "Saved", with the time; fades by being replaced, never by blinking. A status for screen readers.
class SavedNote : public QWidget {
    Q_OBJECT
  public:
    explicit SavedNote(QWidget* parent = nullptr);
    void say_saved(const QString& time);

  private:
    QLabel* label_;
};

/// Lists every fault, each with a way to the place it is about.
class FaultPanel : public QFrame {
    Q_OBJECT
  public:
    explicit FaultPanel(QWidget* parent = nullptr);
    /// Shows the faults; `jump` is called with the place of the one that was chosen (empty: no jump buttons).
    void show_faults(const std::vector<std::pair<QString, QString>>& place_and_sentence,
                     std::function<void(const QString&)> jump = {});
    void clear();

  private:
    QVBoxLayout* list_;
};

/// A dialog of ours: heading, what it is about, its content, and buttons that say what they do. Enter
/// commits, Escape leaves.
class QuietDialog : public QDialog {
    Q_OBJECT
  public:
    QuietDialog(const QString& title, const QString& lead, QWidget* parent = nullptr);
    QVBoxLayout* body() const { return body_; }
    /// The button that commits, with its words; the other one says "Leave" or `leave`.
    QPushButton* set_buttons(const QString& commit, const QString& leave);

  private:
    QVBoxLayout* body_;
    QVBoxLayout* outer_;
};

/// Puts each objection with its sentence and source, and asks for a reason for each.
class OverrideDialog : public QuietDialog {
    Q_OBJECT
  public:
    OverrideDialog(const Workbench& workbench, const std::vector<Objection>& objections,
                   QWidget* parent = nullptr);
    std::vector<Override> overrides() const;
    static std::optional<std::vector<Override>> ask(const Workbench& workbench,
                                                    const std::vector<Objection>& objections,
                                                    QWidget* parent);

  private:
    void judge();
    std::size_t least_letters_ = 1;
    std::vector<std::pair<std::string, QLineEdit*>> reasons_;
    QPushButton* commit_ = nullptr;
};

/// Asks before a thing that cannot be undone; the question holds the consequence. Enter goes back.
bool ask_once(const QString& question, const QString& consequence, const QString& commit, QWidget* parent);

}  // namespace evenfall::ui
