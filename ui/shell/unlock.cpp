// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/unlock.h"

#include <QLineEdit>
#include <QPainter>
#include <QPushButton>
#include <QRandomGenerator>
#include <QRegularExpression>
#include <QVBoxLayout>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/secret_line.h"
#include "shell/join_step.h"
#include "shell/print_key.h"
#include "shell/task.h"
#include "shell/unlock_wait.h"
#include "store/exchange_file.h"
#include "texts/render.h"
#include "theme/icons.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

/// Enter in any field of a form commits the step.
void commit_on_enter(UnlockStep* step) {
    for (QLineEdit* line : step->findChildren<QLineEdit*>())
        QObject::connect(line, &QLineEdit::returnPressed, step->commit_button(), &QPushButton::click);
}

}  // namespace

UnlockWindow::UnlockWindow(std::filesystem::path file, const Texts& texts, StoreOptions options,
                           QWidget* parent)
    : QWidget(parent),
      file_(std::move(file)),
      texts_(texts),
      options_(std::move(options)),
      task_(new Task(this)),
      wait_(new UnlockWait([this](const Faults& faults, int left) { wait(faults, left); }, this)),
      steps_(new QStackedWidget) {
    setWindowTitle(QStringLiteral("Evenfall"));
    resize(960, 720);
    for (QWidget* step : {make_unlock(), make_first_run(), make_key_step(), make_recovery(), make_join()})
        steps_->addWidget(step);
    auto* column = new QVBoxLayout(this);
    column->addSpacing(84);
    column->addStretch(1);
    column->addWidget(steps_, 0, Qt::AlignHCenter);
    column->addStretch(2);
    std::error_code error;
    const bool is_there = std::filesystem::exists(file_, error);
    steps_->setCurrentWidget(is_there ? unlock_ : first_run_);
    (is_there ? user_ : clinic_)->setFocus();
}

UnlockWindow::~UnlockWindow() = default;

QWidget* UnlockWindow::make_unlock() {
    unlock_ = new UnlockStep(tr("Good to see you"),
                             tr("Everything here is sealed. Your passphrase opens it; nothing leaves this "
                                "computer."),
                             tr("Open"));
    user_ = make_line(tr("Your name"));
    passphrase_ = make_secret(tr("Your passphrase"));
    add_field(*unlock_->form(), tr("Your name"), user_);
    add_field(*unlock_->form(), tr("Your passphrase"), passphrase_);
    QPushButton* lost = unlock_->add_other(tr("Use the recovery key"));
    connect(lost, &QPushButton::clicked, this, [this] {
        steps_->setCurrentWidget(recovery_);
        typed_key_->setFocus();
    });
    connect(unlock_, &UnlockStep::committed, this, &UnlockWindow::open);
    commit_on_enter(unlock_);
    return unlock_;
}

QWidget* UnlockWindow::make_first_run() {
    first_run_ = new UnlockStep(
        tr("A new store"),
        tr("One sealed file on this computer will hold the clinic's records. You are its first prescriber."),
        tr("Create the store"));
    clinic_ = make_line(tr("Clinic, as its papers name it"));
    name_ = make_line(tr("Your name"));
    licence_ = make_line(tr("Your licence, as your papers bear it"));
    secret_ = make_secret(tr("Passphrase"));
    again_ = make_secret(tr("Passphrase again"));
    QVBoxLayout& form = *first_run_->form();
    add_field(form, tr("Clinic, as its papers name it"), clinic_);
    add_field(form, tr("Your name"), name_);
    add_field(form, tr("Your licence, as your papers bear it"), licence_);
    add_field(form, tr("Passphrase"), secret_,
              tr("At least 8 signs. Four or five unrelated words are strong and easy to keep. Nobody can "
                 "look it up for you."));
    add_field(form, tr("Passphrase again"), again_);
    connect(first_run_->add_other(tr("Join a clinic")), &QPushButton::clicked, this, [this] {
        steps_->setCurrentWidget(join_);
        join_->first_field()->setFocus();
    });
    connect(first_run_, &UnlockStep::committed, this, &UnlockWindow::create);
    commit_on_enter(first_run_);
    return first_run_;
}

QWidget* UnlockWindow::make_key_step() {
    key_step_ = new UnlockStep(tr("The recovery key"),
                               tr("If every passphrase is lost, this key alone opens the records. It is "
                                  "shown once and kept nowhere. "
                                  "Print it or write it down, and lock it away from this computer."),
                               tr("I have it on paper"));
    auto* card = new Card;
    key_text_ = new Label({}, Type::heading);
    key_text_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    card->body()->addWidget(key_text_->wrapped());
    group_ = make_line(tr("One group of the key"));
    group_asks_ = new Label({}, Type::strong);
    group_asks_->setBuddy(group_);
    key_step_->form()->addWidget(card);
    key_step_->form()->addWidget(group_asks_);
    key_step_->form()->addWidget(group_);
    connect(key_step_->add_other(tr("Print it")), &QPushButton::clicked, this, &UnlockWindow::print_key);
    connect(key_step_, &UnlockStep::committed, this, &UnlockWindow::check_group);
    commit_on_enter(key_step_);
    return key_step_;
}

QWidget* UnlockWindow::make_recovery() {
    recovery_ = new UnlockStep(
        tr("Open with the recovery key"),
        tr("With it you can read everything and let a new prescriber in. It cannot sign as anyone."),
        tr("Open"));
    typed_key_ = make_line(tr("Recovery key"));
    add_field(*recovery_->form(), tr("Recovery key"), typed_key_,
              tr("Seven groups of five signs. Case, spaces and hyphens do not matter."));
    connect(recovery_->add_other(tr("Back to the passphrase")), &QPushButton::clicked, this,
            [this] { steps_->setCurrentWidget(unlock_); });
    connect(recovery_, &UnlockStep::committed, this, &UnlockWindow::open_with_key);
    commit_on_enter(recovery_);
    return recovery_;
}

QWidget* UnlockWindow::make_join() {
    join_ = new JoinStep;
    connect(join_->add_other(tr("Back")), &QPushButton::clicked, this, [this] {
        steps_->setCurrentWidget(first_run_);
        clinic_->setFocus();
    });
    connect(join_, &UnlockStep::committed, this, &UnlockWindow::join);
    commit_on_enter(join_);
    return join_;
}

void UnlockWindow::join() {
    if (task_->is_running() || wait_->is_waiting()) return;
    join_->set_busy(tr("Joining…"));
    task_->run(
        [file = file_, exchange = join_->exchange(), user = join_->user(), secret = join_->passphrase(),
         options = options_] { return join_clinic(file, exchange, user, secret, options); },
        [this](Result<Store> result) {
            join_->forget_passphrase();
            take_result(std::move(result), join_);
        });
}

void UnlockWindow::create() {
    if (task_->is_running()) return;
    if (secret_->text() != again_->text())
        return first_run_->say(tr("The two passphrases differ. Type them again."));
    if (clinic_->text().trimmed().isEmpty())
        return first_run_->say(tr("Write the clinic's name: its papers bear it."));
    new_clinic_ = clinic_->text().trimmed();
    NewUser user{to_utf8(name_->text().trimmed()), Role::prescriber, to_utf8(licence_->text().trimmed())};
    first_run_->set_busy(tr("Making keys…"));
    task_->run([file = file_, clinic = to_utf8(new_clinic_), user = std::move(user),
                secret = to_utf8(secret_->text()),
                options = options_] { return Store::create(file, clinic, user, secret, options); },
               [this](Result<Store::Created> result) {
                   first_run_->set_busy({});
                   if (!result) return first_run_->say(words_of(result.faults()));
                   show_key(std::move(*result));
               });
}

void UnlockWindow::show_key(Store::Created created) {
    store_.emplace(std::move(created.store));
    recovery_key_ = to_text(created.recovery_key);
    key_text_->setText(recovery_key_);
    asked_group_ = QRandomGenerator::global()->bounded(1, 8);
    group_asks_->setText(tr("To be sure that it is on paper: what does group %1 say?").arg(asked_group_));
    steps_->setCurrentWidget(key_step_);
    secret_->clear();
    again_->clear();
    group_->setFocus();
}

void UnlockWindow::check_group() {
    static const QRegularExpression gaps(QStringLiteral("[^0-9A-Za-z]+"));
    const QStringList groups = recovery_key_.split(gaps, Qt::SkipEmptyParts);
    const QString typed = group_->text().trimmed().toUpper();
    if (asked_group_ < 1 || asked_group_ > groups.size() || typed != groups[asked_group_ - 1])
        return key_step_->say(
            tr("That is not group %1. Look at your paper and type its five signs.").arg(asked_group_));
    recovery_key_.clear();
    key_text_->clear();
    finish(std::move(*store_));
}

void UnlockWindow::print_key() {
    key_step_->say(print_recovery_key(recovery_key_, new_clinic_, this));
}

void UnlockWindow::open() {
    if (task_->is_running() || wait_->is_waiting()) return;
    unlock_->set_busy(tr("Opening…"));
    task_->run([file = file_, user = to_utf8(user_->text().trimmed()), secret = to_utf8(passphrase_->text()),
                options = options_] { return Store::open(file, user, secret, options); },
               [this](Result<Store> result) { take_result(std::move(result), unlock_); });
}

void UnlockWindow::open_with_key() {
    if (task_->is_running()) return;
    recovery_->set_busy(tr("Opening…"));
    task_->run([file = file_, key = to_utf8(typed_key_->text()),
                options = options_] { return Store::open_with_recovery(file, key, options); },
               [this](Result<Store> result) { take_result(std::move(result), recovery_); });
}

void UnlockWindow::take_result(Result<Store> result, UnlockStep* step) {
    step->set_busy({});
    passphrase_->clear();
    if (result) return finish(std::move(*result));
    waiting_ = step;
    wait_->begin(result.faults());
    if (!wait_->is_waiting()) step->say(words_of(result.faults()));
    passphrase_->setFocus();
}

void UnlockWindow::wait(const Faults& faults, int seconds_left) {
    waiting_->commit_button()->setEnabled(seconds_left <= 0);
    waiting_->say(words_of(faults));
}

void UnlockWindow::tell(const QString& sentence, Tone colour) {
    steps_->setCurrentWidget(unlock_);
    unlock_->say(sentence, colour);
}

void UnlockWindow::finish(Store store) {
    store_.emplace(std::move(store));
    emit opened();
}

std::optional<Store> UnlockWindow::take_store() {
    return std::exchange(store_, std::nullopt);
}

QString UnlockWindow::words_of(const Faults& faults) const {
    QStringList lines;
    for (const Fault& fault : faults) lines << to_text(texts_.text(fault.id, fault.args));
    return lines.join(u'\n');
}

void UnlockWindow::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), tone(Tone::surface));
    draw_icon(painter, QStringLiteral("evenfall"), QRectF(kSpace6, kSpace6, 36, 36), Tone::planned);
    painter.setFont(type(Type::heading));
    painter.setPen(tone(Tone::ink));
    painter.drawText(QRectF(kSpace6 + 48, kSpace6, 300, 36), Qt::AlignVCenter, QStringLiteral("Evenfall"));
}

}  // namespace evenfall::ui
