// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/lock.h"

#include <QApplication>
#include <QDialog>
#include <QEvent>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include "controls/buttons.h"
#include "controls/label.h"
#include "shell/task.h"
#include "shell/unlock_wait.h"
#include "texts/render.h"
#include "theme/icons.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

/// A dialog or a popover that stays open would show above the cover what the cover is there to hide.
void close_other_windows(const QWidget& window) {
    for (QWidget* open : QApplication::topLevelWidgets()) {
        if (open == &window || !open->isVisible()) continue;
        if (auto* dialog = qobject_cast<QDialog*>(open))
            dialog->reject();
        else
            open->close();
    }
}

}  // namespace

Lock Lock::of(Prove prove) {
    return {[prove = std::move(prove)](const std::string& typed) -> Result<std::function<Result<Done>()>> {
                if (const auto proved = prove(typed); !proved) return proved.faults();
                return std::function<Result<Done>()>([]() -> Result<Done> { return Done{}; });
            },
            {}};
}

LockCover::LockCover(const Texts& texts, const QString& worker, Lock lock, QWidget* window)
    : QWidget(window),
      texts_(texts),
      lock_(std::move(lock)),
      window_(window),
      passphrase_(new QLineEdit),
      open_(make_button(tr("Uncover"), ButtonKind::primary)),
      says_(new Label({}, Type::text, Tone::danger)),
      task_(new Task(this)),
      wait_(new UnlockWait(
          [this](const Faults& faults, int left) {
              open_->setEnabled(left <= 0);
              show_faults(faults);
          },
          this)) {
    hide();
    setAccessibleName(tr("The window is covered"));
    passphrase_->setEchoMode(QLineEdit::Password);
    passphrase_->setAccessibleName(tr("Passphrase of %1").arg(worker));
    passphrase_->setPlaceholderText(tr("Passphrase of %1").arg(worker));
    passphrase_->setFixedWidth(320);
    says_->wrapped()->setFixedWidth(320);
    auto* column = new QVBoxLayout(this);
    column->setSpacing(kSpace3);
    column->addStretch(2);
    column->addWidget(new Label(tr("Covered"), Type::title), 0, Qt::AlignHCenter);
    column->addWidget(
        new Label(tr("What was typed into the record is still there."), Type::text, Tone::soft_ink), 0,
        Qt::AlignHCenter);
    column->addWidget(passphrase_, 0, Qt::AlignHCenter);
    column->addWidget(open_, 0, Qt::AlignHCenter);
    column->addWidget(says_, 0, Qt::AlignHCenter);
    column->addStretch(3);
    connect(open_, &QPushButton::clicked, this, &LockCover::try_passphrase);
    connect(passphrase_, &QLineEdit::returnPressed, this, &LockCover::try_passphrase);
    window_->installEventFilter(this);
}

LockCover::~LockCover() = default;

void LockCover::cover() {
    if (isVisible()) return;
    focus_before_ = QApplication::focusWidget();
    close_other_windows(*window_);
    says_->clear();
    passphrase_->clear();
    // What lies beneath must not be reached by Tab or by a screen reader while it is covered.
    for (QObject* child : window_->children())
        if (auto* widget = qobject_cast<QWidget*>(child); widget && widget != this && !widget->isWindow())
            widget->setEnabled(false);
    setGeometry(window_->rect());
    show();
    raise();
    passphrase_->setFocus();
    if (lock_.forget) lock_.forget();  // last: being disabled, the pages sealed what was being typed
}

void LockCover::try_passphrase() {
    if (task_->is_running() || wait_->is_waiting()) return;
    open_->setText(tr("Checking…"));
    open_->setEnabled(false);
    task_->run([unlock = lock_.unlock, typed = to_utf8(passphrase_->text())] { return unlock(typed); },
               [this](const Result<std::function<Result<Done>()>>& result) { judge(result); });
}

void LockCover::judge(const Result<std::function<Result<Done>()>>& unlocked) {
    const Result<Done> result = unlocked ? (*unlocked)() : Result<Done>(unlocked.faults());
    open_->setText(tr("Uncover"));
    open_->setEnabled(true);
    passphrase_->clear();
    if (!result) {
        wait_->begin(result.faults());
        if (!wait_->is_waiting()) show_faults(result.faults());
        passphrase_->setFocus();
        return;
    }
    for (QObject* child : window_->children())
        if (auto* widget = qobject_cast<QWidget*>(child); widget && widget != this && !widget->isWindow())
            widget->setEnabled(true);
    hide();
    if (focus_before_) focus_before_->setFocus();
    emit uncovered();
}

void LockCover::show_faults(const Faults& faults) {
    QStringList lines;
    for (const Fault& fault : faults) lines << to_text(texts_.text(fault.id, fault.args));
    says_->setText(lines.join(u'\n'));
}

bool LockCover::eventFilter(QObject* watched, QEvent* event) {
    if (watched == window_ && event->type() == QEvent::Resize) setGeometry(window_->rect());
    return QWidget::eventFilter(watched, event);
}

void LockCover::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), tone(Tone::surface));
    draw_icon(painter, QStringLiteral("evenfall"), QRectF(width() / 2.0 - 28, height() * 0.22, 56, 56),
              Tone::planned);
}

IdleWatch::IdleWatch(std::chrono::minutes after, QObject* parent) : QObject(parent) {
    timer_.setSingleShot(true);
    timer_.setInterval(after);
    connect(&timer_, &QTimer::timeout, this, &IdleWatch::idle);
    qApp->installEventFilter(this);
    timer_.start();
}

bool IdleWatch::eventFilter(QObject*, QEvent* event) {
    switch (event->type()) {
        case QEvent::KeyPress:
        case QEvent::MouseMove:
        case QEvent::MouseButtonPress:
        case QEvent::Wheel:
        case QEvent::TouchBegin:
            timer_.start();
            break;
        default:
            break;
    }
    return false;
}

}  // namespace evenfall::ui
