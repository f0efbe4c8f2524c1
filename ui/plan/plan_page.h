// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTimer>
#include <QUndoStack>
#include <functional>

#include "course/latest.h"
#include "plan/plan_base.h"
#include "plan/request_panel.h"
#include "plan/steps_model.h"
#include "shell/workbench.h"

class QPushButton;
class QScrollArea;
class QStackedWidget;
class QVBoxLayout;

namespace evenfall::ui {

class Card;
class EmptyState;
class Label;
class StepsTable;

/// The builder: what is asked for at the left, the steps at the right, computed beside the window's thread
/// while one types. A prescriber signs the first steps; the rest stays an outlook.
class PlanPage : public Page {
    Q_OBJECT

  public:
    explicit PlanPage(Workbench& workbench, QWidget* parent = nullptr);
    void refresh() override;

    /// Asks before signing; tests answer for themselves. (question, consequence) → whether to sign.
    std::function<bool(const QString&, const QString&)> ask_to_sign;

    RequestPanel* panel() const { return panel_; }
    StepsTable* table() const { return table_; }
    const StepsModel& steps() const { return model_; }
    QPushButton* sign_button() const { return sign_; }
    QUndoStack* undo_stack() { return &undo_; }
    /// The plan that is shown; empty while there is none.
    const std::optional<Plan>& plan() const { return plan_; }
    /// Whether a computation is under way or about to start.
    bool computing() const { return jobs_.busy() || soon_.isActive(); }
    QString summary() const;

  private:
    class FormEdit;
    QWidget* make_left();
    QWidget* make_right();
    QWidget* make_head();
    void edited(const QString& field);
    void compute();
    std::optional<PlanJob> job() const;
    void show_result(const Result<Plan>& result);
    void show_faults(const Faults& faults);
    void show_flags();
    void judge_signing();
    void sign();
    int to_sign() const;
    bool only_off_is_left() const;
    void agree_off();

    QStackedWidget* stack_;
    EmptyState* empty_;
    RequestPanel* panel_;
    StepsModel model_;
    StepsTable* table_;
    Label* summary_;
    Label* state_;
    QVBoxLayout* flags_;
    Card* flags_card_;
    QPushButton* sign_;
    QUndoStack undo_;
    PlanForm form_;
    PatientId shown_for_;
    std::optional<PlanBase> base_;
    std::optional<Plan> plan_;
    int kept_ = 0;
    QTimer soon_;
    Latest<Result<Plan>> jobs_;
};

}  // namespace evenfall::ui
