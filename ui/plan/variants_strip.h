// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "plan/cost_words.h"
#include "plan/plan_job.h"
#include "plan/request_panel.h"

class QGridLayout;
class QScrollArea;

namespace evenfall::ui {

class Card;

/// A plan that was kept to compare: what was asked for, and its figures.
struct Variant {
    QString name;  ///< "A", "B", …
    PlanForm form;
    VariantFigures figures;
    QString asks;  ///< "8 % every 14 days"

    bool operator==(const Variant&) const = default;
};

/// How many plans can be compared, the one on the table counted.
inline constexpr std::size_t kMostVariants = 4;

/// Up to four variants side by side in the same figures; one of them can be taken back onto the table.
class VariantsStrip : public QWidget {
    Q_OBJECT
  public:
    explicit VariantsStrip(QWidget* parent = nullptr);
    /// The kept ones and, first, the one on the table.
    void show_variants(const std::vector<Variant>& kept, const std::optional<Variant>& on_the_table,
                       const PriceList& list);

  signals:
    void use_wanted(int kept);
    void drop_wanted(int kept);

  private:
    void add_column(QGridLayout& grid, int column, const Variant& variant, int kept);
    PriceList list_;
    Card* card_;
    QScrollArea* scroll_;
};

}  // namespace evenfall::ui
