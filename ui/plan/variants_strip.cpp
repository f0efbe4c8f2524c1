// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/variants_strip.h"

#include <QGridLayout>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <cmath>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/label.h"
#include "course/day_words.h"

namespace evenfall::ui {
namespace {

struct Line {
    QString name;
    QString value;  ///< on two lines where it is long: four columns stand beside each other
};

/// What is shown on two lines, as it is spoken.
QString on_one_line(QString words) {
    return words.replace(QLatin1Char('\n'), QLatin1Char(' '));
}

/// The same figures for each variant, in the same order.
std::vector<Line> lines_of(const VariantFigures& figures, const PriceList& list) {
    const QString end =
        !figures.ends ? VariantsStrip::tr("no end")
        : figures.ends_off
            ? VariantsStrip::tr("OFF\n%1").arg(full_day(*figures.ends))
            : VariantsStrip::tr("%1 on\n%2").arg(amount_text(figures.last), full_day(*figures.ends));
    const QString hardest = figures.hardest_week && figures.hardest_week->percent > 0
                                ? VariantsStrip::tr("%1 % lower,\nfrom %2")
                                      .arg(std::lround(figures.hardest_week->percent))
                                      .arg(short_day(figures.hardest_week->from))
                                : VariantsStrip::tr("not known");
    const QString cut =
        VariantsStrip::tr("%1 on\n%2 days").arg(figures.units_cut).arg(figures.days_with_cutting);
    QString needed = VariantsStrip::tr("%1 tablets").arg(figures.units);
    if (!figures.liquid.is_zero()) needed += QStringLiteral(" + ") + to_text(print_volume(figures.liquid));
    return {{VariantsStrip::tr("Length"), VariantsStrip::tr("%1 weeks").arg((figures.days + 6) / 7)},
            {VariantsStrip::tr("Ends"), end},
            {VariantsStrip::tr("Steps"), QString::number(figures.steps)},
            {VariantsStrip::tr("Largest cut"),
             VariantsStrip::tr("%1 %").arg(to_text(print_percent(figures.largest_cut)))},
            {VariantsStrip::tr("Cuts over\nthe cap"), QString::number(figures.over_cap)},
            {VariantsStrip::tr("Hardest week\n(modelled)"), hardest},
            {VariantsStrip::tr("Tablets to cut"), cut},
            {VariantsStrip::tr("Strengths\nto hold"), QString::number(figures.products.size())},
            {VariantsStrip::tr("Needed in all"), needed},
            {VariantsStrip::tr("Cost"), cost_text(figures.cost, figures.products, list)}};
}

}  // namespace

VariantsStrip::VariantsStrip(QWidget* parent)
    : QWidget(parent), card_(new Card(this)), scroll_(new QScrollArea) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(card_);
    // Four plans may be wider than the page: they scroll, and nothing beside them is pushed out of it.
    scroll_->setWidgetResizable(true);
    scroll_->setFrameShape(QFrame::NoFrame);
    scroll_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll_->viewport()->setAutoFillBackground(false);
    scroll_->setAccessibleName(tr("Plans side by side"));
    card_->body()->addWidget(scroll_);
    setAccessibleName(tr("Plans side by side"));
    hide();
}

void VariantsStrip::show_variants(const std::vector<Variant>& kept,
                                  const std::optional<Variant>& on_the_table, const PriceList& list) {
    list_ = list;
    auto* inside = new QWidget;
    auto* grid = new QGridLayout(inside);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(kSpace3);
    grid->setVerticalSpacing(1);
    const auto names = lines_of({}, {});
    for (std::size_t i = 0; i < names.size(); ++i)
        grid->addWidget(new Label(names[i].name, Type::note, Tone::soft_ink), static_cast<int>(i) + 1, 0,
                        Qt::AlignTop);
    int column = 1;
    if (on_the_table) add_column(*grid, column++, *on_the_table, -1);
    for (std::size_t i = 0; i < kept.size(); ++i) add_column(*grid, column++, kept[i], static_cast<int>(i));
    grid->setColumnStretch(column, 1);
    scroll_->setWidget(inside);
    inside->setAutoFillBackground(false);  // the card shows through
    scroll_->setFixedHeight(inside->sizeHint().height() +
                            scroll_->horizontalScrollBar()->sizeHint().height());
    setVisible(!kept.empty());
}

void VariantsStrip::add_column(QGridLayout& grid, int column, const Variant& variant, int kept) {
    QString asks = variant.asks;
    if (const auto at = asks.indexOf(QStringLiteral(" % ")); at > 0) asks[at + 2] = QLatin1Char('\n');
    auto* title = new Label(kept < 0 ? tr("On the table") : tr("%1: %2").arg(variant.name, asks),
                            Type::strong, kept < 0 ? Tone::planned : Tone::ink);
    title->setToolTip(variant.asks);
    title->setAccessibleName(on_one_line(title->text()));
    grid.addWidget(title, 0, column, Qt::AlignTop);
    int row = 1;
    for (const Line& line : lines_of(variant.figures, list_)) {
        auto* value = new Label(line.value, Type::note);
        value->setAccessibleName(on_one_line(tr("%1, %2: %3").arg(title->text(), line.name, line.value)));
        grid.addWidget(value, row++, column, Qt::AlignTop);
    }
    if (kept < 0) return;
    auto* buttons = new QVBoxLayout;
    auto* use = make_button(tr("Use"));
    use->setAccessibleName(tr("Use plan %1").arg(variant.name));
    auto* drop = make_button(tr("Let go"), ButtonKind::quiet);
    drop->setAccessibleName(tr("Let go of plan %1").arg(variant.name));
    connect(use, &QPushButton::clicked, this, [this, kept] { emit use_wanted(kept); });
    connect(drop, &QPushButton::clicked, this, [this, kept] { emit drop_wanted(kept); });
    buttons->addWidget(use);
    buttons->addWidget(drop);
    grid.addLayout(buttons, row, column);
}

}  // namespace evenfall::ui
