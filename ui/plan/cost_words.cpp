// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/cost_words.h"

#include <QCoreApplication>

#include "casework/in_force.h"
#include "shell/workbench.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

struct Say {
    Q_DECLARE_TR_FUNCTIONS(CostWords)
};

}  // namespace

PriceList price_list(const Workbench& workbench) {
    const ClinicRecord& clinic = workbench.desk().clinic_record();
    return {prices_in_force(clinic), clinic.currency ? to_text(clinic.currency->value.currency) : QString()};
}

QString cost_text(const std::optional<Price>& cost, const std::vector<Product>& products,
                  const PriceList& list) {
    if (cost)
        return list.currency.isEmpty()
                   ? to_text(print_cost(*cost))
                   : QStringLiteral("%1 %2").arg(to_text(print_cost(*cost)), list.currency);
    if (list.prices.empty()) return Say::tr("no prices entered");
    QStringList missing;
    for (const Product& product : products)
        if (!find_price(list.prices, product)) missing << to_text(product_name(product));
    return missing.isEmpty() ? Say::tr("not known")
                             : Say::tr("no price for %1").arg(missing.join(QStringLiteral(", ")));
}

}  // namespace evenfall::ui
