// SPDX-License-Identifier: GPL-3.0-or-later
#include <QComboBox>
#include <QLineEdit>

#include "controls/form.h"
#include "controls/language_choice.h"
#include "controls/typed_field.h"
#include "record/sections.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

/// A weight in kilograms with at most one decimal. It is never part of a dose.
class WeightEdit : public TypedField {
  public:
    explicit WeightEdit(const Texts& texts) : TypedField(texts, QObject::tr("Weight, kilograms"), nullptr) {
        set_typed({});
    }
    std::optional<double> weight() const {
        const auto value = parse(typed().trimmed());
        return value ? std::optional<double>(*value) : std::nullopt;
    }

  protected:
    Result<QString> read(const QString& text) const override {
        const auto value = parse(text);
        if (!value) return value.faults();
        return unit();
    }
    QString unit() const override { return QObject::tr("kg"); }

  private:
    static Result<double> parse(const QString& text) {
        static const QRegularExpression shape(QStringLiteral("^[0-9]{1,3}(\\.[0-9])?$"));
        const double value = shape.match(text).hasMatch() ? QLocale::c().toDouble(text) : 0;
        if (value >= 2 && value <= 500) return value;
        return Fault{"weight-out-of-range", "weight", {}};
    }
};

class PersonSection : public RecordSection {
  public:
    explicit PersonSection(Workbench& workbench)
        : RecordSection(workbench, tr("Person"), tr("The reference stands on every paper.")),
          name_(make_line(tr("Name"))),
          reference_(make_line(tr("Reference"))),
          phone_(make_line(tr("Number to call"))),
          born_(new DayEdit(texts(), tr("Date of birth"))),
          weight_(new WeightEdit(texts())),
          language_(make_language_choice(tr("Language of the papers"))) {
        add_field(body(), tr("Name"), name_);
        add_field(body(), tr("Reference"), reference_);
        add_field(body(), tr("Number to call"), phone_);
        add_field(body(), tr("Date of birth"), born_);
        add_field(body(), tr("Weight"), weight_);
        add_field(body(), tr("Language of the papers"), language_);
        for (QWidget* field :
             std::initializer_list<QWidget*>{name_, reference_, phone_, born_, weight_, language_})
            watch(field);
    }

  protected:
    void load(const PatientRecord& record) override {
        const Person person = record.person ? record.person->value : Person{};
        name_->setText(to_text(person.name));
        reference_->setText(to_text(person.reference));
        phone_->setText(to_text(person.phone));
        born_->set_day(person.born);
        weight_->set_typed(person.weight_kg ? QLocale::c().toString(*person.weight_kg, 'g', 4) : QString());
        choose_language(*language_, person.language);
        tell_entry(record.person ? &record.person->stamp : nullptr);
    }

    std::optional<std::vector<Change>> collect() override {
        if (!(born_->check() & weight_->check())) return std::nullopt;
        Person person;
        person.name = to_utf8(name_->text().trimmed());
        person.reference = to_utf8(reference_->text().trimmed());
        person.phone = to_utf8(phone_->text().trimmed());
        person.born = born_->day();
        person.weight_kg = weight_->weight();
        person.language = chosen_language(*language_);
        return std::vector<Change>{person};
    }

    QWidget* field_at(const QString& place) override {
        if (place == QStringLiteral("name")) return name_;
        if (place == QStringLiteral("reference")) return reference_;
        if (place == QStringLiteral("weight")) return weight_;
        return place == QStringLiteral("born") ? born_ : nullptr;
    }

  private:
    QLineEdit* name_;
    QLineEdit* reference_;
    QLineEdit* phone_;
    DayEdit* born_;
    WeightEdit* weight_;
    QComboBox* language_;
};

}  // namespace

RecordSection* make_person_section(Workbench& workbench) {
    return new PersonSection(workbench);
}

}  // namespace evenfall::ui
