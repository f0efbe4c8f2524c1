// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "casework/plan_base.h"
#include "controls/messages.h"
#include "planning/review.h"

class QPlainTextEdit;

namespace evenfall::ui {

class Card;
class Label;
class PlanPreview;
class WholeEdit;

/// A schedule made elsewhere, pasted as lines or as a case file's schedule, judged row by row by the
/// planner's own rules. Its first entries can be taken as steps to sign; each rule that they break then takes
/// a reason.
class ScheduleDialog : public QuietDialog {
    Q_OBJECT
  public:
    ScheduleDialog(Workbench& workbench, const PlanBase& base, const PlanRequest& request,
                   std::vector<Product> products, QWidget* parent = nullptr);

    /// The schedule as a plan, its first entries to sign; empty where it cannot be taken.
    const std::optional<Plan>& plan() const { return plan_; }

  private:
    void load();
    void judge();
    void show_faults(const Faults& faults);
    void show_review(const Review& review);
    void add_row(const ReviewedStep& step, const Review& review);
    Result<Plan> take_over(const Review& review) const;

    Workbench& workbench_;
    PlanBase base_;
    PlanRequest request_;
    std::vector<Product> products_;
    QPlainTextEdit* text_;
    Label* verdict_;
    Label* cannot_;
    QWidget* rows_;
    QVBoxLayout* row_column_;
    PlanPreview* preview_;
    WholeEdit* count_;
    QPushButton* commit_ = nullptr;
    std::vector<DatedRegimen> schedule_;
    std::optional<Plan> plan_;
};

}  // namespace evenfall::ui
