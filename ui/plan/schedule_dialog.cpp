// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/schedule_dialog.h"

#include <QFile>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QScrollArea>
#include <algorithm>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/clear_layout.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "controls/why.h"
#include "course/day_words.h"
#include "exchange/schedule_text.h"
#include "model/strict_json.h"
#include "plan/plan_preview.h"
#include "planning/by_hand.h"
#include "shell/workbench.h"

namespace evenfall::ui {

namespace {

constexpr int kWidth = 1000, kHeight = 760;
constexpr std::size_t kMostBytes = 1u << 20;
constexpr int kTextWidth = 330;

std::vector<DoseTime> amounts_of(const Regimen& regimen) {
    std::vector<DoseTime> doses = regimen.doses;
    for (DoseTime& dose : doses) dose.how = dose.why = {};
    return doses;
}

}  // namespace

ScheduleDialog::ScheduleDialog(Workbench& workbench, const PlanBase& base, const PlanRequest& request,
                               std::vector<Product> products, QWidget* parent)
    : QuietDialog(
          tr("Judge a schedule made elsewhere"),
          tr("Paste one entry a line, “2026-12-01; 08:00 1 mg clonazepam, 21:00 1.5 mg clonazepam”, or "
             "the schedule of a case file. Nothing is written by judging."),
          parent),
      workbench_(workbench),
      base_(base),
      request_(request),
      products_(std::move(products)),
      text_(make_lines(tr("Schedule"), 12)),
      verdict_(new Label({}, Type::strong)),
      cannot_(new Label({}, Type::note, Tone::danger)),
      rows_(new QWidget),
      row_column_(new QVBoxLayout(rows_)),
      preview_(new PlanPreview),
      count_(new WholeEdit(workbench.texts(), tr("Steps to take over"), 1, 12, tr("steps"))) {
    resize(kWidth, kHeight);
    if (request_.drug.empty() && !base_.agents.empty()) request_.drug = base_.agents.front();
    text_->setTabChangesFocus(true);
    text_->setLineWrapMode(QPlainTextEdit::NoWrap);
    auto* left = new QVBoxLayout;
    add_field(*left, tr("Schedule"), text_);
    auto* load_button = make_button(tr("Load a file…"));
    left->addWidget(load_button, 0, Qt::AlignLeft);
    add_field(*left, tr("Steps to take over"), count_, tr("The rest stays an outlook."));
    text_->setFixedWidth(kTextWidth);
    count_->setFixedWidth(kTextWidth);
    auto* scroll = new QScrollArea;
    scroll->setWidget(rows_);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    row_column_->setContentsMargins(0, 0, kSpace2, 0);
    auto* right = new QVBoxLayout;
    right->addWidget(verdict_->wrapped());
    right->addWidget(scroll, 1);
    right->addWidget(preview_);
    right->addWidget(cannot_->wrapped());
    auto* row = new QHBoxLayout;
    row->setSpacing(kSpace4);
    row->addLayout(left);
    row->addLayout(right, 1);
    body()->addLayout(row, 1);
    count_->set_number(1);
    commit_ = set_buttons(tr("Take it over and sign…"), tr("Leave"));
    commit_->setDefault(false);
    commit_->setAutoDefault(false);
    connect(load_button, &QPushButton::clicked, this, &ScheduleDialog::load);
    connect(text_, &QPlainTextEdit::textChanged, this, &ScheduleDialog::judge);
    connect(count_, &TypedField::edited, this, &ScheduleDialog::judge);
    judge();
    text_->setFocus();
}

void ScheduleDialog::load() {
    const QString path = QFileDialog::getOpenFileName(this, tr("Load a schedule"));
    if (path.isEmpty()) return;
    const auto text = read_text_file(std::filesystem::path(path.toStdString()), kMostBytes);
    if (!text) return show_faults(text.faults());
    text_->setPlainText(to_text(*text));
}

void ScheduleDialog::judge() {
    clear_layout(*row_column_);
    plan_.reset();
    cannot_->clear();
    schedule_.clear();
    preview_->hide();
    const std::string text = to_utf8(text_->toPlainText());
    if (text.find_first_not_of(" \t\r\n") == std::string::npos) {
        verdict_->setText(tr("The rows and what the rules say of each will stand here."));
        return set_reason_disabled(commit_, tr("Paste a schedule first."));
    }
    auto schedule = read_schedule_text(text, workbench_.desk().formulary());
    if (!schedule) return show_faults(schedule.faults());
    schedule_ = *schedule;
    ReviewInput input{schedule_, {}, request_.cap, products_, {}, base_.today};
    const auto review = review_schedule(input, workbench_.desk().formulary(), workbench_.desk().rules());
    if (!review) return show_faults(review.faults());
    show_review(*review);
    auto plan = take_over(*review);
    if (plan) {
        plan_ = std::move(*plan);
        preview_->show_plans(base_.in_force, plan_, workbench_.desk().formulary(), base_.today);
        preview_->show();
    } else {
        QStringList reasons;
        for (const Fault& fault : plan.faults()) reasons << to_text(workbench_.texts().text(fault));
        cannot_->setText(reasons.join(QLatin1Char('\n')));
    }
    const bool prescriber = workbench_.desk().worker().role == Role::prescriber;
    set_reason_disabled(commit_, !prescriber ? tr("Steps are signed by a prescriber.")
                                 : plan_     ? QString()
                                             : tr("This schedule cannot be taken over as it stands."));
}

void ScheduleDialog::show_faults(const Faults& faults) {
    QStringList sentences;
    for (const Fault& fault : faults) sentences << to_text(workbench_.texts().text(fault));
    verdict_->setText(sentences.join(QLatin1Char('\n')));
    set_reason_disabled(commit_, tr("The schedule cannot be read yet."));
}

void ScheduleDialog::show_review(const Review& review) {
    verdict_->setText(
        review.findings.empty()
            ? tr("%1 entries; no rule stands against them.").arg(review.steps.size())
            : tr("%1 entries, %2 findings.").arg(review.steps.size()).arg(review.findings.size()));
    for (const ReviewedStep& step : review.steps) add_row(step, review);
    row_column_->addStretch();
}

void ScheduleDialog::add_row(const ReviewedStep& step, const Review& review) {
    auto* card = new Card;
    card->body()->setSpacing(2);
    QStringList amounts;
    for (const auto& [drug, amount] : step.daily)
        amounts << tr("%1 of %2").arg(daily_text(amount), to_text(drug));
    QString heading = tr("%1 · %2: %3")
                          .arg(step.number + 1)
                          .arg(full_day(step.starts), amounts.join(QStringLiteral(" + ")));
    if (step.percent_of_last && *step.percent_of_last != Share())
        heading += tr(", %1 % of the last").arg(to_text(print_percent(*step.percent_of_last)));
    card->body()->addWidget((new Label(heading, Type::strong))->wrapped());
    bool found = false;
    for (const Finding& finding : review.findings) {
        if (finding.step != step.number) continue;
        card->body()->addWidget(new FlagRow(workbench_, finding.flag, Weight::presses));
        found = true;
    }
    if (found) card->set_meaning(Tone::presses_fill, Tone::presses);
    row_column_->addWidget(card);
}

/// The entries that differ from what is taken now, as steps with pieces; what the review found of them rides
/// along, so that signing asks for a reason.
Result<Plan> ScheduleDialog::take_over(const Review& review) const {
    if (!count_->number()) return Fault{"hand-no-such-step", "steps", {}};
    Plan plan{request_, base_.now, products_, {}, {}, 0, {}};
    plan.request.start = schedule_.front().from;
    for (std::size_t i = 0; i < schedule_.size(); ++i) {
        const bool as_now = plan.steps.empty() && amounts_of(schedule_[i].regimen) == amounts_of(base_.now);
        if (as_now) continue;
        std::optional<int> length;
        if (i + 1 < schedule_.size())
            length = static_cast<int>((schedule_[i + 1].from - schedule_[i].from).count());
        const HandStep hand{schedule_[i].from, amounts_of(schedule_[i].regimen), length};
        auto laid =
            with_hand_step(plan, static_cast<int>(plan.steps.size()), hand, workbench_.desk().rules());
        const bool last_is_off = !laid && schedule_[i].regimen.doses.empty() && i + 1 == schedule_.size();
        if (last_is_off && !plan.steps.empty()) break;  // OFF is agreed on its own
        if (!laid) return laid.faults();
        plan = std::move(*laid);
        for (const Finding& finding : review.findings)
            if (finding.step == static_cast<int>(i) &&
                std::ranges::find(plan.steps.back().flags, finding.flag.rule, &Flag::rule) ==
                    plan.steps.back().flags.end())
                plan.steps.back().flags.push_back(finding.flag);
    }
    if (plan.steps.empty()) return Fault{"review-empty", "schedule", {}};
    for (std::size_t i = 0; i < plan.steps.size(); ++i)
        plan.steps[i].status =
            static_cast<int>(i) < *count_->number() ? StepStatus::committed : StepStatus::outlook;
    return plan;
}

}  // namespace evenfall::ui
