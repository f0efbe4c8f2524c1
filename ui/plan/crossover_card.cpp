// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/crossover_card.h"

#include <QCoreApplication>
#include <QPushButton>
#include <cmath>

#include "controls/buttons.h"
#include "controls/label.h"
#include "course/day_words.h"
#include "drawing/pieces.h"
#include "rules/rules.h"

namespace evenfall::ui {
namespace {

constexpr int kCardWidth = 218;

struct Say {
    Q_DECLARE_TR_FUNCTIONS(CrossoverCard)
};

QString dip_words(const Excursion& dip, int limit) {
    if (!dip.day) return Say::tr("Dip: none");
    return Say::tr("Dip: %1 % under, %2 days below %3 %, lowest on %4")
        .arg(std::lround(dip.percent))
        .arg(dip.days)
        .arg(limit)
        .arg(short_day(*dip.day));
}

QString overshoot_words(const Excursion& overshoot, int limit) {
    if (!overshoot.day) return Say::tr("Overshoot: none");
    return Say::tr("Overshoot: %1 % over, %2 days above %3 %, highest on %4")
        .arg(std::lround(overshoot.percent))
        .arg(overshoot.days)
        .arg(limit)
        .arg(short_day(*overshoot.day));
}

QString stage_words(const CrossoverStage& stage) {
    QStringList lines{Say::tr("%1. From %2").arg(stage.number).arg(full_day(stage.starts))};
    for (const PlannedDose& dose : stage.doses) {
        QString line =
            Say::tr("%1  %2 %3").arg(text_of(dose.at), to_text(dose.drug), amount_text(dose.amount));
        if (!dose.pieces.empty()) line += Say::tr(": %1").arg(pieces_text(dose.pieces));
        lines << line;
    }
    return lines.join(QLatin1Char('\n'));
}

}  // namespace

DiazepamRange as_diazepam(const CrossoverStage& stage, const Formulary& formulary) {
    DiazepamRange total;
    for (const auto& [name, amount] : stage.daily) {
        const Drug* drug = formulary.find(name);
        if (!amount.is_zero() && (!drug || !drug->equivalence)) return {};
        if (!amount.is_zero()) total = total + evenfall::as_diazepam(amount, *drug->equivalence);
    }
    return total;
}

CrossoverCard::CrossoverCard(const CrossoverPlan& way, int number, const Formulary& formulary,
                             const Rules& rules, QWidget* parent)
    : Card(parent), choose_(make_button(tr("Choose way %1").arg(number))) {
    setFixedWidth(kCardWidth);
    body()->setSpacing(kSpace1);
    const QString portion = way.portion == Portion::half ? tr("half doses") : tr("whole doses");
    const QString title = way.stages.size() == 1 ? tr("%1 · all in one day").arg(number)
                                                 : tr("%1 · %2 stages of %3 days, %4")
                                                       .arg(number)
                                                       .arg(way.stages.size())
                                                       .arg(way.days_per_stage)
                                                       .arg(portion);
    body()->addWidget((new Label(title, Type::strong))->wrapped());
    const QString dip = dip_words(way.dip, rules.whole("crossover-band", "low_percent"));
    const QString overshoot = overshoot_words(way.overshoot, rules.whole("crossover-band", "high_percent"));
    for (const QString& words : {dip, overshoot}) body()->addWidget((new Label(words))->wrapped());
    body()->addWidget(
        (new Label(tr("Modelled. Steady by %1").arg(full_day(way.steady_on)), Type::note, Tone::soft_ink))
            ->wrapped());
    body()->addWidget(choose_);
    choose_->setAccessibleDescription(title);
    for (const CrossoverStage& stage : way.stages) {
        const DiazepamRange diazepam = as_diazepam(stage, formulary);
        body()->addWidget((new Label(stage_words(stage), Type::note))->wrapped());
        if (!diazepam.usual.is_zero())
            body()->addWidget((new Label(tr("all as diazepam: %1 (%2 to %3)")
                                             .arg(amount_text(diazepam.usual), amount_text(diazepam.least),
                                                  amount_text(diazepam.most)),
                                         Type::note, Tone::soft_ink))
                                  ->wrapped());
    }
    body()->addStretch();
}

}  // namespace evenfall::ui
