// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "controls/card.h"
#include "model/diary.h"
#include "model/regimen.h"
#include "record/changes.h"

class QCheckBox;
class QGridLayout;
class QVBoxLayout;

namespace evenfall::ui {

class ClockEdit;
class DayEdit;
class DoseEntry;
class Label;
class ScoreCell;
class Workbench;

/// One day's diary, entered by keyboard alone: P fills in the regimen's doses, exceptions are edited,
/// numerals set the symptoms one after the other, Enter saves, Escape leaves.
class DayEntry : public Card {
    Q_OBJECT

  public:
    explicit DayEntry(Workbench& workbench, QWidget* parent = nullptr);
    /// Shows an empty form for a diary day, with the focus on its first field.
    void open(Day day);
    /// The diary day that runs now.
    Day running_day() const;

    void fill_as_planned();
    bool take_written(std::vector<Intake>& written, const DoseTime& planned, Day day) const;
    /// Saves what stands there; says why not where it cannot.
    bool commit();

    DayEdit* day() const { return day_; }
    ClockEdit* rated_at() const { return rated_at_; }
    QCheckBox* nothing_taken() const { return nothing_; }
    const std::vector<DoseEntry*>& doses() const { return doses_; }
    const std::vector<ScoreCell*>& scores() const { return scores_; }
    QString message() const;

  signals:
    void left();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void build_top();
    void build_symptoms();
    DoseEntry* add_dose();
    void clear();
    void show_day();
    void make_scores();
    void watch_keys(QWidget* field);
    void go_from(ScoreCell* cell, int by);
    void move_day(int by);
    bool fields_are_right();
    std::vector<Change> collect();
    void say(const QString& text, bool wrong);

    Workbench& workbench_;
    DayEdit* day_;
    QCheckBox* nothing_;
    QVBoxLayout* dose_column_;
    QGridLayout* score_grid_;
    ClockEdit* rated_at_;
    Label* already_;
    Label* message_;
    Label* keys_;
    std::vector<DoseEntry*> doses_;
    std::vector<ScoreCell*> scores_;
    std::vector<DoseTime> planned_;
    Diary diary_;
    ClockTime begins_;
};

}  // namespace evenfall::ui
