// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>

#include "casework/plan_base.h"

namespace evenfall::ui {

class LogDoseChart;

/// The dose chart before anything is kept: the plan in force as a whole line, what is on the table dashed, on
/// one log scale. Where a crossover is in either, both are drawn as diazepam by the usual equivalence.
class PlanPreview : public QWidget {
    Q_OBJECT
  public:
    explicit PlanPreview(QWidget* parent = nullptr);

    void show_plans(const std::optional<Plan>& in_force, const std::optional<Plan>& shown,
                    const Formulary& formulary, Day today);
    QSize sizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void lay_out();
    QRectF plot() const;
    LogDoseChart* chart_;
    double first_ = 0, last_ = 1, today_ = 0;
    Day first_day_{}, last_day_{};
    bool as_diazepam_ = false, has_force_ = false;
};

}  // namespace evenfall::ui
