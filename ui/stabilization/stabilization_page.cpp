// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/stabilization_page.h"

#include <QButtonGroup>
#include <QHBoxLayout>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>

#include "casework/record_check.h"
#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/label.h"
#include "stabilization/proposal_card.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {

StabilizationPage::StabilizationPage(Workbench& workbench, QWidget* parent)
    : Page(workbench, parent),
      stack_(new QStackedWidget),
      empty_(new EmptyState({}, {})),
      scroll_(new QScrollArea),
      column_(nullptr),
      ranges_(new QButtonGroup(this)),
      judged_days_(usual_judged_days(workbench.desk().rules())),
      checks_([this](std::shared_ptr<const Checked> checked) { show_check(std::move(checked)); }) {
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, 0);
    outer->setSpacing(kSpace1);
    outer->addWidget(make_ranges());
    outer->addWidget(stack_, 1);
    stack_->addWidget(empty_);
    stack_->addWidget(scroll_);
    scroll_->setFrameShape(QFrame::NoFrame);
    scroll_->setWidgetResizable(true);
    scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll_->setFocusPolicy(Qt::StrongFocus);
    scroll_->setAccessibleName(tr("Stabilization check"));
    clear();
    auto* begin = make_button(tr("Enter a diary day"), ButtonKind::primary);
    empty_->add_action(begin);
    connect(begin, &QPushButton::clicked, this,
            [this] { emit this->workbench().page_wanted(QStringLiteral("diary/enter")); });
}

QWidget* StabilizationPage::make_ranges() {
    auto* holder = new QWidget;
    auto* row = new QHBoxLayout(holder);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(kSpace1);
    row->addStretch();
    row->addWidget(new Label(tr("Judge the last"), Type::note, Tone::soft_ink));
    const int usual = *judged_days_;
    const std::pair<int, QString> choices[] = {
        {14, tr("14 days")}, {28, tr("4 weeks")}, {usual, tr("%1 days").arg(usual)}, {0, tr("All of it")}};
    for (const auto& [days, words] : choices) {
        auto* button = make_button(words, ButtonKind::quiet);
        button->setCheckable(true);
        connect(button, &QPushButton::toggled, button, [button](bool checked) {
            QFont font = button->font();
            font.setBold(checked);
            font.setUnderline(checked);
            button->setFont(font);
        });
        button->setChecked(days == usual);
        button->setAccessibleName(tr("Judge the last: %1").arg(words));
        ranges_->addButton(button, days);
        row->addWidget(button);
        connect(button, &QPushButton::clicked, this,
                [this, wanted = days] { judge_days(wanted == 0 ? std::nullopt : std::optional(wanted)); });
    }
    return holder;
}

void StabilizationPage::judge_days(std::optional<int> days) {
    judged_days_ = days;
    refresh();
}

void StabilizationPage::refresh() {
    checks_.stop();
    const PatientRecord* record = workbench().record();
    const bool has_diary = record && !(record->intake.empty() && record->symptoms.empty());
    for (QAbstractButton* button : ranges_->buttons()) button->setVisible(has_diary);
    ranges_->buttons().front()->parentWidget()->setVisible(has_diary);
    if (!has_diary) {
        checked_.reset();
        clear();
        stack_->setCurrentIndex(0);
        return record ? empty_->set_texts(tr("No diary to judge yet"),
                                          tr("Whether the dosing is regular, whether symptoms come between "
                                             "doses, and which gates are not met "
                                             "before a first cut will stand here. It takes a diary of at "
                                             "least 7 days, better 14."))
                      : empty_->set_texts(tr("No person is chosen"),
                                          tr("Choose someone in the caseload; their check is shown here."));
    }
    CheckRequest request{check_input_of(*record, workbench().course(), workbench().now(), judged_days_),
                         std::make_shared<const Formulary>(workbench().desk().formulary()),
                         std::make_shared<const Rules>(workbench().desk().rules())};
    if (!checked_) {
        empty_->set_texts(tr("Checking the diary"), tr("The figures stand here in a moment."));
        stack_->setCurrentIndex(0);
    }
    checks_.start([request = std::move(request)](std::stop_token stop) { return run_check(request, stop); });
}

void StabilizationPage::clear() {
    auto* holder = new QWidget;
    column_ = new QVBoxLayout(holder);
    column_->setContentsMargins(0, 0, kSpace2, kSpace4);
    column_->setSpacing(kSpace3);
    scroll_->setWidget(holder);
}

Card* StabilizationPage::add_card(const QString& title) {
    auto* card = new Card;
    if (!title.isEmpty()) card->body()->addWidget((new Label(title, Type::heading))->wrapped());
    column_->addWidget(card);
    return card;
}

void StabilizationPage::show_check(std::shared_ptr<const Checked> checked) {
    if (!checked) return;
    checked_ = std::move(checked);
    clear();
    add_answer();
    add_flags();
    add_pictures();
    add_proposals();
    add_measures();
    column_->addStretch();
    stack_->setCurrentIndex(1);
}

bool StabilizationPage::accept(const Proposal& proposal) {
    const PatientRecord* record = workbench().record();
    if (!record || !checked_) return false;
    const Day from = workbench().today() + std::chrono::days(1);
    // The call at the end of the new diary week, unless one stands before it.
    std::optional<Day> contact =
        from + std::chrono::days(workbench().desk().rules().whole("diary-days", "least_days"));
    if (record->next_contact && record->next_contact->value.on >= workbench().today() &&
        record->next_contact->value.on <= *contact)
        contact.reset();
    QStringList doses;
    for (const PlannedDose& dose : proposal.stages.empty() ? proposal.doses : proposal.stages.front().doses)
        doses << tr("%1 %2 %3").arg(text_of(dose.at), to_text(dose.drug), text_of(dose.amount));
    const QString note = tr("From %1: %2. The same daily amount, accepted from the stabilization check. A "
                            "new diary week is asked for, "
                            "before any cut is thought of.")
                             .arg(text_with_weekday(from), doses.join(QStringLiteral(", ")));
    return workbench().carry_out(
        changes_of(proposal, record->regimens.empty() ? Use::scheduled : record->regimens.back().value.use,
                   from, note, contact));
}

}  // namespace evenfall::ui
