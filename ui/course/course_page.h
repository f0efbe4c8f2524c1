// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "course/latest.h"
#include "course/numbers_table.h"
#include "course/scene.h"
#include "shell/workbench.h"

class QButtonGroup;
class QPushButton;
class QStackedWidget;
class QTableView;

namespace evenfall::ui {

class CourseView;
class EmptyState;
class ExplainLine;

/// The page that shows a person's taper on one time axis, with what is chosen explained beneath and the same
/// numbers as a table beside it.
class CoursePage : public Page {
    Q_OBJECT

  public:
    explicit CoursePage(Workbench& workbench, QWidget* parent = nullptr);
    void refresh() override;

    CourseView* view() const { return view_; }
    /// Whether the level curve is still being computed.
    bool computing() const { return levels_.busy(); }

  private:
    QWidget* make_header();
    QWidget* make_content();
    void show_level(LevelCurve curve);
    void fill_table();
    void explain_choice();

    QStackedWidget* stack_;
    EmptyState* empty_;
    CourseView* view_;
    ExplainLine* line_;
    QTableView* table_;
    QPushButton* as_table_;
    QButtonGroup* ranges_;
    NumbersTable numbers_;
    Latest<LevelCurve> levels_;
};

}  // namespace evenfall::ui
