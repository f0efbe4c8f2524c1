// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCheckBox>
#include <QHBoxLayout>
#include <QLineEdit>

#include "controls/form.h"
#include "controls/typed_field.h"
#include "record/row_list.h"
#include "record/sections.h"
#include "texts/render.h"
#include "theme/theme.h"

// The parts of the record that are lists: other medicines, and who stands by the person.

namespace evenfall::ui {
namespace {

QHBoxLayout* row_of(QWidget* holder, std::initializer_list<QWidget*> parts) {
    auto* row = new QHBoxLayout(holder);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(kSpace2);
    for (QWidget* part : parts) row->addWidget(part, 1);
    return row;
}

struct MedicineRow : QWidget {
    MedicineRow()
        : name(make_line(QObject::tr("Medicine"), QObject::tr("Medicine"))),
          note(make_line(QObject::tr("Note on it"), QObject::tr("Dose, since when, by whom"))) {
        row_of(this, {name, note});
        setFocusProxy(name);
    }
    QLineEdit* name;
    QLineEdit* note;
};

class MedicinesSection : public RecordSection {
  public:
    explicit MedicinesSection(Workbench& workbench)
        : RecordSection(workbench, tr("Other medicines"),
                        tr("Opioids, other sedatives and whatever else is taken, prescribed or not.")),
          rows_(new RowList(tr("medicine"), [] { return new MedicineRow; })),
          naloxone_(new QCheckBox(tr("Naloxone is at home"))) {
        naloxone_->setAccessibleName(naloxone_->text());
        body().addWidget(rows_);
        body().addWidget(naloxone_);
        watch(naloxone_);
        connect(rows_, &RowList::changed, this, &MedicinesSection::mark_dirty);
        connect(rows_, &RowList::added, this, [this](QWidget* row) {
            watch(static_cast<MedicineRow*>(row)->name);
            watch(static_cast<MedicineRow*>(row)->note);
        });
    }

  protected:
    void load(const PatientRecord& record) override {
        rows_->clear();
        const OtherMedicines others =
            record.other_medicines ? record.other_medicines->value : OtherMedicines{};
        for (const OtherMedicine& each : others.medicines) {
            auto* row = static_cast<MedicineRow*>(rows_->add());
            row->name->setText(to_text(each.name));
            row->note->setText(to_text(each.note));
        }
        naloxone_->setChecked(others.naloxone_at_home);
        tell_entry(record.other_medicines ? &record.other_medicines->stamp : nullptr);
    }
    std::optional<std::vector<Change>> collect() override {
        OtherMedicines others;
        for (QWidget* each : rows_->rows()) {
            const auto* row = static_cast<MedicineRow*>(each);
            others.medicines.push_back(
                {to_utf8(row->name->text().trimmed()), to_utf8(row->note->text().trimmed())});
        }
        others.naloxone_at_home = naloxone_->isChecked();
        return std::vector<Change>{others};
    }
    /// Places read "medicine 2".
    QWidget* field_at(const QString& place) override {
        auto* row = rows_->row<MedicineRow>(
            static_cast<std::size_t>(std::max(0, place.section(u' ', -1).toInt() - 1)));
        return row ? row->name : nullptr;
    }

  private:
    RowList* rows_;
    QCheckBox* naloxone_;
};

struct SupporterRow : QWidget {
    SupporterRow()
        : name(make_line(QObject::tr("Name"), QObject::tr("Name"))),
          relation(make_line(QObject::tr("Who they are to the person"),
                             QObject::tr("Sister, therapist, pharmacy"))),
          phone(make_line(QObject::tr("Phone"), QObject::tr("Phone"))),
          consent(new QCheckBox(QObject::tr("May be contacted"))) {
        consent->setAccessibleName(QObject::tr("The person agrees that they may be contacted"));
        row_of(this, {name, relation, phone})->addWidget(consent);
        setFocusProxy(name);
    }
    QLineEdit* name;
    QLineEdit* relation;
    QLineEdit* phone;
    QCheckBox* consent;
};

class SupportsSection : public RecordSection {
  public:
    explicit SupportsSection(Workbench& workbench)
        : RecordSection(workbench, tr("Supports"),
                        tr("Who stands by this person. Nobody is contacted without the person's consent.")),
          rows_(new RowList(tr("supporter"), [] { return new SupporterRow; })),
          times_(make_line(tr("Safe times to phone"), tr("Weekdays after 17:00; never on the landline"))) {
        body().addWidget(rows_);
        add_field(body(), tr("Safe times to phone"), times_);
        watch(times_);
        connect(rows_, &RowList::changed, this, &SupportsSection::mark_dirty);
        connect(rows_, &RowList::added, this, [this](QWidget* each) {
            auto* row = static_cast<SupporterRow*>(each);
            for (QWidget* field :
                 std::initializer_list<QWidget*>{row->name, row->relation, row->phone, row->consent})
                watch(field);
        });
    }

  protected:
    void load(const PatientRecord& record) override {
        rows_->clear();
        const Supports supports = record.supports ? record.supports->value : Supports{};
        for (const Supporter& each : supports.people) {
            auto* row = static_cast<SupporterRow*>(rows_->add());
            row->name->setText(to_text(each.name));
            row->relation->setText(to_text(each.relation));
            row->phone->setText(to_text(each.phone));
            row->consent->setChecked(each.may_be_contacted);
        }
        times_->setText(to_text(supports.safe_times));
        tell_entry(record.supports ? &record.supports->stamp : nullptr);
    }
    std::optional<std::vector<Change>> collect() override {
        Supports supports;
        for (QWidget* each : rows_->rows()) {
            const auto* row = static_cast<SupporterRow*>(each);
            supports.people.push_back({to_utf8(row->name->text().trimmed()),
                                       to_utf8(row->relation->text().trimmed()),
                                       to_utf8(row->phone->text().trimmed()), row->consent->isChecked()});
        }
        supports.safe_times = to_utf8(times_->text().trimmed());
        return std::vector<Change>{supports};
    }
    QWidget* field_at(const QString&) override { return times_; }

  private:
    RowList* rows_;
    QLineEdit* times_;
};

}  // namespace

RecordSection* make_medicines_section(Workbench& workbench) {
    return new MedicinesSection(workbench);
}
RecordSection* make_supports_section(Workbench& workbench) {
    return new SupportsSection(workbench);
}

}  // namespace evenfall::ui
