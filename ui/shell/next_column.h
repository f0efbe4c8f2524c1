// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QScrollArea>
#include <QStringList>

#include "shell/workbench.h"

class QVBoxLayout;

namespace evenfall::ui {

/// What to do next for the selected person: each act with its reason, its rule and the way to it; beneath,
/// what the person wants and who stands by them.
class NextColumn : public QScrollArea {
    Q_OBJECT
  public:
    explicit NextColumn(Workbench& workbench, QWidget* parent = nullptr);
    void refresh();
    /// How many things there are to do, each with a way to it.
    int acts() const;
    /// Whether a danger is among them: then it is not folded away.
    bool has_danger() const { return danger_; }
    /// Whether it can be folded away, to give its room to the page.
    void set_foldable(bool foldable);

  signals:
    void fold_wanted();

  private:
    void add_acts(const PatientRecord& record);
    void add_about(const PatientRecord& record);
    QWidget* make_card(const std::vector<NextAct>& reasons, int number);
    void go_to(int number);
    void put_off(const Flag& flag);
    void add_words(const QString& heading, const QString& words);

    Workbench& workbench_;
    QVBoxLayout* column_;
    QPointer<QWidget> fold_;  ///< made anew with the column
    bool foldable_ = false;
    bool danger_ = false;
    QStringList pages_;  ///< what each numbered act opens
};

/// The words of an act: what it is, what its button says, and the page (with its part) that it opens.
struct ActWords {
    QString title;
    QString button;  ///< empty: there is nothing to open
    QString page;
};
ActWords words_of(NextAct::Act act);

}  // namespace evenfall::ui
