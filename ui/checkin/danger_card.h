// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "casework/dangers.h"
#include "controls/card.h"

class QLineEdit;
class QPushButton;

namespace evenfall::ui {

class Label;
class Workbench;

/// The card of a danger: where the person is, what to do now, whom to call, what to tell the person, and who
/// was told. It says that nobody has been told until that is written down; entry goes on beneath it.
class DangerCard : public Card {
    Q_OBJECT
  public:
    explicit DangerCard(Workbench& workbench, QWidget* parent = nullptr);
    /// Shows what stands for the selected person; nothing stands: hidden. What is being typed stays.
    void refresh();
    /// Puts the cursor where the person is asked for.
    void ask();
    const std::vector<Danger>& dangers() const { return dangers_; }

  signals:
    void left();                                        ///< Escape: the talk goes on
    void written(const std::vector<QWidget*>& fields);  ///< what was typed into these is in the record

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void build();
    void show_words(const Danger& first);
    void show_told();
    void show_nobodys_words();
    void write_whereabouts();
    void write_told();
    std::vector<Danger> open_dangers() const;

    Workbench& workbench_;
    PatientId shown_;        ///< whose words stand in the lines
    EventId shown_noted_{};  ///< of the whereabouts that stand in the first lines
    std::vector<Danger> dangers_;
    Label* title_;
    Label* state_;
    QLineEdit *where_, *with_whom_, *call_back_;
    QPushButton* write_where_;
    Label *do_now_, *call_, *tell_;
    QLineEdit *who_, *number_, *answer_;
    QPushButton* write_told_;
    std::vector<QWidget*> told_row_;
};

}  // namespace evenfall::ui
