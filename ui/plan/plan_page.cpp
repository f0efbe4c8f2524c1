// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/plan_page.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QStackedWidget>
#include <QUndoCommand>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/label.h"
#include "controls/messages.h"
#include "controls/why.h"
#include "course/day_words.h"
#include "plan/plan_preview.h"
#include "plan/plan_signing.h"
#include "plan/steps_table.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {

/// One edit of the request. Edits of the same field in a row are one.
class PlanPage::FormEdit : public QUndoCommand {
  public:
    FormEdit(PlanPage& page, PlanForm before, PlanForm after, QString field)
        : page_(page), before_(std::move(before)), after_(std::move(after)), field_(std::move(field)) {}
    void undo() override { set(before_); }
    void redo() override { set(after_); }
    int id() const override { return 1; }
    bool mergeWith(const QUndoCommand* other) override {
        const auto* next = static_cast<const FormEdit*>(other);
        if (next->field_ != field_) return false;
        after_ = next->after_;
        setObsolete(after_ == before_);
        return true;
    }

  private:
    void set(const PlanForm& form) {
        page_.form_ = form;
        PlanForm fields = form;
        fields.by_hand.clear();
        fields.crossing.reset();
        fields.from_now.reset();
        fields.because.clear();
        if (!(page_.panel_->form() == fields)) page_.panel_->set_form(form);
        page_.soon_.start();
        page_.judge_signing();
    }
    PlanPage& page_;
    PlanForm before_, after_;
    QString field_;
};

void PlanPage::refresh() {
    jobs_.stop();
    soon_.stop();
    const PatientRecord* record = workbench().record();
    auto base = record ? plan_base(*record, workbench().course(), workbench().today()) : std::nullopt;
    stack_->setCurrentIndex(base ? 1 : 0);
    if (!base) {
        base_.reset();
        plan_.reset();
        if (record && !record->plans.empty())
            empty_->set_texts(
                tr("Nothing is taken any more"),
                tr("The plan has ended at OFF. Tolerance is lost: what was taken before can now "
                   "kill. A new plan would begin with what is taken again, recorded first."));
        else if (record)
            empty_->set_texts(tr("No plan yet"),
                              tr("Steps in pieces that exist will stand here, with their dates. They begin "
                                 "with what is really taken now: record it first."));
        else
            empty_->set_texts(tr("No person is chosen"), tr("Choose someone in the caseload to plan with."));
        return;
    }
    // What was typed stays while the person and what the plan rests on are the same.
    if (base_) base_->today = base->today;
    const bool same = shown_for_ == record->id && base_ == base;
    base_ = std::move(base);
    shown_for_ = record->id;
    if (!same) {
        undo_.clear();
        variants_.clear();
        plan_.reset();
        model_.clear();
        panel_->begin(*base_, workbench().desk().formulary());
        form_ = panel_->form();
        go_to_now_ = true;
    }
    compute();
}

void PlanPage::edited(const QString& field) {
    PlanForm now = panel_->form();
    now.crossing = form_.crossing;
    now.by_hand = form_.by_hand;
    now.from_now = form_.from_now;
    now.because = form_.because;
    // Another agent, or another first day, is another plan: what was set by hand belonged to this one.
    if (now.drug != form_.drug) {
        now.crossing.reset();
        now.from_now.reset();
        now.because.clear();
    }
    if (now.drug != form_.drug || now.start != form_.start) now.by_hand.clear();
    set_form(std::move(now), field);
}

void PlanPage::set_form(PlanForm form, const QString& what) {
    if (!(form == form_)) undo_.push(new FormEdit(*this, form_, std::move(form), what));
}

std::optional<PlanJob> PlanPage::job() {
    const auto request = panel_->request();
    if (!request || !base_) return std::nullopt;
    PlanJob job;
    job.request = *request;
    job.keep = form_.crossing || form_.from_now ? 0 : panel_->keep();
    if (!form_.from_now) job.before = base_->in_force;
    job.crossing = form_.crossing;
    job.by_hand = form_.by_hand;
    job.today = base_->today;
    job.prices = price_list(workbench()).prices;
    std::vector<Product> products = panel_->products();
    const auto add_others = [&](const std::vector<Product>& more) {
        for (const Product& product : more)
            if (product.drug != request->drug) products.push_back(product);
    };
    if (form_.crossing)
        add_others(form_.crossing->products);
    else if (job.before && job.keep > 0)
        add_others(job.before->products);
    const Regimen& ground = form_.from_now ? form_.from_now->now : job.keep > 0 ? base_->start : base_->now;
    job.input = taper_input(workbench().desk().formulary(), request->drug, ground, std::move(products));
    job.input.today = base_->today;
    return job;
}

void PlanPage::compute() {
    soon_.stop();
    auto wanted = job();
    if (!wanted) {
        jobs_.stop();
        plan_.reset();
        model_.clear();
        panel_->show_faults({});
        flags_card_->hide();
        summary_->setText(tr("No steps yet"));
        state_->setText(tr("A field at the left is still open."));
        return show_standing();
    }
    kept_ = wanted->keep;
    state_->setText(tr("Computing the steps …"));
    jobs_.start([job = std::move(*wanted), rules = workbench().desk().rules(),
                 formulary = workbench().desk().formulary()](std::stop_token stop) {
        return make_plan(job, formulary, rules, stop);
    });
    judge_signing();
}

void PlanPage::show_made(const PlanMade& made) {
    if (!made.plan) return show_faults(made.plan.faults());
    panel_->show_faults({});
    plan_ = *made.plan;
    figures_ = made.figures;
    StepsModel::Standing standing{kept_, {}, {}};
    if (kept_ > 0 && base_->begun > 0) standing.in_force = base_->begun - 1;
    for (const auto& [at, hand] : form_.by_hand) standing.by_hand.insert(at);
    const int row = table_->currentIndex().row();
    model_.set_plan(*plan_, std::move(standing));
    if (std::exchange(go_to_now_, false))
        table_->go_to_now();
    else if (row >= 0 && row < model_.rowCount())
        table_->setCurrentIndex(model_.index(row, 0));
    summary_->setText(summary_text(*plan_));
    QStringList now;
    for (const std::string& agent : agents_of(base_->now))
        now << tr("%1 of %2").arg(daily_text(daily_amount(base_->now, agent)), to_text(agent));
    state_->setText(
        tr("Today %1. What is drawn filled is taken; a dashed outline stays. F2 on a step sets it by "
           "hand; + and − move its day, or drag it on the chart.")
            .arg(now.join(QStringLiteral(", "))));
    QStringList because;
    for (const std::string& each : form_.because) because << to_text(each);
    because_->setText(because.join(QLatin1Char('\n')));
    because_->setVisible(!because.isEmpty());
    show_flags();
    say_at_fields();
    show_standing();
}

/// What is said of a field by a rule stands at the field too: a cap that no cut can keep, a day that has
/// passed.
void PlanPage::say_at_fields() {
    static const std::pair<const char*, const char*> places[] = {{"cap-cannot-be-kept", "plan.cap_percent"},
                                                                 {"start-in-past", "plan.start"}};
    std::vector<Flag> flags = plan_->flags;
    if (static_cast<std::size_t>(kept_) < plan_->steps.size())
        for (const Flag& flag : plan_->steps[static_cast<std::size_t>(kept_)].flags) flags.push_back(flag);
    for (const auto& [rule, place] : places)
        for (const Flag& flag : flags)
            if (flag.rule == rule) panel_->say_at(place, workbench().sentence(flag));
}

void PlanPage::show_faults(const Faults& faults) {
    plan_.reset();
    model_.clear();
    flags_card_->hide();
    QStringList elsewhere;
    for (const Fault& fault : panel_->show_faults(faults)) elsewhere << workbench().text(fault);
    summary_->setText(tr("No steps yet"));
    state_->setText(elsewhere.isEmpty() ? tr("See the field marked at the left.")
                                        : elsewhere.join(QLatin1Char('\n')));
    show_standing();
}

/// The floor and whatever else is true of the whole plan, said out loud above the steps. A product that would
/// move the floor can be added from where it is named.
void PlanPage::show_flags() {
    while (QLayoutItem* item = flags_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    std::vector<Flag> all = plan_->floor.says;
    for (const Flag& flag : plan_->flags) all.push_back(flag);
    const auto candidates = candidate_products(workbench().desk().formulary(), plan_->request.drug);
    for (const Flag& flag : all) {
        auto* row = new QWidget;
        auto* line = new QHBoxLayout(row);
        line->setContentsMargins(0, 0, 0, 0);
        line->addWidget(new FlagRow(workbench(), flag, Weight::presses), 1);
        if (const auto product = product_that_moves(flag, candidates)) {
            auto* add = make_button(tr("Add it"));
            add->setAccessibleName(tr("Add %1 to this plan").arg(to_text(product_name(*product))));
            connect(add, &QPushButton::clicked, this,
                    [this, product = *product] { panel_->add_product(product); });
            line->addWidget(add, 0, Qt::AlignTop);
        }
        flags_->addWidget(row);
    }
    flags_card_->setVisible(!all.empty());
}

void PlanPage::show_preview() {
    preview_->show_plans(base_ ? base_->in_force : std::nullopt, plan_, workbench().desk().formulary(),
                         workbench().today());
    std::vector<MovableStep> movable;
    for (int row = 0; plan_ && row < static_cast<int>(plan_->steps.size()); ++row)
        if (can_edit(row))
            movable.push_back({row, model_.number_text(row),
                               plan_->steps[static_cast<std::size_t>(row)].starts, least_day(row)});
    preview_->allow_moving(std::move(movable));
    preview_->choose(table_->currentIndex().row());
}

/// Everything that follows from what is on the table.
void PlanPage::show_standing() {
    const bool prescriber = workbench().desk().worker().role == Role::prescriber;
    acts_->judge(base_, prescriber, plan_.has_value(), variants_.size() + 1 < kMostVariants,
                 plan_ && kept_ < crossover_stages(*plan_));
    std::optional<Variant> on_the_table;
    if (plan_) on_the_table = Variant{{}, form_, figures_, panel_->asks()};
    strip_->show_variants(variants_, on_the_table, price_list(workbench()));
    show_preview();
    judge_signing();
}

QString PlanPage::summary() const {
    return summary_->text();
}

void PlanPage::judge_signing() {
    const int count = plan_ ? count_to_sign(*plan_, kept_) : 0;
    const bool stage = plan_ && kept_ < crossover_stages(*plan_);
    const bool first = kept_ == 0;
    sign_->setText(
        only_off_is_left()    ? tr("Agree OFF")
        : stage && count == 1 ? (first ? tr("Sign the first stage") : tr("Sign the next stage"))
        : stage      ? (first ? tr("Sign the first %1 stages") : tr("Sign the next %1 stages")).arg(count)
        : count == 1 ? (first ? tr("Sign the first step") : tr("Sign the next step"))
        : count == 0 ? tr("Sign the first steps")
                     : (first ? tr("Sign the first %1 steps") : tr("Sign the next %1 steps")).arg(count));
    const bool nurse = workbench().desk().worker().role != Role::prescriber;
    set_reason_disabled(sign_, nurse
                                   ? tr("Steps are signed by a prescriber. You can prepare and look at them.")
                               : computing()                       ? tr("The steps are being computed.")
                               : count == 0 && !only_off_is_left() ? tr("There are no steps to sign yet.")
                                                                   : QString());
}

}  // namespace evenfall::ui
