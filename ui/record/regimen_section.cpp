// SPDX-License-Identifier: GPL-3.0-or-later
#include <QComboBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLineEdit>

#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "record/row_list.h"
#include "record/sections.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

/// One dose of the day as it is really taken.
class DoseRow : public QWidget {
  public:
    DoseRow(const Texts& texts, const Formulary& formulary)
        : at(new ClockEdit(texts, tr("Time"))),
          drug(make_choice(tr("Agent"), {})),
          amount(new DoseEdit(texts, tr("Amount"))),
          how(make_line(tr("How it is taken"), tr("How: under the tongue, with food"))),
          why(make_line(tr("Why at this hour"), tr("Why: to sleep"))) {
        for (const auto& each : formulary.drugs) drug->addItem(to_text(each.first));
        // Nobody's agent is guessed: the first of the alphabet is not an answer.
        drug->setPlaceholderText(tr("Choose the agent"));
        drug->setCurrentIndex(-1);
        at->set_required(true);
        amount->set_required(true);
        at->setFixedWidth(96);
        drug->setMinimumWidth(150);
        auto* grid = new QGridLayout(this);
        grid->setContentsMargins(0, 0, 0, kSpace2);
        grid->setHorizontalSpacing(kSpace2);
        grid->setVerticalSpacing(kSpace1);
        grid->addWidget(at, 0, 0, Qt::AlignTop);
        grid->addWidget(drug, 0, 1, Qt::AlignTop);
        grid->addWidget(amount, 0, 2, Qt::AlignTop);
        auto* words = new QHBoxLayout;
        words->setSpacing(kSpace2);
        words->addWidget(how);
        words->addWidget(why);
        grid->addLayout(words, 1, 0, 1, 3);
        grid->setColumnStretch(2, 1);
        setFocusProxy(at);
    }

    bool check() { return at->check() & amount->check(); }

    DoseTime dose() const {
        return {at->time().value_or(ClockTime{}), to_utf8(drug->currentText()),
                amount->dose().value_or(Dose()), to_utf8(how->text().trimmed()),
                to_utf8(why->text().trimmed())};
    }

    void show_dose(const DoseTime& dose) {
        at->set_time(dose.at);
        drug->setCurrentText(to_text(dose.drug));
        amount->set_dose(dose.amount);
        how->setText(to_text(dose.how));
        why->setText(to_text(dose.why));
    }

    ClockEdit* at;
    QComboBox* drug;
    DoseEdit* amount;
    QLineEdit* how;
    QLineEdit* why;
};

class RegimenSection : public RecordSection {
  public:
    explicit RegimenSection(Workbench& workbench)
        : RecordSection(workbench, tr("What is taken"),
                        tr("What is really taken, not what is prescribed. A change is a new entry from a day "
                           "on; the old one stays.")),
          from_(new DayEdit(texts(), tr("In force from"))),
          use_(make_choice(tr("How the agent is used"), {})),
          rows_(new RowList(tr("dose"),
                            [this] { return new DoseRow(texts(), this->workbench().desk().formulary()); })),
          sum_(new Label({}, Type::strong, Tone::planned)),
          equal_(new Label({}, Type::note, Tone::soft_ink)) {
        for (const auto& each : Words<Use>::table) use_->addItem(sentence_word(each.first));
        from_->set_required(true);
        auto* head = new QHBoxLayout;
        auto* left = new QVBoxLayout;
        auto* right = new QVBoxLayout;
        add_field(*left, tr("In force from"), from_);
        add_field(*right, tr("How the agent is used"), use_);
        right->addStretch();
        head->addLayout(left);
        head->addLayout(right);
        head->addStretch();
        body().addLayout(head);
        body().addWidget(new Label(tr("Doses of the day"), Type::strong));
        body().addWidget(rows_);
        body().addWidget(sum_->wrapped());
        body().addWidget(equal_->wrapped());
        watch(from_);
        watch(use_);
        connect(rows_, &RowList::added, this,
                [this](QWidget* row) { watch_row(*static_cast<DoseRow*>(row)); });
        connect(rows_, &RowList::changed, this, &RegimenSection::changed);
    }

  protected:
    void load(const PatientRecord& record) override {
        const auto* entry = record.regimens.empty() ? nullptr : &record.regimens.back();
        from_->set_day(entry ? entry->value.regimen.from : workbench().today());
        use_->setCurrentIndex(entry ? static_cast<int>(entry->value.use) : 0);
        rows_->clear();
        if (entry)
            for (const DoseTime& dose : entry->value.regimen.regimen.doses)
                static_cast<DoseRow*>(rows_->add())->show_dose(dose);
        else
            rows_->add();
        tell_entry(entry ? &entry->stamp : nullptr);
        sum_up();
    }

    std::optional<std::vector<Change>> collect() override {
        bool right = from_->check();
        for (QWidget* row : rows_->rows()) right = static_cast<DoseRow*>(row)->check() && right;
        if (!right) return std::nullopt;
        RegimenRecorded recorded;
        recorded.regimen = {*from_->day(), regimen()};
        recorded.use = static_cast<Use>(use_->currentIndex());
        return std::vector<Change>{recorded};
    }

    /// Places read "regimen, dose 2".
    QWidget* field_at(const QString& place) override {
        if (place == QStringLiteral("from")) return from_;
        const int number = place.section(u' ', -1).toInt();
        auto* row = number > 0 ? rows_->row<DoseRow>(static_cast<std::size_t>(number - 1)) : nullptr;
        return row ? row->at : nullptr;
    }

  private:
    Regimen regimen() const {
        Regimen all;
        for (QWidget* row : rows_->rows()) all.doses.push_back(static_cast<DoseRow*>(row)->dose());
        std::ranges::stable_sort(all.doses, {}, &DoseTime::at);
        return all;
    }

    void watch_row(DoseRow& row) {
        for (QWidget* field : std::initializer_list<QWidget*>{row.at, row.drug, row.amount, row.how, row.why})
            watch(field);
        connect(row.amount, &TypedField::edited, this, &RegimenSection::sum_up);
        connect(row.drug, &QComboBox::currentIndexChanged, this, &RegimenSection::sum_up);
    }

    void changed() {
        mark_dirty();
        sum_up();
    }

    void sum_up() {
        const Regimen all = regimen();
        QStringList sums;
        DiazepamRange diazepam{};
        bool every = true;
        for (const std::string& agent : agents_of(all)) {
            const Dose daily = daily_amount(all, agent);
            if (daily.is_zero()) continue;
            sums << tr("%1 %2 a day").arg(to_text(agent), text_of(daily));
            const Drug* drug = workbench().desk().formulary().find(agent);
            every = every && drug && drug->equivalence;
            if (drug && drug->equivalence) diazepam = diazepam + as_diazepam(daily, *drug->equivalence);
        }
        sum_->setText(sums.join(QStringLiteral(" · ")));
        equal_->setText(
            sums.isEmpty() || (every && diazepam.least == diazepam.most) ? QString()
            : every
                ? tr("About %1 of diazepam by the usual equivalence; published figures range from %2 to %3. "
                     "An equivalence is a starting point, not a conversion.")
                      .arg(text_of(diazepam.usual), text_of(diazepam.least), text_of(diazepam.most))
                : tr("One of these agents has no published equivalence here."));
        equal_->setVisible(!equal_->text().isEmpty());
    }

    DayEdit* from_;
    QComboBox* use_;
    RowList* rows_;
    Label* sum_;
    Label* equal_;
};

}  // namespace

RecordSection* make_regimen_section(Workbench& workbench) {
    return new RegimenSection(workbench);
}

}  // namespace evenfall::ui
