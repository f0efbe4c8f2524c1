// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/plan_decisions.h"

#include <QCoreApplication>
#include <QPlainTextEdit>
#include <QPushButton>
#include <algorithm>

#include "controls/buttons.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/messages.h"
#include "controls/typed_field.h"
#include "controls/why.h"
#include "course/day_words.h"
#include "plan/step_dialog.h"
#include "shell/workbench.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

struct Say {
    Q_DECLARE_TR_FUNCTIONS(PlanDecisions)
};

QString daily_words(const Regimen& regimen) {
    QStringList each;
    for (const std::string& agent : agents_of(regimen))
        each << Say::tr("%1 of %2").arg(daily_text(daily_amount(regimen, agent)), to_text(agent));
    return each.join(QStringLiteral(", "));
}

QString dose_now(const PlanBase& base) {
    return daily_words(base.now);
}

/// What a hold from that day keeps; a step that begins on the very day may have been taken already.
QString hold_words(const Course& course, const PlanBase& base, Day from) {
    const Stretch* kept = kept_by_hold(course, from);
    if (!kept) return Say::tr("Nothing is known of what is taken on the day before.");
    Regimen regimen;
    for (const PlannedDose& dose : kept->doses)
        regimen.doses.push_back({dose.at, dose.drug, dose.amount, {}, {}});
    QString words = Say::tr("From %1 on, what is taken on the day before stays: %2.")
                        .arg(full_day(from), daily_words(regimen));
    const bool begins = base.in_force && std::ranges::any_of(base.in_force->steps, [&](const Step& step) {
                            return step.status == StepStatus::committed && step.starts == from;
                        });
    if (begins)
        words += Say::tr(" The signed step of that day does not begin. Where it was begun, hold from %1.")
                     .arg(full_day(from + days(1)));
    return words;
}

/// A question with a reason beneath it; the button that commits waits for the reason.
class ReasonDialog : public QuietDialog {
  public:
    ReasonDialog(const Workbench& workbench, const QString& question, const QString& consequence,
                 QWidget* parent)
        : QuietDialog(question, consequence, parent),
          least_(workbench.desk().rules().whole("override-reason", "letters")) {}

    void finish(const QString& commit) {
        reason_ = make_lines(Say::tr("Reason"), 3);
        reason_->setTabChangesFocus(true);
        add_field(*body(), Say::tr("Reason"), reason_, Say::tr("It goes on the record under your name."));
        commit_ = set_buttons(commit, Say::tr("Go back"));
        connect(reason_, &QPlainTextEdit::textChanged, this, &ReasonDialog::judge);
        for (TypedField* field : findChildren<TypedField*>())
            connect(field, &TypedField::edited, this, &ReasonDialog::judge);
        judge();
        if (auto* first = findChild<TypedField*>())
            first->edit()->setFocus();
        else
            reason_->setFocus();
    }
    std::string reason() const { return to_utf8(reason_->toPlainText().trimmed()); }

  private:
    void judge() {
        bool fields = true;
        for (TypedField* field : findChildren<TypedField*>())
            fields = fields && !field->is_refused() && !field->is_blank();
        const bool told = static_cast<int>(reason().size()) >= least_;
        set_reason_disabled(commit_, !fields ? Say::tr("A field is still open.")
                                     : !told ? Say::tr("Write a reason, in at least %1 letters.").arg(least_)
                                             : QString());
    }
    int least_;
    QPlainTextEdit* reason_ = nullptr;
    QPushButton* commit_ = nullptr;
};

}  // namespace

bool ask_to_hold(Workbench& workbench, const PlanBase& base, QWidget* parent) {
    ReasonDialog dialog(
        workbench, base.hold ? Say::tr("Hold the dose longer?") : Say::tr("Hold the dose?"),
        Say::tr("Signed steps of that day and later do not begin, and their papers no longer hold. Time "
                "alone never resumes the taper: the hold lasts until a new plan is signed. Supply has to "
                "cover it."),
        parent);
    auto* from = new DayEdit(workbench.texts(), Say::tr("Hold from"));
    auto* review = new DayEdit(workbench.texts(), Say::tr("Review the hold on"));
    from->set_required(true);
    review->set_required(true);
    // A longer hold goes on from its own first day.
    const Day begins = base.hold ? base.hold->from : base.today;
    from->set_day(begins);
    const int usual = workbench.desk().rules().whole("decide-two-holds", "days_per_hold");
    review->set_day(base.today + days(usual));
    // The review follows the first day until it is typed over.
    QObject::connect(from, &TypedField::edited, review, [from, review, usual, last = base.today]() mutable {
        if (!from->day() || review->day() != last + days(usual)) return;
        last = *from->day();
        review->set_day(last + days(usual));
    });
    add_field(*dialog.body(), Say::tr("Hold from"), from);
    auto* keeps = new Label(hold_words(workbench.course(), base, begins), Type::strong);
    dialog.body()->addWidget(keeps->wrapped());
    QObject::connect(from, &TypedField::edited, keeps, [&workbench, &base, from, keeps] {
        if (from->day()) keeps->setText(hold_words(workbench.course(), base, *from->day()));
    });
    add_field(*dialog.body(), Say::tr("Review the hold on"), review,
              Say::tr("Usually after %1 days.").arg(usual));
    dialog.finish(base.hold ? Say::tr("Hold longer") : Say::tr("Hold the dose"));
    if (dialog.exec() != QDialog::Accepted) return false;
    return workbench.carry_out({HoldStarted{*from->day(), *review->day(), dialog.reason()}});
}

std::optional<Day> ask_to_go_on(Workbench& workbench, const PlanBase& base, QWidget* parent) {
    QuietDialog dialog(
        Say::tr("Go on from %1?").arg(dose_now(base)),
        Say::tr("The outlook is built anew from the dose in force. Nothing begins by this: the hold lasts "
                "until you sign the next steps."),
        parent);
    auto* day = new DayEdit(workbench.texts(), Say::tr("Next reduction on"));
    day->set_required(true);
    day->set_day(first_free_day(base, base.agreed));
    add_field(*dialog.body(), Say::tr("Next reduction on"), day);
    QPushButton* commit = dialog.set_buttons(Say::tr("Build the steps"), Say::tr("Go back"));
    QObject::connect(day, &TypedField::edited, commit,
                     [day, commit] { commit->setEnabled(day->day().has_value()); });
    day->edit()->setFocus();
    if (dialog.exec() != QDialog::Accepted) return std::nullopt;
    return day->day();
}

namespace {

bool ask_for_the_end(Workbench& workbench, const PlanBase& base, ReasonDialog& dialog, const QString& commit,
                     const std::string& begins) {
    dialog.finish(commit);
    if (dialog.exec() != QDialog::Accepted) return false;
    const PatientRecord* record = workbench.record();
    return record && workbench.carry_out(end_plan(base, use_of(*record), begins + dialog.reason()));
}

}  // namespace

bool ask_to_stay(Workbench& workbench, const PlanBase& base, QWidget* parent) {
    ReasonDialog dialog(
        workbench, Say::tr("Stay at %1?").arg(dose_now(base)),
        Say::tr("This dose becomes the maintenance dose from today. The steps that were signed or planned "
                "after it are no longer followed; their papers no longer hold. Less than before is risk "
                "already lowered. A new taper can be planned from it at any time."),
        parent);
    return ask_for_the_end(workbench, base, dialog, Say::tr("Stay at this dose"), "Maintenance: ");
}

bool ask_to_end(Workbench& workbench, const PlanBase& base, QWidget* parent) {
    const QString dose = base.now.doses.empty() ? Say::tr("nothing") : dose_now(base);
    ReasonDialog dialog(
        workbench, Say::tr("End the plan?"),
        Say::tr("The plan is no longer followed from today. The person goes on with %1: ending a plan is not "
                "stopping the medicine, which must never stop suddenly. Steps that were signed do not begin; "
                "their papers no longer hold.")
            .arg(dose),
        parent);
    return ask_for_the_end(workbench, base, dialog, Say::tr("End the plan"), "");
}

std::optional<HandStep> ask_to_go_back_up(Workbench& workbench, const PlanBase& base, QWidget* parent) {
    StepDialog dialog(
        workbench, *base.in_force, base.begun, base.now, Say::tr("Go back up from %1?").arg(dose_now(base)),
        Say::tr("A separate act with its own signature and reason. What it costs, and what else "
                "could be done:"),
        parent);
    for (const char* option : {"option-previous-dose", "option-hold", "option-slower", "option-treat"})
        dialog.add_note(Flag{option, {}, {}});
    dialog.wants_more_than(daily_amount(base.now, base.in_force->request.drug));
    dialog.offer(Say::tr("Sign going back up…"));
    dialog.set_day(base.today);
    if (dialog.exec() != QDialog::Accepted) return std::nullopt;
    return dialog.step();
}

}  // namespace evenfall::ui
