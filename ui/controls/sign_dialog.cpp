// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/sign_dialog.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QScrollArea>
#include <algorithm>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/why.h"
#include "shell/task.h"
#include "shell/workbench.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {

namespace {
constexpr int kDialogWidth = 560;
constexpr int kMostHeight = 380;  // of what is signed, before it scrolls
}  // namespace

SignDialog::SignDialog(Workbench& workbench, const SignRequest& request, QWidget* parent)
    : QuietDialog(request.question, request.consequence, parent),
      workbench_(workbench),
      commit_text_(request.commit),
      least_letters_(static_cast<std::size_t>(workbench.desk().rules().whole("override-reason", "letters"))),
      task_(new Task(this)) {
    setMinimumWidth(kDialogWidth);
    add_person();
    auto* inside = new QWidget;
    auto* column = new QVBoxLayout(inside);
    column->setContentsMargins(0, 0, kSpace2, 0);
    column->setSpacing(kSpace2);
    add_lines(*column, request);
    add_objections(*column, request);
    column->addStretch();
    auto* scroll = new QScrollArea;
    scroll->setWidget(inside);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    inside->ensurePolished();
    const int wanted = inside->layout()->hasHeightForWidth()
                           ? inside->layout()->totalHeightForWidth(kDialogWidth - 2 * kSpace6)
                           : inside->sizeHint().height();
    scroll->setMinimumHeight(std::min(wanted + kSpace1, kMostHeight));
    body()->addWidget(scroll, 1);
    add_proof();
    commit_ = set_buttons(commit_text_, tr("Go back"));
    commit_->setDefault(false);
    commit_->setAutoDefault(false);
    disconnect(commit_, &QPushButton::clicked, this, &QDialog::accept);
    connect(commit_, &QPushButton::clicked, this, &SignDialog::commit);
    for (QPushButton* each : findChildren<QPushButton*>())
        if (each->text() == tr("Go back")) leave_ = each;
    judge();
    if (passphrase_)
        passphrase_->setFocus();
    else
        leave_->setFocus();
}

SignDialog::~SignDialog() = default;

/// Whom it is for and who signs, so that nothing is signed for the wrong person.
void SignDialog::add_person() {
    const PatientRecord* record = workbench_.record();
    if (!record || !record->person) return;
    const Person& person = record->person->value;
    auto* who = new Label(tr("For %1, reference %2").arg(to_text(person.name), to_text(person.reference)),
                          Type::strong);
    body()->addWidget(who->wrapped());
    const Worker& worker = workbench_.desk().worker();
    QString by = tr("Signed by %1").arg(to_text(worker.name));
    if (!worker.licence.empty()) by += tr(", licence %1").arg(to_text(worker.licence));
    body()->addWidget((new Label(by, Type::note, Tone::soft_ink))->wrapped());
}

void SignDialog::add_lines(QVBoxLayout& column, const SignRequest& request) {
    for (const SignLine& line : request.lines) {
        auto* card = new Card;
        card->set_meaning(Tone::card, Tone::planned);
        card->body()->setSpacing(2);
        card->body()->addWidget((new Label(line.heading, Type::strong))->wrapped());
        for (const QString& detail : line.details)
            card->body()->addWidget((new Label(detail, Type::text, Tone::soft_ink))->wrapped());
        column.addWidget(card);
    }
}

void SignDialog::add_objections(QVBoxLayout& column, const SignRequest& request) {
    if (request.objections.empty()) return;
    const QString says = request.objections.size() == 1
                             ? tr("A rule stands against this. Your reason goes on the record.")
                             : tr("%1 rules stand against this. Your reasons go on the record.")
                                   .arg(request.objections.size());
    column.addWidget((new Label(says, Type::strong, Tone::presses))->wrapped());
    for (const Objection& objection : request.objections) {
        auto* card = new Card;
        card->set_meaning(Tone::presses_fill, Tone::presses);
        card->body()->addWidget(new FlagRow(workbench_, objection.flag, Weight::presses));
        auto* reason = make_line(tr("Reason for going beyond: %1").arg(workbench_.sentence(objection.flag)),
                                 tr("Reason"));
        connect(reason, &QLineEdit::textChanged, this, &SignDialog::judge);
        card->body()->addWidget(reason);
        reasons_.emplace_back(objection.flag.rule, reason);
        column.addWidget(card);
    }
}

void SignDialog::add_proof() {
    if (!workbench_.prove) {
        auto* says = new Label(tr("Nothing is sealed at this desk (the demo, or a case file): it knows no "
                                  "passphrase. In a clinic's own store a signature asks for it."),
                               Type::note, Tone::soft_ink);
        body()->addWidget(says->wrapped());
        return;
    }
    passphrase_ = make_line(tr("Your passphrase"));
    passphrase_->setEchoMode(QLineEdit::Password);
    passphrase_->setInputMethodHints(Qt::ImhHiddenText | Qt::ImhSensitiveData | Qt::ImhNoPredictiveText);
    auto* field = new QVBoxLayout;
    add_field(*field, tr("Your passphrase"), passphrase_, tr("It signs in your name. Enter signs."));
    fault_ = new Label({}, Type::note, Tone::danger);
    fault_->wrapped();
    fault_->hide();
    field->addWidget(fault_);
    body()->addLayout(field);
    connect(passphrase_, &QLineEdit::textChanged, this, &SignDialog::judge);
    connect(passphrase_, &QLineEdit::returnPressed, this, &SignDialog::commit);
}

void SignDialog::judge() {
    if (!commit_) return;
    const bool reasons = std::ranges::all_of(reasons_, [this](const auto& reason) {
        return to_utf8(reason.second->text().trimmed()).size() >= least_letters_;
    });
    set_reason_disabled(
        commit_, task_->is_running() ? tr("The passphrase is being checked.")
                 : !reasons ? tr("Write a reason for each rule, in at least %1 letters.").arg(least_letters_)
                 : passphrase_ && passphrase_->text().isEmpty() ? tr("Type your passphrase.")
                                                                : QString());
}

void SignDialog::commit() {
    judge();
    if (!commit_->isEnabled()) return;
    if (!passphrase_) return accept();
    fault_->hide();
    commit_->setText(tr("Checking…"));
    task_->run([prove = workbench_.prove, typed = to_utf8(passphrase_->text())] { return prove(typed); },
               [this](const Result<Done>& proved) { judge_proof(proved); });
    judge();
}

void SignDialog::judge_proof(const Result<Done>& proved) {
    commit_->setText(commit_text_);
    passphrase_->clear();
    if (proved) return accept();
    const Fault& fault = proved.faults().front();
    fault_->setText(to_text(workbench_.texts().text(fault.id, fault.args)));
    fault_->show();
    set_wrong(passphrase_, true);
    QAccessibleEvent told(fault_, QAccessible::Alert);
    QAccessible::updateAccessibility(&told);
    judge();
    passphrase_->setFocus();
}

std::vector<Override> SignDialog::overrides() const {
    std::vector<Override> given;
    for (const auto& [rule, reason] : reasons_) given.push_back({rule, to_utf8(reason->text().trimmed())});
    return given;
}

std::optional<std::vector<Override>> SignDialog::ask(Workbench& workbench, const SignRequest& request,
                                                     QWidget* parent) {
    SignDialog dialog(workbench, request, parent);
    if (dialog.exec() != QDialog::Accepted) return std::nullopt;
    return dialog.overrides();
}

}  // namespace evenfall::ui
