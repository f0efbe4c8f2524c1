// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTimer>
#include <optional>

#include "casework/plan_base.h"
#include "controls/messages.h"
#include "course/latest.h"
#include "planning/by_hand.h"
#include "planning/crossover_person.h"

class QComboBox;
class QHBoxLayout;

namespace evenfall::ui {

class Card;
class DayEdit;
class Label;
class PlanPreview;
class ProductList;
class TypedField;
class WholeEdit;

/// Ways across from one agent to another, side by side, computed beside the window's thread while one
/// chooses. What speaks against crossing for this person comes first; the ways are shown after it was heard.
class CrossoverDialog : public QuietDialog {
    Q_OBJECT
  public:
    CrossoverDialog(Workbench& workbench, const PlanBase& base, QWidget* parent = nullptr);

    /// The stages that were chosen, as a plan without a taper after them.
    const std::optional<Plan>& chosen() const { return chosen_; }
    bool computing() const { return jobs_.busy() || soon_.isActive(); }
    const std::vector<CrossoverPlan>& ways() const { return ways_; }

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    QWidget* make_fields();
    QWidget* make_ways();
    void from_changed();
    void to_changed();
    void show_suits();
    CrossoverPerson person() const;
    std::optional<CrossoverInput> input() const;
    void compute();
    void show_ways(const Result<std::vector<CrossoverPlan>>& ways);
    void show_faults(const Faults& faults);
    void show_cards();
    void show_flags(Card& card, const std::vector<Flag>& flags, const QString& heading);
    void add_card(const CrossoverPlan& way, int number);
    void preview(int number);
    Plan plan_of(int number) const;

    Workbench& workbench_;
    PlanBase base_;
    QComboBox *from_, *to_, *first_;
    DayEdit* start_;
    WholeEdit* days_;
    ProductList* products_;
    Label *suits_, *state_;
    Card *against_, *care_;
    QPushButton* all_the_same_;
    QWidget* cards_;
    QHBoxLayout* card_row_;
    PlanPreview* preview_;
    std::vector<std::pair<QPushButton*, int>> choices_;
    std::optional<CrossoverInput> asked_;
    std::vector<CrossoverPlan> ways_;
    std::optional<Plan> chosen_;
    bool heard_ = false;
    QTimer soon_;
    Latest<Result<std::vector<CrossoverPlan>>> jobs_;
};

}  // namespace evenfall::ui
