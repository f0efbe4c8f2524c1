// SPDX-License-Identifier: GPL-3.0-or-later
#include <QComboBox>
#include <QEvent>
#include <QGridLayout>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPointer>
#include <QPushButton>
#include <QScrollArea>
#include <algorithm>
#include <map>

#include "casework/suitability.h"
#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/sign_dialog.h"
#include "controls/why.h"
#include "record/answer_choice.h"
#include "record/sections.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

/// What the gate found, beside the questions, and the signature beneath it.
class GateCard : public Card {
  public:
    explicit GateCard(Workbench& workbench)
        : workbench_(workbench),
          list_(new QVBoxLayout),
          outcome_(make_choice(tr("Outcome"), {})),
          reason_(make_line(tr("Reason for the outcome"), tr("Reason"))),
          sign_(make_button(tr("Sign the outcome"), ButtonKind::primary)),
          signed_(new Label({}, Type::note, Tone::soft_ink)) {
        body()->addWidget(new SectionHeader(tr("What it rests on"),
                                            tr("The findings suggest; a prescriber decides and signs.")));
        body()->addLayout(list_);
        for (const auto& each : Words<SuitabilityOutcome>::table)
            outcome_->addItem(sentence_word(each.first));
        add_field(*body(), tr("Outcome"), outcome_);
        add_field(*body(), tr("Reason"), reason_);
        body()->addWidget(sign_, 0, Qt::AlignLeft);
        body()->addWidget(signed_->wrapped());
        connect(sign_, &QPushButton::clicked, this, &GateCard::sign);
        connect(outcome_, &QComboBox::activated, this, [this] { chosen_ = true; });
        if (workbench.desk().worker().role != Role::prescriber)
            set_reason_disabled(sign_, tr("A nurse may not sign the outcome. Ask a prescriber."));
    }

    void show_record(const PatientRecord& record) {
        view_ = assess_suitability(record, workbench_.desk().formulary(), workbench_.desk().rules(),
                                   workbench_.today());
        clear();
        const bool asked =
            std::ranges::none_of(view_.missing, [](const Flag& f) { return f.rule == "risk-not-asked"; });
        const bool open = !asked && view_.suggested == SuitabilityOutcome::outpatient_taper;
        auto* suggests = new Label(open ? tr("Cannot be said yet: ask the open questions first.")
                                        : tr("As far as is known: %1").arg(to_text(word(view_.suggested))),
                                   Type::strong, Tone::planned);
        list_->addWidget(suggests->wrapped());
        for (const Flag& flag : view_.findings)
            list_->addWidget(new FlagRow(workbench_, flag, Weight::presses));
        add_missing();
        if (!chosen_)
            outcome_->setCurrentIndex(static_cast<int>(record.suitability ? record.suitability->value.outcome
                                                       : open             ? SuitabilityOutcome::not_now
                                                                          : view_.suggested));
        const auto& entry = record.suitability;
        signed_->setText(entry
                             ? tr("“%1” was signed %2 by %3")
                                   .arg(to_text(word(entry->value.outcome)), text_of_minute(entry->stamp.at),
                                        workbench_.worker_name(entry->stamp.author))
                         : sign_->isEnabled() ? tr("Not signed yet")
                                              : sign_->toolTip());
    }

  private:
    void clear() {
        while (QLayoutItem* item = list_->takeAt(0)) {
            item->widget()->hide();
            item->widget()->deleteLater();
            delete item;
        }
    }

    /// Questions not asked stand in one line; everything else that is missing has its own.
    void add_missing() {
        int not_asked = 0;
        for (const Flag& flag : view_.missing) {
            if (flag.rule == "risk-not-asked")
                ++not_asked;
            else
                list_->addWidget(new FlagRow(workbench_, flag, Weight::note));
        }
        if (not_asked == 0) return;
        auto* says = new Label(tr("%1 of %2 questions not asked yet. Not asked is not the same as no.")
                                   .arg(not_asked)
                                   .arg(kRiskWords.size()),
                               Type::text, Tone::soft_ink);
        list_->addWidget(says->wrapped());
    }

    void sign() {
        const auto outcome = static_cast<SuitabilityOutcome>(outcome_->currentIndex());
        Suitability signed_outcome{outcome, {}, to_utf8(reason_->text().trimmed())};
        for (const Flag& flag : view_.findings) signed_outcome.rests_on.push_back(flag.rule);
        SignRequest request;
        request.question = tr("Sign “%1”?").arg(to_text(word(outcome)));
        request.consequence =
            outcome == SuitabilityOutcome::outpatient_taper
                ? tr("Plans can be signed for this person from then on. Your signature stays on "
                     "the record; a later one can replace it.")
                : tr("Plans then need a reason against this outcome. Your signature stays on the "
                     "record; a later one can replace it.");
        request.commit = tr("Sign");
        request.lines = {{sentence_case(to_text(word(outcome))), {}}};
        if (!signed_outcome.reason.empty()) request.lines[0].details << to_text(signed_outcome.reason);
        request.objections = workbench_.objections({signed_outcome});
        const auto reasons = SignDialog::ask(workbench_, request, window());
        if (!reasons) return;
        chosen_ = false;
        if (workbench_.carry_out({signed_outcome}, *reasons)) reason_->clear();
    }

    Workbench& workbench_;
    QVBoxLayout* list_;
    QComboBox* outcome_;
    QLineEdit* reason_;
    QPushButton* sign_;
    Label* signed_;
    SuitabilityView view_;
    bool chosen_ = false;
};

class RiskSection : public RecordSection {
  public:
    explicit RiskSection(Workbench& workbench)
        : RecordSection(workbench, tr("Risk screen"),
                        tr("Not asked is not the same as no. Y, N and Backspace answer; Tab goes on.")),
          note_(make_lines(tr("Note"), 2)),
          gate_(new GateCard(workbench)) {
        auto* grid = new QGridLayout;
        grid->setHorizontalSpacing(kSpace3);
        grid->setVerticalSpacing(kSpace1);
        int row = 0;
        for (const std::string& question : kRiskWords) {
            const QString text = sentence_case(to_text(question));
            auto* choice = new AnswerChoice(text);
            grid->addWidget(new Label(text), row, 0);
            grid->addWidget(choice, row++, 1);
            choices_[question] = choice;
            connect(choice, &AnswerChoice::answered, this, &RiskSection::mark_dirty);
        }
        grid->setColumnStretch(0, 1);
        columns_ = new QBoxLayout(QBoxLayout::LeftToRight);
        columns_->setSpacing(kSpace4);
        auto* left = new QVBoxLayout;
        left->addLayout(grid);
        add_field(*left, tr("Note"), note_);
        left->addStretch();
        auto* right = new QVBoxLayout;
        right->addWidget(gate_);
        right->addStretch();
        columns_->addLayout(left);
        columns_->addLayout(right, 1);
        body().addLayout(columns_);
        watch(note_);
    }

  protected:
    void load(const PatientRecord& record) override {
        const RiskScreen screen = record.risks ? record.risks->value : RiskScreen{};
        for (auto& [question, choice] : choices_) {
            const auto found = screen.answers.find(question);
            choice->set_answer(found == screen.answers.end() ? Answer::not_asked : found->second);
        }
        note_->setPlainText(to_text(screen.note));
        gate_->show_record(record);
        tell_entry(record.risks ? &record.risks->stamp : nullptr);
    }
    std::optional<std::vector<Change>> collect() override {
        RiskScreen screen;
        for (const auto& [question, choice] : choices_) screen.answers[question] = choice->answer();
        screen.note = to_utf8(note_->toPlainText().trimmed());
        return std::vector<Change>{screen};
    }
    QWidget* field_at(const QString& place) override {
        const auto found = choices_.find(to_utf8(place));
        return found == choices_.end() ? static_cast<QWidget*>(note_) : found->second;
    }

    /// The findings stand beside the questions where there is room, above them where there is not.
    void showEvent(QShowEvent* event) override {
        RecordSection::showEvent(event);
        for (QWidget* up = parentWidget(); up && !room_; up = up->parentWidget())
            if (auto* scroll = qobject_cast<QScrollArea*>(up)) room_ = scroll->viewport();
        if (!room_) return;
        room_->installEventFilter(this);
        fit();
    }

    bool eventFilter(QObject* watched, QEvent* event) override {
        if (watched == room_ && event->type() == QEvent::Resize) fit();
        return RecordSection::eventFilter(watched, event);
    }

  private:
    void fit() {
        constexpr int kRoomForTwo = 590;
        columns_->setDirection(room_->width() < kRoomForTwo ? QBoxLayout::BottomToTop
                                                            : QBoxLayout::LeftToRight);
    }

    QBoxLayout* columns_ = nullptr;
    QPointer<QWidget> room_;
    std::map<std::string, AnswerChoice*> choices_;
    QPlainTextEdit* note_;
    GateCard* gate_;
};

}  // namespace

RecordSection* make_risk_section(Workbench& workbench) {
    return new RiskSection(workbench);
}

}  // namespace evenfall::ui
