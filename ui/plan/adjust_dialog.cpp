// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/adjust_dialog.h"

#include <QGridLayout>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QScrollArea>
#include <algorithm>

#include "controls/buttons.h"
#include "controls/clear_layout.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "controls/why.h"
#include "course/day_words.h"
#include "plan/plan_preview.h"
#include "plan/product_list.h"
#include "plan/steps_model.h"
#include "planning/adjust.h"
#include "shell/workbench.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

constexpr int kWidth = 680, kHeight = 760;

QString question(PlanAct act) {
    switch (act) {
        case PlanAct::slower:
            return AdjustDialog::tr("Slow down?");
        case PlanAct::smaller_next:
            return AdjustDialog::tr("A smaller next cut?");
        case PlanAct::move_next:
            return AdjustDialog::tr("The next step earlier or later?");
        case PlanAct::products:
            return AdjustDialog::tr("Other products?");
        case PlanAct::lower_end:
            return AdjustDialog::tr("Down to a maintenance dose?");
        default:
            return AdjustDialog::tr("Plan anew from what is taken now?");
    }
}

QString lead(PlanAct act) {
    const QString table = AdjustDialog::tr(
        "Signed steps stay as they are. Nothing is signed by this: it is put on the table, where it can be "
        "undone.");
    switch (act) {
        case PlanAct::slower:
            return AdjustDialog::tr("Longer stays and smaller cuts, from the next open step on. %1")
                .arg(table);
        case PlanAct::smaller_next:
            return AdjustDialog::tr("Only the next cut is smaller; after it the target holds again. %1")
                .arg(table);
        case PlanAct::move_next:
            return AdjustDialog::tr("The dose before it stays until then, and what follows moves along. %1")
                .arg(table);
        case PlanAct::products:
            return AdjustDialog::tr("The next open step and all after it are made of these. %1").arg(table);
        case PlanAct::lower_end:
            return AdjustDialog::tr(
                       "A lower dose that is kept is an end of its own: less than before is risk "
                       "already lowered. %1")
                .arg(table);
        default:
            return AdjustDialog::tr(
                "After missed doses, a stop or a change in hospital nothing of the old "
                "plan is kept but what was asked for. The first cut comes no sooner than "
                "one interval after the day since which this is taken. Nothing is signed "
                "by this.");
    }
}

}  // namespace

AdjustDialog::AdjustDialog(Workbench& workbench, PlanAct act, AdjustGround ground, QWidget* parent)
    : QuietDialog(question(act), lead(act), parent),
      workbench_(workbench),
      act_(act),
      ground_(std::move(ground)),
      inside_(new QVBoxLayout),
      fields_(new QGridLayout),
      notes_(new QVBoxLayout),
      preview_(new PlanPreview),
      before_(new Label({}, Type::text, Tone::soft_ink)),
      after_(new Label({}, Type::strong)),
      says_(new Label({}, Type::text, Tone::danger)),
      flags_(new QVBoxLayout),
      reason_(make_lines(tr("Reason"), 2)),
      jobs_([this](const Made& made) { show_made(made); }) {
    // What is long scrolls: the reason and the buttons always have their room.
    auto* scroll = new QScrollArea;
    scroll->setWidget(make_inside());
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    body()->addWidget(scroll, 1);
    reason_->setTabChangesFocus(true);
    add_field(*body(), tr("Reason"), reason_, tr("It goes on the record with your signature."));
    commit_ = set_buttons(tr("Put it on the table"), tr("Go back"));
    connect(reason_, &QPlainTextEdit::textChanged, this, &AdjustDialog::judge);
    changed();
    const int most = parent ? parent->window()->height() : kHeight;
    resize(kWidth, std::min(kHeight, most));
    if (auto* first = findChild<TypedField*>()) first->edit()->setFocus();
}

QWidget* AdjustDialog::make_inside() {
    auto* inside = new QWidget;
    inside->setLayout(inside_);
    inside_->setContentsMargins(2, 2, kSpace2, 2);
    inside_->setSpacing(kSpace3);
    inside_->addLayout(notes_);
    if (act_ == PlanAct::slower || act_ == PlanAct::smaller_next)
        notes_->addWidget(new FlagRow(workbench_, Flag{"option-slower", {}, {}}, Weight::note));
    inside_->addLayout(fields_);
    fields_->setHorizontalSpacing(kSpace3);
    fields_->setColumnStretch(0, 1);
    fields_->setColumnStretch(1, 1);
    make_fields();
    preview_->name_lines(tr("as it stands"), tr("as adjusted"));
    inside_->addWidget(preview_);
    before_->setText(tr("As it stands: %1").arg(summary_text(ground_.plan)));
    for (Label* label : {before_, after_, says_}) inside_->addWidget(label->wrapped());
    inside_->addLayout(flags_);
    inside_->addStretch(1);
    return inside;
}

QString AdjustDialog::drug() const {
    return to_text(ground_.job.request.drug);
}

void AdjustDialog::changed() {
    if (!commit_) return;  // the fields are still being filled
    made_.reset();
    show_missed();
    if (auto draft = read()) {
        jobs_.start([draft = std::move(*draft), plan = ground_.plan, rules = workbench_.desk().rules()](
                        std::stop_token stop) { return make(draft, plan, rules, stop); });
    } else {
        jobs_.stop();
        after_->clear();
        says_->clear();
        clear_layout(*flags_);
        if (act_ == PlanAct::slower && days_->number() && share_->share())
            says_->setText(tr("That is not slower than now: a smaller target, more days, or both."));
        says_->setVisible(!says_->text().isEmpty());
        preview_->show_plans(ground_.plan, std::nullopt, workbench_.desk().formulary(), ground_.base.today);
    }
    judge();
}

/// What is to be heard first after days without the agent.
void AdjustDialog::show_missed() {
    if (act_ != PlanAct::after_break) return;
    clear_layout(*notes_);
    const int without = days_->number().value_or(0);
    if (without < 1) return;
    const Rules& rules = workbench_.desk().rules();
    for (const Flag& flag :
         after_missed(ground_.job.request.drug, without, workbench_.desk().formulary(), rules))
        notes_->addWidget(new FlagRow(workbench_, flag, Weight::presses));
}

void AdjustDialog::show_made(const Made& made) {
    clear_layout(*flags_);
    says_->clear();
    after_->clear();
    if (made.plan) {
        made_ = made;
        after_->setText(tr("As adjusted: %1").arg(summary_text(*made.plan)));
        show_next(*made.plan);
        preview_->show_plans(ground_.plan, *made.plan, workbench_.desk().formulary(), ground_.base.today);
    } else {
        show_faults(made.plan.faults());
        preview_->show_plans(ground_.plan, std::nullopt, workbench_.desk().formulary(), ground_.base.today);
    }
    says_->setVisible(!says_->text().isEmpty());
    judge();
}

/// The next step with what the rules say of it.
void AdjustDialog::show_next(const Plan& plan) {
    const std::size_t next = act_ == PlanAct::after_break ? 0 : static_cast<std::size_t>(ground_.job.keep);
    if (next >= plan.steps.size()) return;
    const Step& step = plan.steps[next];
    const QString dose = step.daily.is_zero() ? tr("OFF on %1").arg(full_day(step.starts))
                                              : tr("%1 from %2, a cut of %3 %")
                                                    .arg(daily_text(step.daily), full_day(step.starts),
                                                         to_text(print_percent(step.percent_of_last)));
    after_->setText(tr("%1\nNext step: %2").arg(after_->text(), dose));
    for (const Flag& flag : step.flags) flags_->addWidget(new FlagRow(workbench_, flag, Weight::presses));
}

void AdjustDialog::show_faults(const Faults& faults) {
    QStringList sentences;
    for (const Fault& fault : faults) sentences << to_text(workbench_.texts().text(fault.id, fault.args));
    says_->setText(sentences.join(QLatin1Char('\n')));
}

std::string AdjustDialog::reason() const {
    return to_utf8(reason_->toPlainText().trimmed());
}

void AdjustDialog::judge() {
    const int least = workbench_.desk().rules().whole("override-reason", "letters");
    const bool told = static_cast<int>(reason().size()) >= least;
    set_reason_disabled(commit_, jobs_.busy() ? tr("The steps are being computed.")
                                 : !made_     ? tr("Nothing is adjusted yet.")
                                 : !told      ? tr("Write a reason, in at least %1 letters.").arg(least)
                                              : QString());
}

void AdjustDialog::accept() {
    auto draft = read();
    if (!draft || !made_ || jobs_.busy() || !commit_->isEnabled()) return;
    PlanForm form = std::move(draft->form);
    if (made_->hand) form.by_hand[ground_.job.keep] = *made_->hand;
    if (draft->fresh) {
        const PlanRequest& request = made_->plan->request;
        form.start = to_text(print_day(request.start));
        if (!request.end_amount) form.end = 0;
        if (!request.last_dose) form.last_dose.clear();
    }
    form.because.push_back(to_utf8(tr("%1. Reason: %2").arg(draft->words, to_text(reason()))));
    adjusted_ = std::move(form);
    QuietDialog::accept();
}

}  // namespace evenfall::ui
