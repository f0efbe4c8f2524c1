// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/patient_band.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QVBoxLayout>
#include <algorithm>

#include "controls/buttons.h"
#include "controls/label.h"
#include "controls/why.h"
#include "texts/render.h"
#include "theme/icons.h"
#include "theme/paint_parts.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr int kBandHeight = 84;
constexpr int kPillWords = 150;
constexpr int kPillFrame = 54;  // its mark and its round ends
constexpr int kLeastName = 176;
constexpr int kMostName = 340;

QString initials(const std::string& name) {
    QString letters;
    for (const QString& part : to_text(name).split(u' ', Qt::SkipEmptyParts)) letters += part[0].toUpper();
    return letters.left(3);
}

class RiskMark : public QWidget {
  public:
    explicit RiskMark(QWidget* parent = nullptr) : QWidget(parent) { setFixedSize(14, 14); }

  protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        draw_weight(painter, QRectF(rect()), Weight::presses);
    }
};

}  // namespace

PressPill::PressPill(Workbench& workbench, QWidget* parent) : QPushButton(parent), workbench_(workbench) {
    setCursor(Qt::PointingHandCursor);
    setFont(type(Type::strong));
    setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Fixed);
    connect(this, &QPushButton::clicked, this, [this] { show_explanation(workbench_, reason_.flag, this); });
}

void PressPill::set_reason(const std::optional<Reason>& reason) {
    const bool presses = reason && reason->urgency != Urgency::steady;
    setVisible(presses);
    if (!presses) return;
    reason_ = *reason;
    setText(workbench_.caption(reason_.flag));
    setToolTip(text());
    setAccessibleName(tr("%1 Why?").arg(text()));
    updateGeometry();
}

QSize PressPill::sizeHint() const {
    const int words = fontMetrics().horizontalAdvance(text());
    return {std::min(words, kPillWords) + kPillFrame, 2 * fontMetrics().lineSpacing() + kSpace3};
}

/// Where the window is narrow the words stand on two lines.
QSize PressPill::minimumSizeHint() const {
    int longest = 0;
    for (const QString& word : text().split(u' '))
        longest = std::max(longest, fontMetrics().horizontalAdvance(word));
    const int half = fontMetrics().horizontalAdvance(text()) / 2 + longest / 2;
    return {std::min(std::max(longest, half) + kPillFrame, sizeHint().width()), sizeHint().height()};
}

void PressPill::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const bool danger = reason_.urgency == Urgency::red_flag;
    const Tone ink = danger ? Tone::danger : Tone::presses;
    draw_box(painter, rect(), tone(danger ? Tone::danger_fill : Tone::presses_fill),
             tone(hasFocus() ? Tone::focus : ink), hasFocus() ? data_line() : structure_line(),
             std::min(19.0, height() / 2.0));
    draw_weight(painter, QRectF(13, (height() - 16) / 2.0, 16, 16),
                danger ? Weight::danger : Weight::presses);
    painter.setPen(tone(ink));
    painter.setFont(font());
    const QRect room = rect().adjusted(36, 0, -12, 0);
    // Two lines at most; what is longer is in the tool tip.
    const QString shown = fontMetrics().elidedText(text(), Qt::ElideRight, 2 * kPillWords - 30);
    painter.drawText(room, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap, shown);
}

PatientBand::PatientBand(Workbench& workbench, QWidget* parent)
    : QWidget(parent),
      workbench_(workbench),
      contents_(new QWidget),
      name_(new ElidedLabel({}, Type::title)),
      about_(new ElidedLabel({}, Type::note, Tone::soft_ink)),
      dangers_(new QWidget),
      danger_words_(new ElidedLabel({}, Type::note, Tone::presses)),
      dose_(new Label({}, Type::dose, Tone::planned)),
      drug_(new ElidedLabel({}, Type::text, Tone::soft_ink)),
      times_(new Label({}, Type::note)),
      step_(new Label({}, Type::strong)),
      day_(new Label({}, Type::text, Tone::soft_ink)),
      contact_title_(new Label(tr("Next contact"), Type::text, Tone::soft_ink)),
      contact_(new Label({}, Type::strong)),
      pill_(new PressPill(workbench)) {
    setFixedHeight(kBandHeight);
    auto* who = new QVBoxLayout;
    who->setSpacing(1);
    auto* danger_row = new QHBoxLayout(dangers_);
    danger_row->setContentsMargins(0, 0, 0, 0);
    danger_row->setSpacing(5);
    danger_row->addWidget(new RiskMark);
    danger_row->addWidget(danger_words_, 1);
    who->addStretch();
    for (QWidget* part : {static_cast<QWidget*>(name_), static_cast<QWidget*>(about_), dangers_})
        who->addWidget(part);
    who->addStretch();

    auto* amount = new QHBoxLayout;
    amount->setSpacing(kSpace3);
    amount->addWidget(dose_, 0, Qt::AlignBottom);
    amount->addWidget(drug_, 1, Qt::AlignBottom);
    auto* dose = new QVBoxLayout;
    dose->setSpacing(0);
    dose->addStretch();
    dose->addLayout(amount);
    dose->addWidget(times_);
    dose->addStretch();

    auto* columns = new QHBoxLayout(contents_);
    columns->setContentsMargins(0, 0, 0, 0);
    columns->setSpacing(kSpace4);
    name_->setMinimumWidth(kLeastName);
    times_->wrapped();
    columns->addLayout(who, 2);
    columns->addLayout(dose, 4);
    columns->addLayout(pair_of(step_, day_));
    columns->addLayout(pair_of(contact_title_, contact_));
    columns->addWidget(pill_, 0, Qt::AlignVCenter);

    auto* lock = make_button(tr("Lock · %1").arg(initials(workbench_.desk().worker().name)));
    lock->setAccessibleName(
        tr("Lock the window. %1 is at work").arg(to_text(workbench_.desk().worker().name)));
    lock->setToolTip(
        tr("Cover the window (Ctrl+L). %1 is at work.").arg(to_text(workbench_.desk().worker().name)));
    connect(lock, &QPushButton::clicked, this, &PatientBand::lock_wanted);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(kSpace6, kSpace1, kSpace4, kSpace1);
    row->setSpacing(kSpace4);
    row->addWidget(contents_, 1);
    row->addWidget(lock, 0, Qt::AlignVCenter | Qt::AlignRight);
    lock_ = lock;
}

void PatientBand::forbid_lock(const QString& reason) {
    set_reason_disabled(lock_, reason);
}

QLayout* PatientBand::pair_of(Label* above, QWidget* below) {
    auto* column = new QVBoxLayout;
    column->setSpacing(3);
    column->addStretch();
    column->addWidget(above);
    column->addWidget(below);
    column->addStretch();
    return column;
}

void PatientBand::refresh() {
    const PatientRecord* record = workbench_.record();
    contents_->setVisible(record != nullptr);
    if (!record) return;
    const Course& course = workbench_.course();
    show_person(*record);
    show_dose(course);
    show_step(course);
    const auto reasons = reasons_for(*record, course, workbench_.desk().ground(), workbench_.now());
    pill_->set_reason(reasons.empty() ? std::nullopt : std::optional<Reason>(reasons.front()));
    show_contact(course, !reasons.empty() && reasons.front().urgency == Urgency::red_flag);
}

void PatientBand::show_person(const PatientRecord& record) {
    const Person person = record.person ? record.person->value : Person{};
    name_->setText(to_text(person.name));
    // Who it is stands whole: only a name that is longer than any room for it is cut.
    const int whole = name_->fontMetrics().horizontalAdvance(to_text(person.name)) + kSpace2;
    name_->setMinimumWidth(std::clamp(whole, kLeastName, kMostName));
    QStringList about;
    if (person.born) about << tr("born %1").arg(text_of(*person.born));
    about << tr("no. %1").arg(to_text(person.reference));
    about_->setText(about.join(QStringLiteral(" · ")));
    QStringList dangers;
    if (record.risks)
        for (const std::string& word : kRiskWords)
            if (const auto asked = record.risks->value.answers.find(word);
                asked != record.risks->value.answers.end() && asked->second == Answer::yes)
                dangers << to_text(word);
    danger_words_->setText(sentence_case(dangers.join(QStringLiteral(", "))));
    danger_words_->setAccessibleName(tr("Dangers: %1").arg(danger_words_->text()));
    dangers_->setVisible(!dangers.isEmpty());
}

void PatientBand::show_dose(const Course& course) {
    if (!course.today) {
        dose_->setText(QStringLiteral("–"));
        dose_->setAccessibleName(tr("Today's dose is not recorded"));
        drug_->setText(tr("what is taken is not recorded yet"));
        return times_->setText({});
    }
    const auto agents = agents_of(*course.today);
    const bool off = nothing_is_taken(course);
    // An agent that came off beside one that goes on is not the dose.
    const bool one_is_off = !off && course.daily_today.is_zero();
    const std::string first = one_is_off ? agents.front() : course.drug;
    const QString drug = to_text(first);
    dose_->setText(off ? tr("OFF") : text_of(daily_amount(*course.today, first)));
    dose_->setAccessibleName(tr("Today's dose: %1 %2").arg(dose_->text(), drug));
    QString all = drug;
    for (const std::string& agent : agents)
        if (agent != first)
            all += tr(" + %1 %2").arg(text_of(daily_amount(*course.today, agent)), to_text(agent));
    drug_->setMinimumWidth(drug_->fontMetrics().horizontalAdvance(all) + kSpace4);  // the agent is never cut
    if (!off) all = tr("%1 a day").arg(all);
    if (one_is_off) all += tr(" · %1 OFF").arg(to_text(course.drug));
    drug_->setText(all);
    QStringList doses;
    for (const DoseTime& each : course.today->doses) {
        const QString amount = tr("%1 at %2").arg(text_of(each.amount), text_of(each.at));
        doses << (agents.size() == 1 ? amount : tr("%1 %2").arg(to_text(each.drug), amount));
    }
    // A dose never breaks over two lines.
    for (QString& each : doses) each.replace(u' ', QChar::Nbsp);
    times_->setText(doses.join(QStringLiteral(" · ")));
    times_->setToolTip(times_->text());
}

void PatientBand::show_step(const Course& course) {
    const int step = course.current ? course.stretches[*course.current].step : 0;
    step_->setText(course.on_hold ? tr("On hold")
                   : step > 0     ? tr("Step %1").arg(step)
                                  : tr("Before the taper"));
    const bool counted = step > 0 && course.day_of_step > 0;
    day_->setText(!counted              ? QString()
                  : course.days_of_step ? tr("day %1 of %2").arg(course.day_of_step).arg(*course.days_of_step)
                                        : tr("day %1").arg(course.day_of_step));
    day_->setVisible(counted);
}

/// A danger is called about now, whatever is planned.
void PatientBand::show_contact(const Course& course, bool now) {
    const QString planned =
        course.next_contact ? tr("%1, %2").arg(text_with_weekday(course.next_contact->on, workbench_.today()),
                                               to_text(course.next_contact->how))
                            : QString();
    const bool late = course.next_contact && course.next_contact->on < workbench_.today();
    contact_title_->setText(late && !now ? tr("Contact, late") : tr("Next contact"));
    contact_->setText(now ? tr("now, by phone") : planned.isEmpty() ? tr("none planned") : planned);
    contact_->setToolTip(now && !planned.isEmpty() ? tr("Planned before: %1").arg(planned) : QString());
}

void PatientBand::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), tone(Tone::card));
    painter.fillRect(QRectF(0, height() - structure_line(), width(), structure_line()), tone(Tone::line));
}

}  // namespace evenfall::ui
