// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "course/latest.h"
#include "shell/workbench.h"
#include "stabilization/check_job.h"

class QButtonGroup;
class QScrollArea;
class QStackedWidget;
class QVBoxLayout;

namespace evenfall::ui {

class Card;
class EmptyState;

/// The check before the first cut: the verdict with its gates, what raised it, the modelled day, symptoms
/// against the interval, the measures, and proposals that can be accepted.
class StabilizationPage : public Page {
    Q_OBJECT

  public:
    explicit StabilizationPage(Workbench& workbench, QWidget* parent = nullptr);
    void refresh() override;
    bool busy() const override { return checks_.busy(); }

    /// What is shown; null while nothing is.
    const Checked* shown() const { return checked_.get(); }
    /// How many days back count; empty: the whole diary. Computes again.
    void judge_days(std::optional<int> days);
    /// Writes a proposal of what is shown into the record, from tomorrow on.
    bool accept(const Proposal& proposal);

  private:
    QWidget* make_ranges();
    void show_check(std::shared_ptr<const Checked> checked);
    void add_answer();
    void add_gates(Card& card);
    void add_flags();
    void add_pictures();
    QWidget* make_levels();
    QWidget* make_symptoms();
    void add_measures();
    void add_proposals();
    Card* add_card(const QString& title);
    void clear();

    QStackedWidget* stack_;
    EmptyState* empty_;
    QScrollArea* scroll_;
    QVBoxLayout* column_;
    QButtonGroup* ranges_;
    std::optional<int> judged_days_;
    std::shared_ptr<const Checked> checked_;
    Latest<std::shared_ptr<const Checked>> checks_;
};

}  // namespace evenfall::ui
