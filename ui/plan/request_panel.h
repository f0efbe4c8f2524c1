// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>

#include "model/plan.h"
#include "plan/plan_job.h"
#include "rules/texts.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QVBoxLayout;

namespace evenfall::ui {

class DayEdit;
class DoseEdit;
class PercentEdit;
class ProductList;
class TypedField;
class WholeEdit;

/// What is taken now and since when, after the course was broken: the plan begins from it anew.
struct FreshStart {
    Regimen now;
    Day since{};

    bool operator==(const FreshStart&) const = default;
};

/// What stands in the fields, as it was typed: what undo goes back to.
struct PlanForm {
    QString drug;
    std::vector<Product> products;
    QString start, target, cap, days, steps, end_amount, last_dose;
    int pace = 0, shape = 0, first_dose = 0, end = 0;
    bool test_reduction = true;
    bool keep_signed = true;
    HandSteps by_hand{};             ///< set in the table, not in a field
    std::optional<Plan> crossing{};  ///< a crossover that was chosen: its stages come first
    std::optional<FreshStart> from_now{};
    /// What was adjusted and why, each a sentence for the record; written with the signature.
    std::vector<std::string> because{};

    bool operator==(const PlanForm&) const = default;
};

/// The request of the builder as fields. Tells of every edit; judges nothing but whether a field can be read.
class RequestPanel : public QWidget {
    Q_OBJECT

  public:
    explicit RequestPanel(const Texts& texts, QWidget* parent = nullptr);

    /// Sets the fields for a person: the plan in force where there is one, else the usual values.
    void begin(const PlanBase& base, const Formulary& formulary);
    PlanForm form() const;
    void set_form(const PlanForm& form);

    /// Goes over to the agent that is crossed to, with these products at hand.
    void cross_to(const std::string& drug, const std::vector<Product>& products, Day first_cut);
    void add_product(const Product& product);
    void set_start(Day day);
    /// What is asked for in a few words: "8 % every 14 days".
    QString asks() const;

    /// What is asked for; empty while a field that is needed cannot be read.
    std::optional<PlanRequest> request() const;
    std::vector<Product> products() const;
    /// How many signed steps stay.
    int keep() const;

    /// Says at a field what a rule says of it: the plan stands all the same.
    void say_at(const std::string& place, const QString& sentence);

    /// Shows each fault at its field; those without a field here are returned.
    std::vector<Fault> show_faults(const Faults& faults);

  signals:
    /// `field` names what was edited, so that typing in one field is one undo.
    void edited(const QString& field);

  private:
    template <class Field>
    void add(QVBoxLayout& column, const QString& name, Field* field, const QString& key,
             const QString& note = {});
    void watch(QComboBox* box, const QString& key);
    void make_fields(QVBoxLayout& column);
    void drug_changed();
    void show_what_applies();
    QString drug() const;

    const Texts& texts_;
    PlanBase base_;
    const Formulary* formulary_ = nullptr;
    QComboBox* drug_;
    ProductList* products_;
    QLabel* products_fault_;
    DayEdit* start_;
    PercentEdit* target_;
    PercentEdit* cap_;
    WholeEdit* days_;
    QComboBox* pace_;
    QComboBox* shape_;
    QComboBox* first_dose_;
    QComboBox* end_;
    DoseEdit* end_amount_;
    DoseEdit* last_dose_;
    QCheckBox* test_;
    QCheckBox* keep_;
    WholeEdit* steps_;
    std::vector<std::pair<std::string, TypedField*>> by_place_;
    bool filling_ = false;
};

}  // namespace evenfall::ui
