// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <atomic>
#include <memory>

#include "course/latest.h"
#include "course/numbers_table.h"
#include "course/scene.h"
#include "shell/workbench.h"

class QButtonGroup;
class QPushButton;
class QStackedWidget;
class QTableView;
class QTimer;

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
    bool busy() const override { return computing(); }

  private:
    QWidget* make_header();
    QWidget* make_content();
    void show_level(LevelCurve curve);
    void start_level();
    void stop_level();
    /// Says how far the computation is, once it has taken longer than a glance.
    void follow_level();
    void fill_table();
    void explain_choice();

    QStackedWidget* stack_;
    EmptyState* empty_;
    CourseView* view_;
    ExplainLine* line_;
    QTableView* table_;
    QPushButton* as_table_;
    QPushButton* level_button_;  ///< stops a long computation, and begins it again
    QButtonGroup* ranges_;
    NumbersTable numbers_;
    QTimer* patience_;
    std::shared_ptr<std::atomic<int>> level_done_;  ///< percent, written by the thread that computes
    Latest<LevelCurve> levels_;
};

}  // namespace evenfall::ui
