// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>

#include "casework/plan_base.h"

class QAction;
class QMenu;
class QPushButton;
class QToolButton;

namespace evenfall::ui {

/// What can be done with a plan beside signing its next steps.
enum class PlanAct {
    hold,
    go_on,
    cross_over,
    compare,
    stay,
    end,
    back_up,
    judge,
    supply,
    slower,        ///< longer stays, smaller cuts
    smaller_next,  ///< only the next cut
    move_next,     ///< the next step late or early
    products,      ///< other products from the next step on
    lower_end,     ///< a partial taper
    after_break    ///< from what is taken after missed doses or a stop in hospital
};

/// The acts in a row: the usual ones as buttons, the rest behind "More". One that cannot be done says why.
class PlanActs : public QWidget {
    Q_OBJECT
  public:
    explicit PlanActs(QWidget* parent = nullptr);

    /// Puts the page's own button before the acts.
    void begin_with(QPushButton* button);
    /// What stands: the base, whether a prescriber works here, whether a plan is on the table, and whether
    /// its next step is a stage of a crossover.
    void judge(const std::optional<PlanBase>& base, bool prescriber, bool has_plan, bool can_compare,
               bool stage_next);

  signals:
    void wanted(evenfall::ui::PlanAct act);

  private:
    QPushButton* add_button(const QString& text, PlanAct act);
    QAction* add_item(QMenu* menu, const QString& text, PlanAct act);
    static void allow(QAction* item, const QString& reason);

    QPushButton *hold_, *go_on_, *cross_, *compare_;
    QPushButton *adjust_, *more_;
    QMenu *adjust_menu_, *menu_;
    std::vector<QAction*> adjusting_;
    QAction *smaller_, *break_;
    QAction *stay_, *end_, *back_up_, *judge_, *supply_;
};

}  // namespace evenfall::ui
