// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/day_entry.h"

#include <QAccessible>
#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPushButton>
#include <algorithm>
#include <set>

#include "casework/record_check.h"
#include "controls/buttons.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "diary/days.h"
#include "diary/diary_words.h"
#include "diary/dose_entry.h"
#include "diary/score_cell.h"
#include "shell/workbench.h"
#include "stabilization/dosing.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

constexpr int kScoreColumns = 4;

/// The symptoms to ask about: those rated before and those of the baseline; where there are none, the
/// clinic's list.
std::vector<std::string> items_to_ask(const PatientRecord& record, const Diary& diary) {
    std::set<std::string> items;
    for (const Rating& rating : diary.ratings) items.insert(rating.item);
    if (record.baseline)
        for (const auto& [item, severity] : record.baseline->value.severity) items.insert(item);
    if (items.empty()) return listed_symptoms();
    return in_list_order({items.begin(), items.end()});
}

}  // namespace

DayEntry::DayEntry(Workbench& workbench, QWidget* parent)
    : Card(parent),
      workbench_(workbench),
      day_(new DayEdit(workbench.texts(), tr("Diary day"))),
      nothing_(new QCheckBox(tr("Nothing was taken"))),
      dose_column_(new QVBoxLayout),
      score_grid_(new QGridLayout),
      rated_at_(new ClockEdit(workbench.texts(), tr("Symptoms rated at"))),
      already_(new Label({}, Type::note, Tone::soft_ink)),
      message_(new Label({}, Type::text, Tone::planned)),
      keys_(new Label({}, Type::note, Tone::soft_ink)) {
    setAccessibleName(tr("Enter a day"));
    build_top();
    body()->addLayout(dose_column_);
    build_symptoms();
    body()->addWidget(message_->wrapped());
    message_->setAccessibleName({});
    message_->hide();
    day_->edit()->installEventFilter(this);
    connect(day_, &TypedField::edited, this, [this] {
        if (day_->day()) show_day();
    });
    hide();
}

void DayEntry::build_top() {
    auto* top = new QHBoxLayout;
    top->setSpacing(kSpace2);
    day_->setFixedWidth(256);
    day_->set_required(true);
    auto* as_planned = make_button(tr("As planned (P)"));
    auto* other = make_button(tr("Another dose"));
    auto* save = make_button(tr("Save (Enter)"), ButtonKind::primary);
    auto* leave = make_icon_button(QStringLiteral("close"), tr("Leave day entry (Escape)"));
    top->addWidget(day_, 0, Qt::AlignTop);
    for (QWidget* each : std::initializer_list<QWidget*>{as_planned, other, nothing_})
        top->addWidget(each, 0, Qt::AlignTop);
    top->addStretch();
    top->addWidget(save, 0, Qt::AlignTop);
    top->addWidget(leave, 0, Qt::AlignTop);
    body()->addLayout(top);
    body()->addWidget(already_->wrapped());
    connect(as_planned, &QPushButton::clicked, this, &DayEntry::fill_as_planned);
    connect(other, &QPushButton::clicked, this, [this] { add_dose()->setFocus(); });
    connect(save, &QPushButton::clicked, this, &DayEntry::commit);
    connect(leave, &QToolButton::clicked, this, &DayEntry::left);
}

void DayEntry::build_symptoms() {
    auto* head = new QHBoxLayout;
    auto* title = new Label(tr("Symptoms, rated at"), Type::strong);
    title->setBuddy(rated_at_->edit());
    rated_at_->setFixedWidth(84);
    keys_->setText(tr("0 to 9, X for 10, Backspace takes it out"));
    head->addWidget(title);
    head->addWidget(rated_at_);
    head->addWidget(keys_);
    head->addStretch();
    body()->addLayout(head);
    score_grid_->setHorizontalSpacing(kSpace3);
    score_grid_->setVerticalSpacing(kSpace1);
    for (int column = 0; column < kScoreColumns; ++column) score_grid_->setColumnStretch(column, 1);
    body()->addLayout(score_grid_);
    watch_keys(rated_at_);
}

Day DayEntry::running_day() const {
    return diary_day_of(workbench_.now(), diary_day_begins(workbench_.desk().rules()));
}

void DayEntry::open(Day day) {
    const PatientRecord* record = workbench_.record();
    if (!record) return;
    begins_ = diary_day_begins(workbench_.desk().rules());
    say({}, false);
    day_->set_day(day);
    show_day();
    show();
    day_->edit()->setFocus();
    day_->edit()->selectAll();
}

void DayEntry::clear() {
    for (DoseEntry* dose : doses_) dose->deleteLater();
    doses_.clear();
    nothing_->setChecked(false);
    for (ScoreCell* cell : scores_) cell->set_score(std::nullopt);
}

void DayEntry::show_day() {
    const PatientRecord* record = workbench_.record();
    if (!record || !day_->day()) return;
    clear();
    diary_ = diary_of(*record);
    const Day day = *day_->day();
    const auto input = check_input_of(*record, workbench_.course(), workbench_.now());
    const Regimen* regimen = stabilization::regimen_on(input.intended, day);
    planned_ = regimen ? regimen->doses : std::vector<DoseTime>();
    rated_at_->set_time(day == running_day() ? std::optional(clock_of(workbench_.now())) : std::nullopt);
    QStringList there;
    for (const Intake& entry : diary_.intake)
        if (diary_day_of(entry.taken_at, begins_) == day) there << entry_words(entry);
    int rated = 0;
    for (const Rating& rating : diary_.ratings) rated += diary_day_of(rating.rated_at, begins_) == day;
    if (rated > 0) there << (rated == 1 ? tr("one symptom rated") : tr("%1 symptoms rated").arg(rated));
    already_->setText(there.isEmpty()
                          ? tr("Nothing is written down for this day yet.")
                          : tr("Already written down: %1.").arg(there.join(QStringLiteral("; "))));
    make_scores();
}

void DayEntry::make_scores() {
    const auto items = items_to_ask(*workbench_.record(), diary_);
    const bool same = std::ranges::equal(items, scores_, {}, {}, &ScoreCell::item);
    if (same) return;
    for (ScoreCell* cell : scores_) cell->deleteLater();
    scores_.clear();
    QWidget* before = rated_at_->edit();
    for (const std::string& item : items) {
        auto* cell = new ScoreCell(item, this);
        const int at = static_cast<int>(scores_.size());
        score_grid_->addWidget(cell, at / kScoreColumns, at % kScoreColumns);
        setTabOrder(before, cell);
        before = cell;
        scores_.push_back(cell);
        connect(cell, &ScoreCell::scored, this, [this, cell] { go_from(cell, 1); });
        connect(cell, &ScoreCell::step_wanted, this, [this, cell](int by) { go_from(cell, by); });
    }
}

DoseEntry* DayEntry::add_dose() {
    auto* dose = new DoseEntry(workbench_.texts(), workbench_.desk().formulary(), this);
    dose_column_->addWidget(dose);
    setTabOrder(doses_.empty() ? static_cast<QWidget*>(nothing_) : doses_.back()->why(), dose->taken());
    setTabOrder(dose->taken(), dose->at()->edit());
    doses_.push_back(dose);
    if (!planned_.empty()) dose->set_drug(planned_.front().drug);
    watch_keys(dose->at());
    watch_keys(dose->amount());
    dose->show();
    return dose;
}

/// Takes the entry that stands nearest to a planned dose out of what is written, so that no dose is entered
/// twice.
bool DayEntry::take_written(std::vector<Intake>& written, const DoseTime& planned, Day day) const {
    constexpr auto kReach = std::chrono::hours(6);
    const LocalTime wanted = time_in_diary_day(day, planned.at, begins_);
    auto nearest = written.end();
    for (auto each = written.begin(); each != written.end(); ++each)
        if (each->drug == planned.drug && std::chrono::abs(each->taken_at - wanted) <= kReach &&
            (nearest == written.end() ||
             std::chrono::abs(each->taken_at - wanted) < std::chrono::abs(nearest->taken_at - wanted)))
            nearest = each;
    if (nearest == written.end()) return false;
    written.erase(nearest);
    return true;
}

void DayEntry::fill_as_planned() {
    if (planned_.empty())
        return say(tr("No regimen is recorded for this day. Add what was taken dose by dose."), true);
    for (DoseEntry* dose : doses_) dose->deleteLater();
    doses_.clear();
    nothing_->setChecked(false);
    int later = 0;
    std::vector<Intake> there;
    for (const Intake& entry : diary_.intake)
        if (diary_day_of(entry.taken_at, begins_) == *day_->day()) there.push_back(entry);
    for (const DoseTime& planned : planned_) {
        if (take_written(there, planned, *day_->day())) continue;  // it is in the diary already
        // What lies ahead cannot have been taken yet.
        const bool past = time_in_diary_day(*day_->day(), planned.at, begins_) <= workbench_.now();
        later += !past;
        add_dose()->plan(planned, past);
    }
    if (doses_.empty()) return say(tr("All planned doses of this day are written down already."), false);
    say(later == 0 ? tr("Filled in as planned. Change what was not so; Enter saves.")
                   : tr("Filled in as planned; %1 of the doses lie ahead and are left open. Enter saves.")
                         .arg(later),
        false);
    (scores_.empty() ? static_cast<QWidget*>(doses_.front()) : scores_.front())->setFocus();
}

void DayEntry::watch_keys(QWidget* field) {
    for (QLineEdit* edit : field->findChildren<QLineEdit*>()) edit->installEventFilter(this);
}

bool DayEntry::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::KeyPress) return Card::eventFilter(watched, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    if (key->modifiers() == Qt::NoModifier &&
        key->key() == Qt::Key_P) {  // never part of a date, a time or an amount
        fill_as_planned();
        return true;
    }
    if (watched == day_->edit() && key->modifiers() == Qt::NoModifier &&
        (key->key() == Qt::Key_Up || key->key() == Qt::Key_Down)) {
        move_day(key->key() == Qt::Key_Up ? 1 : -1);
        return true;
    }
    return Card::eventFilter(watched, event);
}

void DayEntry::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        commit();
    } else if (event->key() == Qt::Key_Escape) {
        emit left();
    } else if (event->key() == Qt::Key_P && event->modifiers() == Qt::NoModifier) {
        fill_as_planned();
    } else {
        Card::keyPressEvent(event);
    }
}

void DayEntry::go_from(ScoreCell* cell, int by) {
    const auto at = std::ranges::find(scores_, cell) - scores_.begin() + by;
    if (at >= 0 && at < std::ssize(scores_)) scores_[static_cast<std::size_t>(at)]->setFocus();
}

void DayEntry::move_day(int by) {
    const auto day = day_->day();
    if (day && *day + std::chrono::days(by) <= running_day()) day_->set_day(*day + std::chrono::days(by));
    if (day) show_day();
}

void DayEntry::say(const QString& text, bool wrong) {
    message_->set_tone(wrong ? Tone::presses : Tone::planned);
    message_->setText(text);
    message_->setVisible(!text.isEmpty());
    QAccessibleEvent told(message_, QAccessible::Alert);
    QAccessible::updateAccessibility(&told);
}

QString DayEntry::message() const {
    return message_->text();
}

}  // namespace evenfall::ui
