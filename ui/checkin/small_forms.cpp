// SPDX-License-Identifier: GPL-3.0-or-later
#include <QComboBox>
#include <QGridLayout>
#include <QLineEdit>
#include <algorithm>

#include "casework/call.h"
#include "checkin/call_parts.h"
#include "checkin/whole_card.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "shell/workbench.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

/// Fields beneath each other, each beside its name.
class Fields : public QWidget {
  public:
    Fields() : grid_(new QGridLayout(this)) {
        grid_->setContentsMargins(0, 0, 0, 0);
        grid_->setVerticalSpacing(kSpace1);
        grid_->setColumnStretch(1, 1);
    }
    template <class Field>
    Field* add(const QString& name, Field* field) {
        auto* label = new Label(name);
        label->setMinimumWidth(kNameWidth);
        label->setBuddy(field);
        grid_->addWidget(label, row_, 0);
        grid_->addWidget(field, row_++, 1);
        grid_->setRowStretch(row_ - 1, 0);  // what is left over goes beneath the last one
        grid_->setRowStretch(row_, 1);
        return field;
    }
    QLineEdit* line(const QString& name) { return add(name, make_line(name)); }

  private:
    QGridLayout* grid_;
    int row_ = 0;
};

template <Worded E>
QComboBox* choice_of(const QString& name) {
    QStringList words;
    for (const auto& [value, text] : Words<E>::table) words << sentence_word(value);
    return make_choice(name, words);
}

template <Worded E>
E chosen_in(const QComboBox* choice) {
    return Words<E>::table[static_cast<std::size_t>(choice->currentIndex())].first;
}

std::string words_in(const QLineEdit* line) {
    return to_utf8(line->text().trimmed());
}

DayEdit* day_field(Workbench& workbench, const QString& name) {
    auto* field = new DayEdit(workbench.texts(), name);
    field->setMaximumWidth(280);
    return field;
}

SmallForm life_form(Workbench& workbench) {
    auto* fields = new Fields;
    auto* what = fields->add(QObject::tr("What happened"), choice_of<LifeKind>(QObject::tr("What happened")));
    auto* from = fields->add(QObject::tr("From"), day_field(workbench, QObject::tr("From")));
    auto* to =
        fields->add(QObject::tr("To, where known"), day_field(workbench, QObject::tr("To, where known")));
    auto* note = fields->line(QObject::tr("In words"));
    from->set_required(true);
    return {QObject::tr("Something that happened"), fields,
            [=]() -> std::optional<Change> {
                if (!(from->check() & to->check())) return std::nullopt;
                return LifeEvent{chosen_in<LifeKind>(what), *from->day(), to->day(), words_in(note)};
            },
            [=, &workbench] {
                what->setCurrentIndex(0);
                from->set_day(workbench.today());
                to->set_day(std::nullopt);
                note->clear();
            }};
}

/// The test that has no result yet, by its first entry; empty where a new one begins.
std::pair<EventId, DrugTestNoted> open_test(const PatientRecord* record) {
    if (!record || record->drug_tests.empty()) return {};
    const auto& last = record->drug_tests.back();
    if (last.value.result_on) return {};
    return {last.value.continues.empty() ? last.id : last.value.continues, last.value};
}

SmallForm test_form(Workbench& workbench) {
    auto* fields = new Fields;
    auto* explained = fields->add(QObject::tr("Explained to the person on"),
                                  day_field(workbench, QObject::tr("Explained to the person on")));
    auto* ordered = fields->add(QObject::tr("Ordered on"), day_field(workbench, QObject::tr("Ordered on")));
    auto* assay = fields->line(QObject::tr("Which assay"));
    auto* result_on = fields->add(QObject::tr("Result on"), day_field(workbench, QObject::tr("Result on")));
    auto* result = fields->line(QObject::tr("Result, in the laboratory's words"));
    auto* agrees = fields->add(QObject::tr("Against what was said"),
                               choice_of<TestAgrees>(QObject::tr("Against what was said")));
    auto* blind = new Label({}, Type::note, Tone::soft_ink);
    fields->add(QObject::tr("What it cannot see"), blind->wrapped());
    return {QObject::tr("Drug test"), fields,
            [=, &workbench]() -> std::optional<Change> {
                if (!(explained->check() & ordered->check() & result_on->check())) return std::nullopt;
                return DrugTestNoted{open_test(workbench.record()).first,
                                     explained->day(),
                                     ordered->day(),
                                     result_on->day(),
                                     words_in(assay),
                                     words_in(result),
                                     chosen_in<TestAgrees>(agrees),
                                     {}};
            },
            [=, &workbench] {
                const DrugTestNoted test = open_test(workbench.record()).second;
                explained->set_day(test.explained_on);
                ordered->set_day(test.ordered_on);
                result_on->set_day(test.result_on);
                assay->setText(to_text(test.assay));
                result->setText(to_text(test.result));
                agrees->setCurrentIndex(0);
                QStringList facts;
                if (const Drug* drug = workbench.desk().formulary().find(workbench.course().drug))
                    for (const Fact& fact : drug->facts)
                        if (fact.group == "urine screen")
                            facts << to_text(fact.label) + QStringLiteral(": ") + to_text(fact.value);
                blind->setText(facts.isEmpty() ? QObject::tr("The formulary does not say for this agent.")
                                               : facts.join(QStringLiteral(" · ")));
            }};
}

SmallForm monitoring_form(Workbench& workbench) {
    auto* fields = new Fields;
    auto* on = fields->add(QObject::tr("Looked at on"), day_field(workbench, QObject::tr("Looked at on")));
    auto* found = fields->line(QObject::tr("What was found"));
    auto* next = fields->add(QObject::tr("Due again on"), day_field(workbench, QObject::tr("Due again on")));
    on->set_required(true);
    return {QObject::tr("Monitoring database"), fields,
            [=]() -> std::optional<Change> {
                if (!(on->check() & next->check())) return std::nullopt;
                return MonitoringChecked{*on->day(), words_in(found), next->day()};
            },
            [=, &workbench] {
                on->set_day(workbench.today());
                next->set_day(workbench.today() +
                              days(workbench.desk().rules().whole("monitoring-due", "every_days")));
                found->clear();
            }};
}

SmallForm team_form(Workbench& workbench) {
    auto* fields = new Fields;
    auto* clinician = fields->line(QObject::tr("Clinician"));
    auto* nurse = fields->line(QObject::tr("Nurse"));
    return {QObject::tr("Who looks after the person"), fields,
            [=]() -> std::optional<Change> {
                return CareTeamSet{words_in(clinician), words_in(nurse)};
            },
            [=, &workbench] {
                const PatientRecord* record = workbench.record();
                const CareTeamSet team = record && record->team ? record->team->value : CareTeamSet{};
                clinician->setText(to_text(team.clinician));
                nurse->setText(to_text(team.nurse));
            }};
}

SmallForm standing_form(Workbench& workbench) {
    auto* fields = new Fields;
    auto* standing =
        fields->add(QObject::tr("The person is"), choice_of<CareStanding>(QObject::tr("The person is")));
    auto* on = fields->add(QObject::tr("Since"), day_field(workbench, QObject::tr("Since")));
    auto* note = fields->line(QObject::tr("In words"));
    on->set_required(true);
    return {QObject::tr("In care or not"), fields,
            [=]() -> std::optional<Change> {
                if (!on->check()) return std::nullopt;
                return StandingChanged{chosen_in<CareStanding>(standing), *on->day(), words_in(note)};
            },
            [=, &workbench] {
                const PatientRecord* record = workbench.record();
                const auto now = record && record->standing ? record->standing->value : StandingChanged{};
                standing->setCurrentIndex(static_cast<int>(now.standing));
                on->set_day(workbench.today());
                note->clear();
            }};
}

/// So much of a product: as fine as it may be cut, or millilitres.
class CountEdit : public TypedField {
  public:
    CountEdit(const Texts& texts, const QString& name) : TypedField(texts, name, nullptr) { set_typed({}); }
    void set_product(std::optional<Product> product) {
        product_ = std::move(product);
        set_typed(typed());
    }
    Result<OnHand> count() const {
        return read_count(product_.value_or(Product()), to_utf8(typed().trimmed()));
    }

  protected:
    Result<QString> read(const QString& text) const override {
        const auto read = read_count(product_.value_or(Product()), to_utf8(text));
        if (!read) return read.faults();
        return unit();
    }
    QString unit() const override {
        return product_ && is_liquid(product_->form) ? QObject::tr("mL") : QObject::tr("units");
    }

  private:
    std::optional<Product> product_;
};

SmallForm returned_form(Workbench& workbench) {
    auto* fields = new Fields;
    auto* which =
        fields->add(QObject::tr("Product"), make_choice(QObject::tr("Product that was returned"), {}));
    auto* units = fields->add(QObject::tr("How many"),
                              new CountEdit(workbench.texts(), QObject::tr("How many were returned")));
    auto* where = fields->line(QObject::tr("Returned to"));
    units->set_required(true);
    units->setMaximumWidth(160);
    QObject::connect(which, &QComboBox::currentIndexChanged, units, [=, &workbench](int at) {
        const PatientRecord* record = workbench.record();
        const bool known =
            record && record->products && at >= 0 && at < std::ssize(record->products->value.products);
        units->set_product(known
                               ? std::optional(record->products->value.products[static_cast<std::size_t>(at)])
                               : std::nullopt);
    });
    return {QObject::tr("Left-over tablets returned"), fields,
            [=, &workbench]() -> std::optional<Change> {
                const PatientRecord* record = workbench.record();
                const int at = which->currentIndex();
                if (!units->check() || !record || !record->products || at < 0) return std::nullopt;
                auto count = units->count();
                if (!count) return std::nullopt;
                return TabletsReturned{workbench.today(), {std::move(*count)}, words_in(where)};
            },
            [=, &workbench] {
                which->clear();
                units->set_typed({});
                where->clear();
                const PatientRecord* record = workbench.record();
                if (record && record->products)
                    for (const Product& each : record->products->value.products)
                        which->addItem(to_text(product_name(each)));
            }};
}

}  // namespace

std::vector<SmallForm> small_forms(Workbench& workbench) {
    return {life_form(workbench),     test_form(workbench), monitoring_form(workbench),
            returned_form(workbench), team_form(workbench), standing_form(workbench)};
}

}  // namespace evenfall::ui
