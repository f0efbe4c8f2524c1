// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTimer>
#include <QUndoStack>
#include <functional>

#include "controls/sign_dialog.h"
#include "course/latest.h"
#include "plan/plan_acts.h"
#include "plan/plan_job.h"
#include "plan/request_panel.h"
#include "plan/steps_model.h"
#include "plan/variants_strip.h"
#include "shell/workbench.h"

class QPushButton;
class QScrollArea;
class QStackedWidget;
class QVBoxLayout;

namespace evenfall::ui {

class Card;
class EmptyState;
class Label;
class PlanPreview;
class StepsTable;

/// The builder: what is asked for at the left, the steps at the right, computed beside the window's thread
/// while one types. A prescriber signs the first steps; the rest stays an outlook. Beside it the other
/// decisions: holding, going on, crossing over, staying, ending, going back up.
class PlanPage : public Page {
    Q_OBJECT

  public:
    explicit PlanPage(Workbench& workbench, QWidget* parent = nullptr);
    void refresh() override;
    bool busy() const override { return computing(); }

    /// Puts a signature to whoever works here; tests answer for themselves. Nothing: it was left unsigned.
    std::function<std::optional<std::vector<Override>>(const SignRequest&)> ask_to_sign;

    RequestPanel* panel() const { return panel_; }
    StepsTable* table() const { return table_; }
    PlanPreview* preview() const { return preview_; }
    const StepsModel& steps() const { return model_; }
    QPushButton* sign_button() const { return sign_; }
    QUndoStack* undo_stack() { return &undo_; }
    const std::vector<Variant>& variants() const { return variants_; }
    /// The plan that is shown; empty while there is none.
    const std::optional<Plan>& plan() const { return plan_; }
    /// Whether a computation is under way or about to start.
    bool computing() const { return jobs_.busy() || soon_.isActive(); }
    QString summary() const;

  public slots:
    void act(evenfall::ui::PlanAct act);
    /// Opens a step that is not signed for setting it by hand.
    void edit_step(int row);
    void move_step(int row, int days);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    class FormEdit;
    void fit_above();
    QWidget* make_left();
    QWidget* make_right();
    QWidget* make_head();
    void edited(const QString& field);
    void set_form(PlanForm form, const QString& what);
    void compute();
    std::optional<PlanJob> job();
    void show_made(const PlanMade& made);
    void show_faults(const Faults& faults);
    void show_flags();
    void say_at_fields();
    void show_preview();
    void show_standing();
    void judge_signing();

    void sign();
    bool only_off_is_left() const;
    void agree_off();
    std::vector<Change> what_the_form_rests_on();
    void sign_plan(Plan plan, const SignRequest& request, std::vector<Change> with = {});
    void go_on();
    void go_back_up();
    void cross_over();
    void keep_variant();
    void use_variant(int kept);
    void judge_schedule();
    void show_supply();
    void set_by_hand(int row, const HandStep& hand);
    bool can_edit(int row) const;
    /// The earliest day on which a step may begin.
    Day least_day(int row) const;
    void adjust(PlanAct act);

    QStackedWidget* stack_;
    EmptyState* empty_;
    RequestPanel* panel_;
    StepsModel model_;
    StepsTable* table_;
    Label* summary_;
    Label* state_;
    Label* because_;
    QVBoxLayout* flags_;
    Card* flags_card_;
    PlanActs* acts_;
    QScrollArea* above_;
    PlanPreview* preview_;
    VariantsStrip* strip_;
    QPushButton* sign_;
    QUndoStack undo_;
    PlanForm form_;
    PatientId shown_for_;
    std::optional<PlanBase> base_;
    std::optional<Plan> plan_;
    VariantFigures figures_;
    std::vector<Variant> variants_;
    bool go_to_now_ = false;
    int kept_ = 0;
    QTimer soon_;
    Latest<PlanMade> jobs_;
};

}  // namespace evenfall::ui
