// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/danger_card.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>
#include <algorithm>
#include <set>
#include <tuple>

#include "controls/buttons.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/why.h"
#include "shell/workbench.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

class DangerMark : public QWidget {
  public:
    explicit DangerMark(QWidget* parent) : QWidget(parent) { setFixedSize(22, 26); }

  protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        draw_weight(painter, QRectF(0, 3, 20, 20), Weight::danger);
    }
};

/// The words of a danger by its rule; those of forms share one.
std::string words_id(const char* kind, const Danger& danger, const Texts& texts) {
    constexpr std::string_view prefix = "red-flag-";
    const std::string& rule = danger.flag.rule;
    const std::string id = "call-" + std::string(kind) + "-" +
                           (rule.starts_with(prefix) ? rule.substr(prefix.size()) : std::string("form"));
    return texts.has(id) ? id : "call-" + std::string(kind) + "-form";
}

QString or_unknown(const std::string& number) {
    return number.empty() ? QObject::tr("(not entered in the clinic's settings)") : to_text(number);
}

}  // namespace

DangerCard::DangerCard(Workbench& workbench, QWidget* parent)
    : Card(parent),
      workbench_(workbench),
      title_(new Label({}, Type::heading, Tone::danger)),
      state_(new Label({}, Type::strong, Tone::danger)),
      where_(make_line(tr("Where is the person?"), tr("Where is the person?"))),
      with_whom_(make_line(tr("Who is with them?"), tr("Who is with them?"))),
      call_back_(make_line(tr("Number to call back"), tr("Number to call back"))),
      write_where_(make_button(tr("Write down"))),
      do_now_(new Label),
      call_(new Label),
      tell_(new Label),
      who_(make_line(tr("Who was told"), tr("Who was told"))),
      number_(make_line(tr("Number that was called"), tr("Number"))),
      answer_(make_line(tr("What they answered"), tr("What they answered"))),
      write_told_(make_button(tr("They have been told"), ButtonKind::primary)) {
    set_meaning(Tone::danger_fill, Tone::danger);
    setAccessibleName(tr("Danger"));
    build();
    hide();
}

void DangerCard::build() {
    auto* head = new QHBoxLayout;
    head->addWidget(new DangerMark(this), 0, Qt::AlignTop);
    head->addWidget(title_->wrapped(), 1);
    head->addWidget(state_, 0, Qt::AlignTop);
    body()->addLayout(head);
    auto* first = new QHBoxLayout;
    first->addWidget(new Label(tr("1"), Type::strong, Tone::danger));
    for (QLineEdit* line : {where_, with_whom_, call_back_}) first->addWidget(line, 1);
    first->addWidget(write_where_);
    body()->addLayout(first);
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(kSpace3);
    grid->setVerticalSpacing(kSpace1);
    grid->setColumnStretch(1, 1);
    int row = 0;
    for (const auto& [number, name, says] :
         {std::tuple{tr("2"), tr("Do now"), do_now_}, std::tuple{tr("3"), tr("Call"), call_},
          std::tuple{tr("4"), tr("Tell the person"), tell_}}) {
        auto* title = new Label(number + QStringLiteral("  ") + name, Type::strong, Tone::danger);
        grid->addWidget(title, row, 0, Qt::AlignTop);
        grid->addWidget(says->wrapped(), row++, 1);
    }
    body()->addLayout(grid);
    auto* last = new QHBoxLayout;
    auto* five = new Label(tr("5"), Type::strong, Tone::danger);
    last->addWidget(five);
    last->addWidget(who_, 2);
    last->addWidget(number_, 1);
    last->addWidget(answer_, 3);
    last->addWidget(write_told_);
    body()->addLayout(last);
    told_row_ = {five, who_, number_, answer_, write_told_};
    connect(write_where_, &QPushButton::clicked, this, &DangerCard::write_whereabouts);
    connect(call_back_, &QLineEdit::returnPressed, this, &DangerCard::write_whereabouts);
    connect(write_told_, &QPushButton::clicked, this, &DangerCard::write_told);
    connect(answer_, &QLineEdit::returnPressed, this, &DangerCard::write_told);
}

void DangerCard::refresh() {
    const PatientRecord* record = workbench_.record();
    const Desk& desk = workbench_.desk();
    const PatientId patient = record ? record->id : PatientId();
    if (shown_ != patient) {
        shown_ = patient;
        shown_noted_.clear();
        show_nobodys_words();
    }
    dangers_ = record ? standing_dangers(*record, desk.rules(), desk.scales(), workbench_.now())
                      : std::vector<Danger>();
    std::erase_if(dangers_, [](const Danger& each) { return each.level == DangerLevel::to_be_asked; });
    setVisible(!dangers_.empty());
    if (dangers_.empty()) return;
    show_words(dangers_.front());
    show_told();
}

/// What stands for one person is never shown, nor written, for another: only their own number is filled in.
void DangerCard::show_nobodys_words() {
    for (QLineEdit* line : {where_, with_whom_, call_back_, who_, number_, answer_}) line->clear();
    const PatientRecord* record = workbench_.record();
    if (record && record->person) call_back_->setText(to_text(record->person->value.phone));
}

void DangerCard::show_words(const Danger& first) {
    QStringList names;
    for (const Danger& each : dangers_) names << workbench_.caption(each.flag);
    title_->setText(names.join(QStringLiteral(" · ")));
    const Clinic clinic = workbench_.desk().clinic();
    const Texts& texts = workbench_.texts();
    const Args numbers = {{"emergency", to_utf8(or_unknown(clinic.emergency_number))},
                          {"crisis", to_utf8(or_unknown(clinic.crisis_number))}};
    do_now_->setText(to_text(texts.text(words_id("do", first, texts), numbers)));
    tell_->setText(QStringLiteral("“%1”").arg(to_text(texts.text(words_id("tell", first, texts), numbers))));
    call_->setText(tr("Emergency %1 · Prescriber, office hours %2 · at other hours %3 · Crisis line %4")
                       .arg(or_unknown(clinic.emergency_number), or_unknown(clinic.phone),
                            or_unknown(clinic.after_hours), or_unknown(clinic.crisis_number)));
}

void DangerCard::show_told() {
    const bool open = !dangers_.front().told.has_value();
    for (QWidget* each : told_row_) each->setVisible(open);
    // Once only: what is being typed over them stays when something else is written down.
    if (const auto& noted = dangers_.front().whereabouts; noted && noted->id != shown_noted_) {
        shown_noted_ = noted->id;
        where_->setText(to_text(noted->value.where));
        with_whom_->setText(to_text(noted->value.with_whom));
        call_back_->setText(to_text(noted->value.call_back));
    }
    if (open) return state_->setText(tr("Nobody has been told yet"));
    const DangerTold& told = dangers_.front().told->value;
    state_->setText(tr("Told: %1, %2 %3: “%4”")
                        .arg(to_text(told.who), text_of(day_of(told.at)), text_of(clock_of(told.at)),
                             to_text(told.answer).left(60)));
}

void DangerCard::ask() {
    where_->setFocus();
}

std::vector<Danger> DangerCard::open_dangers() const {
    std::vector<Danger> open;
    for (const Danger& each : dangers_)
        if (!each.told) open.push_back(each);
    return open.empty() ? dangers_ : open;
}

void DangerCard::write_whereabouts() {
    std::vector<Change> changes;
    std::set<EventId> written;
    for (const Danger& danger : open_dangers())
        if (written.insert(danger.entry).second)
            changes.emplace_back(WhereaboutsNoted{
                danger.entry, workbench_.now(), to_utf8(where_->text().trimmed()),
                to_utf8(with_whom_->text().trimmed()), to_utf8(call_back_->text().trimmed())});
    if (changes.empty() || !workbench_.carry_out(std::move(changes))) return;
    emit this->written({where_, with_whom_, call_back_});
    who_->setFocus();
}

void DangerCard::write_told() {
    std::vector<Change> changes;
    std::set<EventId> written;
    for (const Danger& danger : open_dangers())
        if (written.insert(danger.entry).second)
            changes.emplace_back(DangerTold{danger.entry, workbench_.now(), to_utf8(who_->text().trimmed()),
                                            to_utf8(number_->text().trimmed()),
                                            to_utf8(answer_->text().trimmed())});
    if (changes.empty() || !workbench_.carry_out(std::move(changes))) return;
    for (QLineEdit* line : {who_, number_, answer_}) line->clear();
    emit this->written({who_, number_, answer_});
    emit left();
}

void DangerCard::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) return emit left();
    Card::keyPressEvent(event);
}

}  // namespace evenfall::ui
