// SPDX-License-Identifier: GPL-3.0-or-later
#include <QComboBox>
#include <QLineEdit>
#include <QPlainTextEdit>

#include "controls/form.h"
#include "controls/typed_field.h"
#include "record/sections.h"
#include "texts/render.h"

// The parts of the record that are mostly words.

namespace evenfall::ui {
namespace {

std::string words_in(const QPlainTextEdit* lines) {
    return to_utf8(lines->toPlainText().trimmed());
}

class HistorySection : public RecordSection {
  public:
    explicit HistorySection(Workbench& workbench)
        : RecordSection(
              workbench, tr("Why and since when"),
              tr("What the agent was prescribed for may come back; its present treatment belongs here.")),
          taken_for_(make_line(tr("Taken for"))),
          since_(new DayEdit(texts(), tr("Since"))),
          treatment_(make_lines(tr("Present treatment of that"), 2)),
          attempts_(make_lines(tr("Earlier attempts"), 3)),
          note_(make_lines(tr("Note"), 2)) {
        add_field(body(), tr("Taken for"), taken_for_);
        add_field(body(), tr("Since"), since_);
        add_field(body(), tr("Present treatment of that"), treatment_);
        add_field(body(), tr("Earlier attempts"), attempts_,
                  tr("How fast, how far, what was hard, what helped."));
        add_field(body(), tr("Note"), note_);
        for (QWidget* field :
             std::initializer_list<QWidget*>{taken_for_, since_, treatment_, attempts_, note_})
            watch(field);
    }

  protected:
    void load(const PatientRecord& record) override {
        const History history = record.history ? record.history->value : History{};
        taken_for_->setText(to_text(history.taken_for));
        since_->set_day(history.since);
        treatment_->setPlainText(to_text(history.treatment));
        attempts_->setPlainText(to_text(history.earlier_attempts));
        note_->setPlainText(to_text(history.note));
        tell_entry(record.history ? &record.history->stamp : nullptr);
    }
    std::optional<std::vector<Change>> collect() override {
        if (!since_->check()) return std::nullopt;
        return std::vector<Change>{History{to_utf8(taken_for_->text().trimmed()), since_->day(),
                                           words_in(treatment_), words_in(attempts_), words_in(note_)}};
    }
    QWidget* field_at(const QString& place) override {
        return place == QStringLiteral("since") ? static_cast<QWidget*>(since_) : taken_for_;
    }

  private:
    QLineEdit* taken_for_;
    DayEdit* since_;
    QPlainTextEdit* treatment_;
    QPlainTextEdit* attempts_;
    QPlainTextEdit* note_;
};

class GoalsSection : public RecordSection {
  public:
    explicit GoalsSection(Workbench& workbench)
        : RecordSection(workbench, tr("Goals and confidence"),
                        tr("What matters to this person, in their own words.")),
          goals_(make_lines(tr("Goals, one a line"), 4)),
          confidence_(new WholeEdit(texts(), tr("Confidence"), 0, 10, tr("of 10"))),
          note_(make_lines(tr("Note"), 2)) {
        add_field(body(), tr("Goals, one a line"), goals_);
        add_field(body(), tr("How confident are they?"), confidence_, tr("0 not at all, 10 entirely."));
        add_field(body(), tr("Note"), note_);
        for (QWidget* field : std::initializer_list<QWidget*>{goals_, confidence_, note_}) watch(field);
    }

  protected:
    void load(const PatientRecord& record) override {
        const Goals goals = record.goals ? record.goals->value : Goals{};
        QStringList lines;
        for (const std::string& goal : goals.goals) lines << to_text(goal);
        goals_->setPlainText(lines.join(u'\n'));
        confidence_->set_number(goals.confidence);
        note_->setPlainText(to_text(goals.note));
        tell_entry(record.goals ? &record.goals->stamp : nullptr);
    }
    std::optional<std::vector<Change>> collect() override {
        if (!confidence_->check()) return std::nullopt;
        Goals goals;
        for (const QString& line : goals_->toPlainText().split(u'\n', Qt::SkipEmptyParts))
            if (!line.trimmed().isEmpty()) goals.goals.push_back(to_utf8(line.trimmed()));
        goals.confidence = confidence_->number();
        goals.note = words_in(note_);
        return std::vector<Change>{goals};
    }
    QWidget* field_at(const QString& place) override {
        return place == QStringLiteral("confidence") ? static_cast<QWidget*>(confidence_) : goals_;
    }

  private:
    QPlainTextEdit* goals_;
    WholeEdit* confidence_;
    QPlainTextEdit* note_;
};

class LifestyleSection : public RecordSection {
  public:
    explicit LifestyleSection(Workbench& workbench)
        : RecordSection(workbench, tr("Lifestyle"),
                        tr("What carries this person through the day, and what could.")) {
        const std::pair<std::string Lifestyle::*, QString> parts[] = {
            {&Lifestyle::meals, tr("Meals, fruit and vegetables")},
            {&Lifestyle::movement, tr("Movement")},
            {&Lifestyle::daylight, tr("Daylight")},
            {&Lifestyle::sleep, tr("Sleep habits")},
            {&Lifestyle::skills, tr("Skills for distress")},
            {&Lifestyle::substances, tr("Alcohol, caffeine, nicotine and others")}};
        for (const auto& [member, name] : parts) {
            auto* field = make_lines(name, 2);
            add_field(body(), name, field);
            watch(field);
            fields_.emplace_back(member, field);
        }
    }

  protected:
    void load(const PatientRecord& record) override {
        const Lifestyle life = record.lifestyle ? record.lifestyle->value : Lifestyle{};
        for (auto& [member, field] : fields_) field->setPlainText(to_text(life.*member));
        tell_entry(record.lifestyle ? &record.lifestyle->stamp : nullptr);
    }
    std::optional<std::vector<Change>> collect() override {
        Lifestyle life;
        for (auto& [member, field] : fields_) life.*member = words_in(field);
        return std::vector<Change>{life};
    }

  private:
    std::vector<std::pair<std::string Lifestyle::*, QPlainTextEdit*>> fields_;
};

class CuttingSection : public RecordSection {
  public:
    explicit CuttingSection(Workbench& workbench)
        : RecordSection(workbench, tr("Cutting tablets"),
                        tr("The finest piece that this person, or their helper, can make at home.")),
          finest_(make_choice(tr("Finest piece"), {})),
          helper_(make_line(tr("Who helps"))) {
        for (const auto& each : Words<Cuts>::table) finest_->addItem(sentence_word(each.first));
        add_field(body(), tr("Finest piece"), finest_);
        add_field(body(), tr("Who helps"), helper_);
        watch(finest_);
        watch(helper_);
    }

  protected:
    void load(const PatientRecord& record) override {
        const CuttingAbility cutting = record.cutting ? record.cutting->value : CuttingAbility{};
        finest_->setCurrentIndex(static_cast<int>(cutting.finest));
        helper_->setText(to_text(cutting.helper));
        tell_entry(record.cutting ? &record.cutting->stamp : nullptr);
    }
    std::optional<std::vector<Change>> collect() override {
        return std::vector<Change>{
            CuttingAbility{static_cast<Cuts>(finest_->currentIndex()), to_utf8(helper_->text().trimmed())}};
    }
    QWidget* field_at(const QString&) override { return helper_; }

  private:
    QComboBox* finest_;
    QLineEdit* helper_;
};

class ContactSection : public RecordSection {
  public:
    explicit ContactSection(Workbench& workbench)
        : RecordSection(workbench, tr("Contact and notes"),
                        tr("When this person is next seen or called, and a note for the record.")),
          on_(new DayEdit(texts(), tr("Next contact"))),
          how_(make_choice(tr("How"), {tr("Call"), tr("Visit")})),
          note_(make_lines(tr("Note"), 4)) {
        add_field(body(), tr("Next contact"), on_);
        add_field(body(), tr("How"), how_);
        add_field(body(), tr("Note"), note_);
        for (QWidget* field : std::initializer_list<QWidget*>{on_, how_, note_}) watch(field);
    }

  protected:
    void load(const PatientRecord& record) override {
        before_ = record.next_contact ? std::optional(record.next_contact->value) : std::nullopt;
        on_->set_day(before_ ? std::optional(before_->on) : std::nullopt);
        how_->setCurrentIndex(before_ && before_->how == "visit" ? 1 : 0);
        note_->clear();
        tell_entry(record.next_contact ? &record.next_contact->stamp : nullptr);
    }
    std::optional<std::vector<Change>> collect() override {
        if (!on_->check()) return std::nullopt;
        std::vector<Change> changes;
        if (on_->day()) {
            const ContactPlanned planned{*on_->day(), how_->currentIndex() == 1 ? "visit" : "call"};
            if (!before_ || *before_ != planned) changes.push_back(planned);
        }
        if (const std::string note = words_in(note_); !note.empty()) changes.push_back(NoteAdded{note});
        if (changes.empty()) return std::nullopt;
        return changes;
    }
    QWidget* field_at(const QString& place) override {
        return place == QStringLiteral("note") ? static_cast<QWidget*>(note_) : on_;
    }

  private:
    std::optional<ContactPlanned> before_;
    DayEdit* on_;
    QComboBox* how_;
    QPlainTextEdit* note_;
};

}  // namespace

RecordSection* make_history_section(Workbench& workbench) {
    return new HistorySection(workbench);
}
RecordSection* make_goals_section(Workbench& workbench) {
    return new GoalsSection(workbench);
}
RecordSection* make_lifestyle_section(Workbench& workbench) {
    return new LifestyleSection(workbench);
}
RecordSection* make_cutting_section(Workbench& workbench) {
    return new CuttingSection(workbench);
}
RecordSection* make_contact_section(Workbench& workbench) {
    return new ContactSection(workbench);
}

}  // namespace evenfall::ui
