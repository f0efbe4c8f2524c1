// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/supply_dialog.h"

#include <QPushButton>
#include <algorithm>

#include "casework/supply_left.h"
#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/label.h"
#include "controls/why.h"
#include "course/day_words.h"
#include "shell/workbench.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

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

/// What is supplied for: from today to the end of the last step, a fill's length where it has none.
SupplyInput input_of(Workbench& workbench, const Plan& plan, int steps, const PatientRecord& record) {
    const Clinic clinic = workbench.desk().clinic();
    Plan firm = plan;
    firm.steps.resize(static_cast<std::size_t>(std::max(steps, 0)));
    SupplyInput input;
    input.days_per_fill = clinic.days_per_fill;
    input.reserve_days = clinic.reserve_days;
    input.limits = SupplyLimits::from(workbench.desk().rules());
    input.from = workbench.today();
    input.to = input.from + days(input.days_per_fill);
    if (!firm.steps.empty())
        input.to = std::max(input.to, firm.steps.back().starts + days(firm.steps.back().days.value_or(1)));
    input.doses = doses_of(firm, input.from, PieceWeights::from(workbench.desk().rules()));
    input.on_hand =
        on_hand_on(record, workbench.course(), input.from, PieceWeights::from(workbench.desk().rules()));
    return input;
}

}  // namespace

SupplyDialog::SupplyDialog(Workbench& workbench, const Plan& plan, int steps, const PatientRecord& record,
                           QWidget* parent)
    : QuietDialog(
          tr("Supply for these steps"),
          tr("Every fill also covers holding the dose of its days, with the clinic's reserve. What lies "
             "beyond the steps to sign is not counted."),
          parent) {
    const auto made = supply_for(input_of(workbench, plan, steps, record));
    if (!made) {
        for (const Fault& fault : made.faults())
            body()->addWidget((new Label(to_text(workbench.texts().text(fault))))->wrapped());
    } else {
        if (made->runs_out)
            body()->addWidget((new Label(tr("What was last counted at home lasts until %1.")
                                             .arg(full_day(*made->runs_out - days(1))),
                                         Type::strong, Tone::presses))
                                  ->wrapped());
        for (const Fill& fill : made->fills) add_fill(workbench, fill);
    }
    auto* close = make_button(tr("Close"));
    body()->addWidget(close, 0, Qt::AlignRight);
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
    close->setFocus();
}

void SupplyDialog::add_fill(const Workbench& workbench, const Fill& fill) {
    auto* card = new Card;
    card->body()->setSpacing(2);
    card->body()->addWidget(
        (new Label(tr("Fill on %1, until %2").arg(full_day(fill.from), full_day(fill.to - days(1))),
                   Type::strong))
            ->wrapped());
    QStringList lines;
    for (const SupplyItem& item : fill.items)
        lines << tr("dispense %1").arg(count_words(item.product, item.units, item.volume));
    if (lines.isEmpty()) lines << tr("nothing to dispense: what is at home is enough");
    lines << tr("covers holding the dose until %1").arg(full_day(fill.covers_hold_until - days(1)));
    for (const OnHand& left : fill.left_over)
        lines << (is_liquid(left.product.form)
                      ? tr("left over: %1").arg(count_words(left.product, 0, left.volume))
                      : tr("left over: %1 × %2")
                            .arg(quarters(static_cast<int>(left.quarters)),
                                 to_text(product_name(left.product))));
    card->body()->addWidget((new Label(lines.join(QLatin1Char('\n'))))->wrapped());
    for (const Flag& flag : fill.flags)
        card->body()->addWidget(new FlagRow(workbench, flag, Weight::presses));
    body()->addWidget(card);
}

}  // namespace evenfall::ui
