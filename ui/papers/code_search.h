// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QTimer>
#include <deque>
#include <optional>
#include <string>

#include "papers/mark.h"
#include "shell/workbench.h"

namespace evenfall::ui {

/// Looks through everybody's record for the version that a paper in hand shows. A desk is asked on one thread
/// alone, so this goes on in short turns of the window's thread, between which keys and the mouse are served
/// and entries are written. What was found is remembered until somebody's record changes.
class CodeSearch : public QObject {
    Q_OBJECT

  public:
    explicit CodeSearch(Workbench& workbench, QObject* parent = nullptr);

    /// Begins to look, unless this paper is being looked for or was looked for last.
    void look_for(const papers::MarkText& paper);
    /// Leaves off; what was found to the end stays known.
    void leave_off();

    /// Whether there are records that were not looked at.
    bool busy() const { return turns_.isActive(); }
    /// How many people are looked through.
    std::size_t people() const { return people_; }
    /// The reference of the person whose paper it is; empty where nobody's record has it.
    const std::optional<std::string>& reference() const { return reference_; }
    /// How many records could not be read: it may be of one of them.
    std::size_t unreadable() const { return unreadable_; }

  signals:
    /// The search came to its end, or what it found no longer holds.
    void changed();

  private:
    void forget();
    void take_turn();
    void go_on();
    /// Returns whether to go on now.
    bool look_at_next();
    void look_again_at(const PatientId& patient);

    Workbench& workbench_;
    QTimer turns_;
    std::optional<papers::MarkText> paper_;
    std::deque<PatientId> left_;
    std::size_t people_ = 0;
    std::optional<PatientId> found_;
    std::optional<std::string> reference_;
    std::size_t unreadable_ = 0;
};

}  // namespace evenfall::ui
