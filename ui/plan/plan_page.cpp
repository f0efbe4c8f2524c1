// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/plan_page.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QUndoCommand>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/label.h"
#include "controls/messages.h"
#include "controls/why.h"
#include "course/day_words.h"
#include "plan/steps_table.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {

namespace {
constexpr int kQuietMilliseconds = 120;  // after the last keystroke, before a computation starts
constexpr int kPanelWidth = 296;
}  // namespace

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
        if (!(page_.panel_->form() == form)) page_.panel_->set_form(form);
        page_.soon_.start();
        page_.judge_signing();
    }
    PlanPage& page_;
    PlanForm before_, after_;
    QString field_;
};

PlanPage::PlanPage(Workbench& workbench, QWidget* parent)
    : Page(workbench, parent),
      stack_(new QStackedWidget),
      empty_(new EmptyState({}, {})),
      panel_(new RequestPanel(workbench.texts())),
      model_([&workbench](const Flag& flag) { return workbench.sentence(flag); }),
      table_(new StepsTable(workbench, model_)),
      summary_(new Label({}, Type::strong)),
      state_(new Label({}, Type::note, Tone::soft_ink)),
      flags_(nullptr),
      flags_card_(new Card),
      sign_(make_button({}, ButtonKind::primary)),
      jobs_([this](const Result<Plan>& result) { show_result(result); }) {
    ask_to_sign = [this](const QString& question, const QString& consequence) {
        return ask_once(question, consequence, sign_->text(), this);
    };
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(kSpace4, kSpace3, kSpace4, kSpace3);
    outer->addWidget(stack_);
    stack_->addWidget(empty_);
    auto* begin = make_button(tr("Record what is taken"), ButtonKind::primary);
    empty_->add_action(begin);
    connect(begin, &QPushButton::clicked, this,
            [this] { emit this->workbench().page_wanted(QStringLiteral("record")); });
    auto* builder = new QWidget;
    auto* row = new QHBoxLayout(builder);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(kSpace4);
    row->addWidget(make_left());
    row->addWidget(make_right(), 1);
    stack_->addWidget(builder);
    soon_.setSingleShot(true);
    soon_.setInterval(kQuietMilliseconds);
    connect(&soon_, &QTimer::timeout, this, &PlanPage::compute);
    connect(panel_, &RequestPanel::edited, this, &PlanPage::edited);
    connect(sign_, &QPushButton::clicked, this, &PlanPage::sign);
}

QWidget* PlanPage::make_left() {
    auto* left = new QWidget;
    auto* column = new QVBoxLayout(left);
    column->setContentsMargins(0, 0, 0, 0);
    auto* scroll = new QScrollArea;
    scroll->setWidget(panel_);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    column->addWidget(scroll, 1);
    auto* row = new QHBoxLayout;
    QAction* undo = undo_.createUndoAction(this, tr("Undo"));
    QAction* redo = undo_.createRedoAction(this, tr("Redo"));
    undo->setShortcut(QKeySequence::Undo);
    redo->setShortcut(QKeySequence::Redo);
    for (QAction* action : {undo, redo}) {
        action->setShortcutContext(Qt::WidgetWithChildrenShortcut);
        addAction(action);
        auto* button = make_button(action == undo ? tr("Undo") : tr("Redo"), ButtonKind::quiet);
        button->setEnabled(false);
        connect(button, &QPushButton::clicked, action, &QAction::trigger);
        connect(action, &QAction::enabledChanged, button, &QWidget::setEnabled);
        row->addWidget(button);
    }
    row->addStretch();
    column->addLayout(row);
    left->setFixedWidth(kPanelWidth);
    return left;
}

QWidget* PlanPage::make_head() {
    auto* head = new QWidget;
    auto* row = new QHBoxLayout(head);
    row->setContentsMargins(0, 0, 0, 0);
    auto* words = new QVBoxLayout;
    words->setSpacing(2);
    words->addWidget(summary_->wrapped());
    words->addWidget(state_->wrapped());
    summary_->setAccessibleDescription(tr("The plan in one line"));
    row->addLayout(words, 1);
    row->addWidget(sign_, 0, Qt::AlignTop);
    return head;
}

QWidget* PlanPage::make_right() {
    auto* right = new QWidget;
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(kSpace2);
    column->addWidget(make_head());
    flags_card_->set_meaning(Tone::presses_fill, Tone::presses);
    flags_ = flags_card_->body();
    column->addWidget(flags_card_);
    column->addWidget(table_, 1);
    flags_card_->hide();
    return right;
}

void PlanPage::refresh() {
    jobs_.stop();
    soon_.stop();
    const PatientRecord* record = workbench().record();
    auto base = record ? plan_base(*record, workbench().course(), workbench().today()) : std::nullopt;
    stack_->setCurrentIndex(base ? 1 : 0);
    if (!base) {
        base_.reset();
        plan_.reset();
        if (record)
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
        plan_.reset();
        model_.clear();
        panel_->begin(*base_, workbench().desk().formulary());
        form_ = panel_->form();
    }
    compute();
}

void PlanPage::edited(const QString& field) {
    const PlanForm now = panel_->form();
    if (!(now == form_)) undo_.push(new FormEdit(*this, form_, now, field));
}

std::optional<PlanJob> PlanPage::job() const {
    const auto request = panel_->request();
    if (!request || !base_) return std::nullopt;
    PlanJob job{*request, {base_->start, panel_->products(), {}, 0}, base_->in_force, panel_->keep()};
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
        return judge_signing();
    }
    if (const Drug* drug = workbench().desk().formulary().find(wanted->request.drug)) {
        for (const ListedProduct& listed : drug->products)
            if (listed.for_steps && !is_modified_release(listed.product.form))
                wanted->input.candidates.push_back(listed.product);
        wanted->input.slowest_half_life_h = slowest_half_life_h(drug->kinetics);
    }
    kept_ = wanted->keep;
    state_->setText(tr("Computing the steps …"));
    jobs_.start([job = std::move(*wanted), rules = workbench().desk().rules()](std::stop_token stop) {
        return compute_plan(job, rules, stop);
    });
    judge_signing();
}

void PlanPage::show_result(const Result<Plan>& result) {
    if (!result) return show_faults(result.faults());
    panel_->show_faults({});
    plan_ = *result;
    model_.set_plan(*plan_, kept_);
    summary_->setText(summary_text(*plan_));
    Dose start = daily_amount(plan_->start, plan_->request.drug);
    state_->setText(tr("From %1 of %2. What is drawn filled is taken; a dashed outline stays.")
                        .arg(daily_text(start), to_text(plan_->request.drug)));
    show_flags();
    judge_signing();
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
    judge_signing();
}

/// The floor and whatever else is true of the whole plan, said out loud above the steps.
void PlanPage::show_flags() {
    while (QLayoutItem* item = flags_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    std::vector<Flag> all = plan_->floor.says;
    for (const Flag& flag : plan_->flags) all.push_back(flag);
    for (const Flag& flag : all) flags_->addWidget(new FlagRow(workbench(), flag, Weight::presses));
    flags_card_->setVisible(!all.empty());
}

QString PlanPage::summary() const {
    return summary_->text();
}

int PlanPage::to_sign() const {
    if (!plan_) return 0;
    int count = 0;
    for (std::size_t i = static_cast<std::size_t>(kept_); i < plan_->steps.size(); ++i)
        count += plan_->steps[i].status == StepStatus::committed;
    return count;
}

bool PlanPage::only_off_is_left() const {
    return plan_ && kept_ > 0 && static_cast<std::size_t>(kept_) + 1 == plan_->steps.size() &&
           plan_->steps.back().daily.is_zero();
}

void PlanPage::judge_signing() {
    const int count = to_sign();
    sign_->setText(only_off_is_left()        ? tr("Agree OFF")
                   : count == 1 && kept_ > 0 ? tr("Sign the next step")
                   : count == 1              ? tr("Sign the first step")
                   : kept_ > 0               ? tr("Sign the next %1 steps").arg(count)
                   : count == 0              ? tr("Sign the first steps")
                                             : tr("Sign the first %1 steps").arg(count));
    const bool nurse = workbench().desk().worker().role != Role::prescriber;
    set_reason_disabled(sign_, nurse
                                   ? tr("Steps are signed by a prescriber. You can prepare and look at them.")
                               : computing()                       ? tr("The steps are being computed.")
                               : count == 0 && !only_off_is_left() ? tr("There are no steps to sign yet.")
                                                                   : QString());
}

/// The step to nothing is agreed on its own, with its milligrams in the question.
void PlanPage::agree_off() {
    const Step& last = plan_->steps[plan_->steps.size() - 2];
    const QString question = tr("Agree OFF on %1, from %2 a day?")
                                 .arg(full_day(plan_->steps.back().starts), amount_text(last.daily));
    const QString consequence =
        tr("This is 100 % of the last dose and the largest step of all. Six months of calls follow: "
           "tolerance is lost, and "
           "an old dose can kill.");
    if (!ask_to_sign(question, consequence)) return;
    Plan agreed = *plan_;
    agreed.steps.back().status = StepStatus::committed;
    workbench().carry_out({PlanCommitted{std::move(agreed), base_->replaces, {}}});
}

void PlanPage::sign() {
    if (!plan_ || computing()) return;
    if (only_off_is_left()) return agree_off();
    if (to_sign() == 0) return;
    const Step& first = plan_->steps[static_cast<std::size_t>(kept_)];
    const Step& last = plan_->steps[static_cast<std::size_t>(kept_ + to_sign()) - 1];
    const QString question =
        to_sign() == 1 ? tr("Sign the step to %1 a day?").arg(amount_text(last.daily))
                       : tr("Sign the %1 steps to %2 a day?").arg(to_sign()).arg(amount_text(last.daily));
    QString consequence =
        tr("From %1 the person takes %2 a day of %3. A signed step cannot be unsigned; it can be replaced by "
           "a new plan. The outlook after it is not agreed.")
            .arg(full_day(first.starts), amount_text(first.daily), to_text(plan_->request.drug));
    if (!base_->replaces.empty())
        consequence += QLatin1Char(' ') + tr("The plan in force is replaced; its papers no longer hold.");
    if (!ask_to_sign(question, consequence)) return;
    workbench().carry_out({PlanCommitted{*plan_, base_->replaces, {}}});
}

}  // namespace evenfall::ui
