// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "controls/messages.h"
#include "course/latest.h"
#include "plan/plan_acts.h"
#include "plan/plan_job.h"
#include "plan/request_panel.h"

class QGridLayout;
class QPlainTextEdit;

namespace evenfall::ui {

class DayEdit;
class DoseEdit;
class Label;
class PercentEdit;
class PlanPreview;
class ProductList;
class TypedField;
class WholeEdit;

/// What stands on the table before it is adjusted.
struct AdjustGround {
    PlanBase base;
    PlanJob job;
    Plan plan;
    PlanForm form;
};

/// One adjustment of the plan on the table: what it is, what speaks for it, its fields, the chart with the
/// plan as it stands and as it would be, and the reason. Nothing is written: what comes out is put on the
/// table, where it can be undone, and is kept by a signature.
class AdjustDialog : public QuietDialog {
    Q_OBJECT
  public:
    /// `act` is one of those from `slower` on.
    AdjustDialog(Workbench& workbench, PlanAct act, AdjustGround ground, QWidget* parent = nullptr);

    void accept() override;
    /// The form with the adjustment in it; empty until it was accepted.
    const std::optional<PlanForm>& adjusted() const { return adjusted_; }
    bool computing() const { return jobs_.busy(); }

  private:
    /// An adjustment as it stands in the fields.
    struct Draft {
        PlanForm form;
        PlanJob job;
        std::optional<Share> next_cut{};
        std::optional<FreshStart> fresh{};
        QString words;  ///< for the record
    };
    struct Made {
        Result<Plan> plan;
        std::optional<HandStep> hand{};
    };
    struct DoseField {
        DoseTime dose;
        DoseEdit* edit;
    };

    void make_fields();
    template <class Field>
    Field* add(const QString& name, Field* field, const QString& note = {});
    QWidget* make_inside();
    void add_products();
    void add_doses();
    std::optional<Draft> read() const;
    bool read_pace(Draft& draft) const;
    bool read_fresh(Draft& draft) const;
    static Made make(const Draft& draft, const Plan& plan, const Rules& rules, std::stop_token stop);
    void changed();
    void show_made(const Made& made);
    void show_next(const Plan& plan);
    void show_faults(const Faults& faults);
    void show_missed();
    void judge();
    std::string reason() const;
    QString drug() const;

    Workbench& workbench_;
    PlanAct act_;
    AdjustGround ground_;
    WholeEdit* days_ = nullptr;
    PercentEdit* share_ = nullptr;
    DayEdit* day_ = nullptr;
    DoseEdit* end_ = nullptr;
    ProductList* products_ = nullptr;
    std::vector<DoseField> doses_;
    QVBoxLayout* inside_;
    QGridLayout* fields_;
    QVBoxLayout* notes_;
    PlanPreview* preview_;
    Label* before_;
    Label* after_;
    Label* says_;
    QVBoxLayout* flags_;
    QPlainTextEdit* reason_;
    QPushButton* commit_ = nullptr;
    std::optional<Made> made_;
    std::optional<PlanForm> adjusted_;
    Latest<Made> jobs_;
};

}  // namespace evenfall::ui
