// SPDX-License-Identifier: GPL-3.0-or-later
#include <QGridLayout>
#include <QPlainTextEdit>
#include <map>

#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "record/sections.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr std::string_view kItem = "symptom.";

class BaselineSection : public RecordSection {
  public:
    explicit BaselineSection(Workbench& workbench)
        : RecordSection(workbench, tr("Symptoms before the first cut"),
                        tr("0 none, 10 worst. What was there before can later be told from withdrawal. Blank "
                           "means not asked.")),
          on_(new DayEdit(texts(), tr("Asked on"))),
          note_(make_lines(tr("Note"), 2)) {
        on_->set_required(true);
        add_field(body(), tr("Asked on"), on_);
        auto* grid = new QGridLayout;
        grid->setHorizontalSpacing(kSpace3);
        grid->setVerticalSpacing(kSpace1);
        int at = 0;
        for (const auto& [id, name] : texts().all()) {
            if (!id.starts_with(kItem)) continue;
            auto* field = new WholeEdit(texts(), to_text(name), 0, 10, tr("of 10"));
            const int column = (at % 2) * 2;
            grid->addWidget(new Label(to_text(name)), at / 2, column);
            grid->addWidget(field, at++ / 2, column + 1);
            watch(field);
            items_[id.substr(kItem.size())] = field;
        }
        body().addLayout(grid);
        add_field(body(), tr("Note"), note_);
        watch(on_);
        watch(note_);
    }

  protected:
    void load(const PatientRecord& record) override {
        const auto& entry = record.baseline;
        on_->set_day(entry ? entry->value.on : workbench().today());
        note_->setPlainText(entry ? to_text(entry->value.note) : QString());
        other_items_.clear();
        for (auto& [item, field] : items_) field->set_number(std::nullopt);
        if (entry)
            for (const auto& [item, severity] : entry->value.severity) {
                if (const auto found = items_.find(item); found != items_.end())
                    found->second->set_number(severity);
                else
                    other_items_[item] = severity;
            }
        tell_entry(entry ? &entry->stamp : nullptr);
    }
    std::optional<std::vector<Change>> collect() override {
        Baseline baseline;
        baseline.severity = other_items_;  // what this list does not know is kept as it was
        bool right = on_->check();
        for (auto& [item, field] : items_) {
            right = field->check() && right;
            if (const auto severity = field->number()) baseline.severity[item] = *severity;
        }
        if (!right) return std::nullopt;
        baseline.on = *on_->day();
        baseline.note = to_utf8(note_->toPlainText().trimmed());
        return std::vector<Change>{baseline};
    }
    QWidget* field_at(const QString& place) override {
        const auto found = items_.find(to_utf8(place));
        return found == items_.end() ? static_cast<QWidget*>(on_) : found->second;
    }

  private:
    DayEdit* on_;
    QPlainTextEdit* note_;
    std::map<std::string, WholeEdit*> items_;
    std::map<std::string, int> other_items_;
};

}  // namespace

RecordSection* make_baseline_section(Workbench& workbench) {
    return new BaselineSection(workbench);
}

}  // namespace evenfall::ui
