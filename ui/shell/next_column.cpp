// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/next_column.h"

#include <QHBoxLayout>
#include <QVBoxLayout>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/label.h"
#include "controls/why.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr int kColumnWidth = 300;

struct Meaning {
    Tone fill;
    Tone ink;
};

Meaning meaning_of(Urgency urgency) {
    switch (urgency) {
        case Urgency::red_flag:
            return {Tone::danger_fill, Tone::danger};
        case Urgency::today:
            return {Tone::presses_fill, Tone::presses};
        case Urgency::this_week:
            return {Tone::contact_fill, Tone::contact};
        case Urgency::steady:
            break;
    }
    return {Tone::selected, Tone::planned};
}

void clear(QLayout* layout) {
    while (QLayoutItem* item = layout->takeAt(0)) {
        if (item->widget()) {
            item->widget()->hide();
            item->widget()->deleteLater();
        }
        delete item;
    }
}

QString people_of(const Supports& supports) {
    QStringList people;
    for (const Supporter& each : supports.people) {
        QString one = to_text(each.name);
        if (!each.relation.empty()) one += QObject::tr(" (%1)").arg(to_text(each.relation));
        if (!each.may_be_contacted) one += QObject::tr(", not to be contacted");
        people << one;
    }
    return people.join(QStringLiteral(" · "));
}

}  // namespace

ActWords words_of(NextAct::Act act) {
    using Act = NextAct::Act;
    switch (act) {
        case Act::record_regimen:
            return {QObject::tr("Record what is taken"), QObject::tr("Write it down"),
                    QStringLiteral("record/regimen")};
        case Act::record_risks:
            return {QObject::tr("Ask the risk screen"), QObject::tr("Open the screen"),
                    QStringLiteral("record/risks")};
        case Act::record_baseline:
            return {QObject::tr("Record symptoms before the first cut"), QObject::tr("Record symptoms"),
                    QStringLiteral("record/baseline")};
        case Act::sign_suitability:
            return {QObject::tr("Decide whether to taper here"), QObject::tr("Look at the findings"),
                    QStringLiteral("record/risks")};
        case Act::build_plan:
            return {QObject::tr("Build the plan"), QObject::tr("Open the plan"), QStringLiteral("plan")};
        case Act::sign_step:
            return {QObject::tr("Decide on the next step"), QObject::tr("Look at the step"),
                    QStringLiteral("plan")};
        case Act::print_schedule:
            return {QObject::tr("Print the schedule"), QObject::tr("Open the papers"),
                    QStringLiteral("papers")};
        case Act::call:
            return {QObject::tr("Call"), QObject::tr("Open contact"), QStringLiteral("record/contact")};
        case Act::count_supply:
            return {QObject::tr("See to the supply"), QObject::tr("Count the supply"),
                    QStringLiteral("record/regimen")};
        case Act::review_hold:
            return {QObject::tr("Review the hold"), QObject::tr("Open the plan"), QStringLiteral("plan")};
        case Act::review_next_cut:
            return {QObject::tr("Look at the next cut"), QObject::tr("Look at the cut"),
                    QStringLiteral("plan")};
        case Act::none:
            break;
    }
    return {QObject::tr("Nothing presses"), {}, {}};
}

NextColumn::NextColumn(Workbench& workbench, QWidget* parent) : QScrollArea(parent), workbench_(workbench) {
    setFixedWidth(kColumnWidth);
    setFrameShape(QFrame::NoFrame);
    setWidgetResizable(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
    setAccessibleName(tr("What to do next"));
    auto* inside = new QWidget;
    column_ = new QVBoxLayout(inside);
    column_->setContentsMargins(kSpace1, kSpace4, kSpace4, kSpace4);
    column_->setSpacing(kSpace3);
    setWidget(inside);
}

void NextColumn::refresh() {
    clear(column_);
    const PatientRecord* record = workbench_.record();
    setVisible(record != nullptr);
    if (!record) return;
    column_->addWidget(new Label(tr("Next"), Type::heading));
    add_acts(*record);
    add_about(*record);
    column_->addStretch();
}

void NextColumn::add_acts(const PatientRecord& record) {
    for (const NextAct& act :
         next_acts(record, workbench_.course(), workbench_.desk().ground(), workbench_.now()))
        column_->addWidget(make_card(act));
}

QWidget* NextColumn::make_card(const NextAct& act) {
    const ActWords words = words_of(act.act);
    const Meaning meaning = meaning_of(act.urgency);
    auto* card = new Card;
    card->set_meaning(meaning.fill, meaning.ink);
    auto* title = new Label(words.title, Type::strong, meaning.ink);
    card->body()->addWidget(title->wrapped());
    auto* why = new Label(workbench_.sentence(act.why));
    card->body()->addWidget(why->wrapped());
    auto* row = new QHBoxLayout;
    if (!words.button.isEmpty()) {
        auto* go = make_button(words.button);
        go->setProperty("tone", static_cast<int>(meaning.ink));
        go->setAccessibleDescription(why->text());
        connect(go, &QPushButton::clicked, this,
                [this, page = words.page] { emit workbench_.page_wanted(page); });
        row->addWidget(go);
    }
    row->addStretch();
    row->addWidget(new WhyButton(workbench_, act.why));
    card->body()->addLayout(row);
    return card;
}

void NextColumn::add_about(const PatientRecord& record) {
    if (record.goals) {
        QStringList goals;
        for (const std::string& goal : record.goals->value.goals) goals << to_text(goal);
        add_words(tr("Goals"), goals.join(QStringLiteral(" · ")));
    }
    if (record.supports) {
        add_words(tr("Around the person"), people_of(record.supports->value));
        add_words(tr("Safe times to phone"), to_text(record.supports->value.safe_times));
    }
    if (!record.other_medicines) return;
    QStringList medicines;
    for (const OtherMedicine& each : record.other_medicines->value.medicines) medicines << to_text(each.name);
    if (record.other_medicines->value.naloxone_at_home) medicines << tr("naloxone at home");
    add_words(tr("Also takes"), medicines.join(QStringLiteral(" · ")));
}

void NextColumn::add_words(const QString& heading, const QString& words) {
    if (words.isEmpty()) return;
    auto* part = new QWidget;
    auto* lines = new QVBoxLayout(part);
    lines->setContentsMargins(kSpace1, kSpace1, 0, 0);
    lines->setSpacing(2);
    lines->addWidget(new Label(heading, Type::strong));
    auto* says = new Label(words, Type::text, Tone::soft_ink);
    lines->addWidget(says->wrapped());
    column_->addWidget(part);
}

}  // namespace evenfall::ui
