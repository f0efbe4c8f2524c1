// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/why.h"

#include <QFormLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QScreen>

#include "controls/buttons.h"
#include "controls/label.h"
#include "shell/workbench.h"
#include "texts/render.h"
#include "theme/icons.h"
#include "theme/paint_parts.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr int kPopoverWidth = 360;

QString spaced(const std::string& name) {
    return sentence_case(to_text(name).replace(u'_', u' ').replace(u'-', u' '));
}

QString tone_word(Weight weight) {
    if (weight == Weight::danger) return QObject::tr("Danger");
    return weight == Weight::presses ? QObject::tr("Presses") : QObject::tr("Note");
}

void add_row(QFormLayout& form, const QString& name, const QString& value) {
    if (value.isEmpty()) return;
    auto* what = new Label(name, Type::note, Tone::soft_ink);
    auto* says = new Label(value, Type::note);
    says->wrapped()->setTextInteractionFlags(Qt::TextSelectableByMouse);
    form.addRow(what, says);
}

}  // namespace

Explanation explain(const Workbench& workbench, const Flag& flag) {
    Explanation why;
    why.says = workbench.sentence(flag);
    for (const auto& [name, value] : flag.args) why.inputs.emplace_back(spaced(name), to_text(value));
    why.rule = to_text(flag.rule);
    why.source = workbench.source(flag);
    if (const Rule* rule = workbench.desk().rules().find(flag.rule)) {
        QStringList values;
        for (const auto& [name, value] : rule->values)
            values << spaced(name).toLower() + QStringLiteral(" ") + to_text(value);
        why.threshold = values.join(QStringLiteral(", "));
        why.how = rule->how == "memory" ? QObject::tr("from memory, not yet confirmed") : to_text(rule->how);
    }
    return why;
}

Popover::Popover(QWidget* opener) : QFrame(opener, Qt::Popup | Qt::FramelessWindowHint), opener_(opener) {
    setAttribute(Qt::WA_DeleteOnClose);
    setFocusPolicy(Qt::StrongFocus);
    setFixedWidth(kPopoverWidth);
}

void Popover::open() {
    if (layout())
        resize(kPopoverWidth, layout()->heightForWidth(kPopoverWidth) > 0
                                  ? layout()->heightForWidth(kPopoverWidth)
                                  : sizeHint().height());
    QPoint at = opener_->mapToGlobal(QPoint(opener_->width() - width(), opener_->height() + kSpace1));
    const QRect room = opener_->screen()->availableGeometry();
    at.setX(std::clamp(at.x(), room.left(), std::max(room.left(), room.right() - width())));
    if (at.y() + height() > room.bottom())
        at.setY(std::max(room.top(), opener_->mapToGlobal(QPoint()).y() - height() - kSpace1));
    move(at);
    show();
    setFocus();
}

void Popover::keyPressEvent(QKeyEvent* event) {
    if (event->key() != Qt::Key_Escape && event->key() != Qt::Key_Return) return QFrame::keyPressEvent(event);
    close();
    opener_->setFocus();
}

void Popover::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), tone(Tone::card));
    painter.setPen(QPen(tone(Tone::edge), structure_line() * 2));
    painter.drawRect(rect());
}

WhyButton::WhyButton(const Workbench& workbench, Flag flag, QWidget* parent)
    : QPushButton(tr("Why?"), parent), workbench_(workbench), flag_(std::move(flag)) {
    setAutoDefault(false);
    set_button_kind(this, ButtonKind::quiet);
    setCursor(Qt::PointingHandCursor);
    setAccessibleName(tr("Why? %1").arg(workbench.sentence(flag_)));
    connect(this, &QPushButton::clicked, this, [this] { show_explanation(workbench_, flag_, this); });
}

void show_explanation(const Workbench& workbench, const Flag& flag, QWidget* opener) {
    const Explanation why = explain(workbench, flag);
    auto* popover = new Popover(opener);
    popover->setAccessibleName(why.says);
    auto* column = new QVBoxLayout(popover);
    column->setContentsMargins(kSpace4, kSpace3, kSpace4, kSpace3);
    auto* says = new Label(why.says, Type::strong);
    column->addWidget(says->wrapped());
    auto* form = new QFormLayout;
    form->setHorizontalSpacing(kSpace3);
    form->setVerticalSpacing(kSpace1);
    form->setRowWrapPolicy(QFormLayout::DontWrapRows);
    for (const auto& [name, value] : why.inputs) add_row(*form, name, value);
    add_row(*form, QObject::tr("Rule"), why.rule);
    add_row(*form, QObject::tr("Threshold"), why.threshold);
    add_row(*form, QObject::tr("Source"), why.source);
    add_row(*form, QObject::tr("Known from"), why.how);
    column->addLayout(form);
    popover->open();
}

void draw_weight(QPainter& painter, const QRectF& where, Weight weight) {
    if (weight == Weight::danger) return draw_icon(painter, QStringLiteral("flag"), where, Tone::danger);
    if (weight == Weight::presses) return draw_icon(painter, QStringLiteral("presses"), where, Tone::presses);
    draw_icon(painter, QStringLiteral("dot"), where, Tone::outlook);
}

namespace {

class WeightMark : public QWidget {
  public:
    WeightMark(Weight weight, QWidget* parent) : QWidget(parent), weight_(weight) { setFixedSize(16, 20); }

  protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        draw_weight(painter, QRectF(0, 2, 16, 16), weight_);
    }

  private:
    Weight weight_;
};

}  // namespace

FlagRow::FlagRow(const Workbench& workbench, const Flag& flag, Weight weight, QWidget* parent)
    : QWidget(parent) {
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(kSpace2);
    row->addWidget(new WeightMark(weight, this), 0, Qt::AlignTop);
    const Tone colour = weight == Weight::danger    ? Tone::danger
                        : weight == Weight::presses ? Tone::presses
                                                    : Tone::ink;
    auto* says = new Label(workbench.sentence(flag), Type::text, colour);
    says->setAccessibleName(tr("%1: %2").arg(tone_word(weight), says->text()));
    row->addWidget(says->wrapped(), 1);
    row->addWidget(new WhyButton(workbench, flag, this), 0, Qt::AlignTop);
}

}  // namespace evenfall::ui
