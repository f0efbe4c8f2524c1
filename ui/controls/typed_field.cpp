// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/typed_field.h"

#include <QKeyEvent>
#include <QPainter>
#include <QStyle>
#include <QVBoxLayout>

#include "controls/label.h"
#include "texts/render.h"
#include "theme/numerals.h"
#include "theme/theme.h"

namespace evenfall::ui {

EchoLineEdit::EchoLineEdit(QWidget* parent) : QLineEdit(parent) {
    setMinimumHeight(kTarget);
}

void EchoLineEdit::set_echo(const QString& echo) {
    if (echo == echo_) return;
    echo_ = echo;
    const int room = echo.isEmpty() ? 0 : static_cast<int>(tabular_width(font(), echo)) + kSpace2 + kSpace1;
    setTextMargins(0, 0, room, 0);
    setAccessibleDescription(echo);
    update();
}

void EchoLineEdit::set_wrong(bool wrong) {
    wrong_ = wrong;
    setProperty("wrong", wrong);
    update();
}

void EchoLineEdit::paintEvent(QPaintEvent* event) {
    QLineEdit::paintEvent(event);
    if (echo_.isEmpty()) return;
    QPainter painter(this);
    painter.setPen(tone(isEnabled() ? Tone::soft_ink : Tone::disabled_ink));
    draw_tabular(painter, QRectF(rect()).adjusted(0, 0, -kSpace2 - 2, 0), Qt::AlignRight | Qt::AlignVCenter,
                 echo_);
}

TypedField::TypedField(const Texts& texts, const QString& name, QWidget* parent)
    : QWidget(parent), texts_(texts), edit_(new EchoLineEdit(this)) {
    auto* fault = new Label({}, Type::note, Tone::danger, this);
    fault->wrapped();
    fault_ = fault;
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2);
    column->addWidget(edit_);
    column->addWidget(fault_);
    column->addStretch();
    fault_->hide();
    edit_->setAccessibleName(name);
    setFocusProxy(edit_);
    connect(edit_, &QLineEdit::textChanged, this, [this] {
        reread();
        emit edited();
    });
    connect(edit_, &QLineEdit::editingFinished, this, &TypedField::committed);
}

void TypedField::set_typed(const QString& text) {
    edit_->setText(text);
    reread();
}

void TypedField::set_required(bool required) {
    required_ = required;
}

void TypedField::show_fault(const QString& sentence) {
    if (sentence.isEmpty())
        reread();
    else
        show(edit_->echo(), sentence);
}

bool TypedField::check() {
    reread();
    if (required_ && is_blank()) {
        const auto result = read({});
        show(unit(), result.ok()
                         ? QString()
                         : to_text(texts_.text(result.faults().front().id, result.faults().front().args)));
        edit_->set_wrong(true);
    }
    return !edit_->is_wrong();
}

void TypedField::reread() {
    const QString text = edit_->text().trimmed();
    if (text.isEmpty()) return show(unit(), {});
    const auto result = read(text);
    if (result.ok()) return show(*result, {});
    const Fault& fault = result.faults().front();
    show(unit(), to_text(texts_.text(fault.id, fault.args)));
}

void TypedField::show(const QString& echo, const QString& fault) {
    edit_->set_echo(echo);
    edit_->set_wrong(!fault.isEmpty());
    fault_->setText(fault);
    fault_->setVisible(!fault.isEmpty());
    if (!fault.isEmpty()) edit_->setAccessibleDescription(fault);
}

DoseEdit::DoseEdit(const Texts& texts, const QString& name, QWidget* parent)
    : TypedField(texts, tr("%1, milligrams").arg(name), parent) {
    set_typed({});
}

namespace {

/// The field's unit is milligrams; a unit that is written all the same is read with the amount.
Result<Dose> read_dose(const QString& text) {
    const bool has_letters = std::any_of(text.begin(), text.end(), [](QChar c) { return c.isLetter(); });
    const std::string typed = to_utf8(text.trimmed());
    return has_letters ? parse_dose(typed, {}) : parse_mg(typed, {});
}

}  // namespace

std::optional<Dose> DoseEdit::dose() const {
    const auto read = read_dose(typed());
    return read ? std::optional<Dose>(*read) : std::nullopt;
}

void DoseEdit::set_dose(std::optional<Dose> dose) {
    set_typed(dose ? to_text(print_mg_digits(*dose)) : QString());
}

Result<QString> DoseEdit::read(const QString& text) const {
    const auto dose = read_dose(text);
    if (!dose) return dose.faults();
    return tr("= %1").arg(text_of(*dose));
}

QString DoseEdit::unit() const {
    return tr("mg");
}

VolumeEdit::VolumeEdit(const Texts& texts, const QString& name, QWidget* parent)
    : TypedField(texts, tr("%1, millilitres").arg(name), parent) {
    set_typed({});
}

std::optional<Volume> VolumeEdit::volume() const {
    const auto read = parse_ml(to_utf8(typed().trimmed()), {});
    return read ? std::optional<Volume>(*read) : std::nullopt;
}

void VolumeEdit::set_volume(std::optional<Volume> volume) {
    set_typed(volume ? to_text(print_ml_digits(*volume)) : QString());
}

Result<QString> VolumeEdit::read(const QString& text) const {
    const auto volume = parse_ml(to_utf8(text), {});
    if (!volume) return volume.faults();
    return to_text("= " + print_volume(*volume));
}

QString VolumeEdit::unit() const {
    return tr("mL");
}

PercentEdit::PercentEdit(const Texts& texts, const QString& name, QWidget* parent)
    : TypedField(texts, tr("%1, percent").arg(name), parent) {
    set_typed({});
}

std::optional<Share> PercentEdit::share() const {
    const auto read = parse_percent(to_utf8(typed().trimmed()), {});
    return read ? std::optional<Share>(*read) : std::nullopt;
}

Result<QString> PercentEdit::read(const QString& text) const {
    const auto share = parse_percent(to_utf8(text), {});
    if (!share) return share.faults();
    return unit();
}

QString PercentEdit::unit() const {
    return QStringLiteral("%");
}

WholeEdit::WholeEdit(const Texts& texts, const QString& name, int least, int most, const QString& counted,
                     QWidget* parent)
    : TypedField(texts, counted.isEmpty() ? name : tr("%1, %2").arg(name, counted), parent),
      least_(least),
      most_(most),
      counted_(counted) {
    set_typed({});
}

std::optional<int> WholeEdit::number() const {
    const auto read = parse(typed().trimmed());
    return read ? std::optional<int>(*read) : std::nullopt;
}

void WholeEdit::set_number(std::optional<int> number) {
    set_typed(number ? QString::number(*number) : QString());
}

Result<int> WholeEdit::parse(const QString& text) const {
    const bool digits = !text.isEmpty() && text.size() <= 9 &&
                        std::all_of(text.begin(), text.end(), [](QChar c) { return c >= u'0' && c <= u'9'; });
    const int number = digits ? text.toInt() : 0;
    if (digits && number >= least_ && number <= most_) return number;
    return Fault{"field-not-whole",
                 {},
                 {{"text", to_utf8(text.left(40))},
                  {"least", std::to_string(least_)},
                  {"most", std::to_string(most_)}}};
}

Result<QString> WholeEdit::read(const QString& text) const {
    const auto number = parse(text);
    if (!number) return number.faults();
    return unit();
}

QString WholeEdit::unit() const {
    return counted_;
}

}  // namespace evenfall::ui
