// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/supply_dialog.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QScrollArea>
#include <algorithm>

#include "casework/supply_left.h"
#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "controls/why.h"
#include "course/day_words.h"
#include "shell/workbench.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

constexpr int kWidth = 760, kListHeight = 380;
constexpr int kMostDays = 365;

QString count_words(const Product& product, int units, Volume volume) {
    const QString name = to_text(product_name(product));
    if (is_liquid(product.form)) return SupplyDialog::tr("%1 of %2").arg(to_text(print_volume(volume)), name);
    return SupplyDialog::tr("%1 × %2").arg(units).arg(name);
}

QString quarters(int count) {
    const int whole = count / 4, part = count % 4;
    const QString parts[] = {
        {}, SupplyDialog::tr("a quarter"), SupplyDialog::tr("a half"), SupplyDialog::tr("three quarters")};
    if (part == 0) return QString::number(whole);
    return whole == 0 ? parts[part] : SupplyDialog::tr("%1 and %2").arg(whole).arg(parts[part]);
}

QString left_words(const OnHand& left) {
    if (is_liquid(left.product.form)) return count_words(left.product, 0, left.volume);
    return SupplyDialog::tr("%1 × %2").arg(quarters(static_cast<int>(left.quarters)),
                                           to_text(product_name(left.product)));
}

}  // namespace

SupplyDialog::SupplyDialog(Workbench& workbench, const Plan& plan, int steps, const PatientRecord& record,
                           QWidget* parent)
    : QuietDialog(
          tr("Supply for these steps"),
          tr("Every fill also covers holding the dose of its days, with the clinic's reserve. After the last "
             "step to sign its dose goes on; what lies beyond is not counted."),
          parent),
      workbench_(workbench),
      firm_(plan),
      record_(record),
      prices_(price_list(workbench)),
      from_(new DayEdit(workbench.texts(), tr("From"))),
      last_(new DayEdit(workbench.texts(), tr("Through"))),
      days_(new WholeEdit(workbench.texts(), tr("Days for each fill"), 1, kMostDays, tr("days"))),
      list_(nullptr) {
    setMinimumWidth(kWidth);
    firm_.steps.resize(static_cast<std::size_t>(std::max(steps, 0)));
    const int usual = workbench_.desk().clinic().days_per_fill;
    Day last = workbench_.today() + days(usual - 1);
    if (!firm_.steps.empty()) {
        const Step& step = firm_.steps.back();
        last = std::max(last, step.starts + days(step.days.value_or(1) - 1));
    }
    make_fields(last);
    auto* inside = new QWidget;
    list_ = new QVBoxLayout(inside);
    list_->setContentsMargins(0, 0, kSpace2, 0);
    auto* scroll = new QScrollArea;
    scroll->setWidget(inside);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setAccessibleName(tr("Fills"));
    scroll->setMinimumHeight(kListHeight);
    body()->addWidget(scroll, 1);
    auto* close = make_button(tr("Close"));
    body()->addWidget(close, 0, Qt::AlignRight);
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
    show_supply();
    close->setFocus();
}

void SupplyDialog::make_fields(Day last) {
    from_->set_day(workbench_.today());
    last_->set_day(last);
    days_->set_number(workbench_.desk().clinic().days_per_fill);
    auto* row = new QHBoxLayout;
    row->setSpacing(kSpace3);
    const auto add = [&](const QString& name, TypedField* field, int share) {
        auto* column = new QVBoxLayout;
        add_field(*column, name, field);
        column->addStretch();
        field->set_required(true);
        row->addLayout(column, share);
        connect(field, &TypedField::edited, this, &SupplyDialog::show_supply);
    };
    constexpr int kDay = 5, kCount = 3;  // a day stands with its weekday
    add(tr("From"), from_, kDay);
    add(tr("Through"), last_, kDay);
    add(tr("Days for each fill"), days_, kCount);
    body()->addLayout(row);
}

void SupplyDialog::show_supply() {
    while (QLayoutItem* item = list_->takeAt(0)) {
        if (item->widget()) {
            item->widget()->hide();
            item->widget()->deleteLater();
        }
        delete item;
    }
    if (!from_->day() || !last_->day() || !days_->number()) {
        add_line(tr("A field above is still open."));
        return list_->addStretch();
    }
    SupplyInput input;
    input.from = *from_->day();
    input.to = *last_->day() + days(1);
    input.days_per_fill = *days_->number();
    input.reserve_days = workbench_.desk().clinic().reserve_days;
    input.limits = SupplyLimits::from(workbench_.desk().rules());
    input.prices = prices_.prices;
    const PieceWeights weights = PieceWeights::from(workbench_.desk().rules());
    input.on_hand = on_hand_on(record_, workbench_.course(), input.from, weights);
    input.doses = doses_of(firm_, input.from, weights, input.on_hand);
    const auto made = supply_for(input);
    if (!made) {
        for (const Fault& fault : made.faults()) add_line(workbench_.text(fault), true);
    } else {
        if (made->runs_out)
            add_line(
                tr("What was last counted at home lasts until %1.").arg(full_day(*made->runs_out - days(1))),
                true);
        for (const Fill& fill : made->fills) add_fill(fill);
        add_end(*made);
    }
    list_->addStretch();
}

void SupplyDialog::add_line(const QString& text, bool presses) {
    list_->addWidget(
        (new Label(text, presses ? Type::strong : Type::text, presses ? Tone::presses : Tone::ink))
            ->wrapped());
}

void SupplyDialog::add_fill(const Fill& fill) {
    auto* card = new Card;
    card->body()->setSpacing(2);
    card->body()->addWidget(
        (new Label(tr("Fill on %1, until %2").arg(full_day(fill.from), full_day(fill.to - days(1))),
                   Type::strong))
            ->wrapped());
    QStringList lines;
    std::vector<Product> dispensed;
    for (const SupplyItem& item : fill.items) {
        lines << tr("dispense %1").arg(count_words(item.product, item.units, item.volume));
        dispensed.push_back(item.product);
    }
    if (lines.isEmpty()) lines << tr("nothing to dispense: what is at home is enough");
    // Where the clinic enters no prices, nothing is said of cost.
    if (!dispensed.empty() && !prices_.prices.empty())
        lines << tr("cost: %1").arg(cost_text(fill.cost, dispensed, prices_));
    lines << tr("covers holding the dose until %1").arg(full_day(fill.covers_hold_until - days(1)));
    for (const OnHand& left : fill.left_over) lines << tr("left over: %1").arg(left_words(left));
    for (const OnHand& old : fill.too_old)
        lines << tr("opened too long ago, to return: %1").arg(left_words(old));
    card->body()->addWidget((new Label(lines.join(QLatin1Char('\n'))))->wrapped());
    for (const Flag& flag : fill.flags)
        card->body()->addWidget(new FlagRow(workbench_, flag, Weight::presses));
    list_->addWidget(card);
}

/// What is at home at the end and taken by no later dose.
void SupplyDialog::add_end(const Supply& supply) {
    if (supply.surplus.empty()) return;
    QStringList lines;
    for (const OnHand& left : supply.surplus) lines << left_words(left);
    add_line(tr("At the end no later dose takes what is left; it goes back to the pharmacy: %1.")
                 .arg(lines.join(QStringLiteral(", "))));
}

}  // namespace evenfall::ui
