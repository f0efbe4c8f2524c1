// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/next_column.h"

#include <QHBoxLayout>
#include <QShortcut>
#include <QVBoxLayout>
#include <algorithm>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/clear_layout.h"
#include "controls/label.h"
#include "controls/why.h"
#include "shell/snooze_dialog.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr int kColumnWidth = 300;
constexpr int kMostKeys = 9;

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
            return {QObject::tr("Call"), QObject::tr("Open the call"), QStringLiteral("call/talk")};
        case Act::tell_danger:
            return {QObject::tr("Act on the danger"), QObject::tr("Open the card"),
                    QStringLiteral("call/danger")};
        case Act::read_response:
            return {QObject::tr("Look at how the step is borne"), QObject::tr("Open it"),
                    QStringLiteral("call/response")};
        case Act::look_at_diary:
            return {QObject::tr("See what was taken"), QObject::tr("Open the diary"),
                    QStringLiteral("diary")};
        case Act::record_test:
            return {QObject::tr("Tests and monitoring"), QObject::tr("Write it down"),
                    QStringLiteral("call/whole")};
        case Act::read_medicines:
            return {QObject::tr("Look at the other medicines"), QObject::tr("Open them"),
                    QStringLiteral("record/medicines")};
        case Act::record_life:
            return {QObject::tr("See what it means for the plan"), QObject::tr("Open the plan"),
                    QStringLiteral("plan")};
        case Act::record_team:
            return {QObject::tr("Say who looks after them"), QObject::tr("Write it down"),
                    QStringLiteral("call/whole")};
        case Act::settle_entries:
            return {QObject::tr("Settle which entry stands"), QObject::tr("Open the history"),
                    QStringLiteral("record/lines")};
        case Act::count_supply:
            return {QObject::tr("See to the supply"), QObject::tr("Count the supply"),
                    QStringLiteral("record/supply")};
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
    for (int number = 1; number <= kMostKeys; ++number) {
        auto* key = new QShortcut(QKeySequence(Qt::ALT | static_cast<Qt::Key>(Qt::Key_0 + number)),
                                  parent ? parent : this);  // the keys act also while it is folded away
        key->setContext(Qt::WindowShortcut);
        connect(key, &QShortcut::activated, this, [this, number] { go_to(number); });
    }
}

void NextColumn::refresh() {
    clear_layout(*column_);
    const PatientRecord* record = workbench_.record();
    pages_.clear();
    danger_ = false;
    if (!record) return;
    auto* head = new QHBoxLayout;
    head->addWidget(new Label(tr("Next"), Type::heading));
    head->addStretch();
    auto* fold = make_button(tr("Fold away"), ButtonKind::quiet);
    connect(fold, &QPushButton::clicked, this, &NextColumn::fold_wanted);
    head->addWidget(fold);
    fold_ = fold;
    column_->addLayout(head);
    fold->setVisible(foldable_);  // once it has its place: it must not be a window of its own
    add_acts(*record);
    add_about(*record);
    column_->addStretch();
}

void NextColumn::add_acts(const PatientRecord& record) {
    std::vector<std::vector<NextAct>> cards;
    for (const NextAct& act :
         next_acts(record, workbench_.course(), workbench_.desk().ground(), workbench_.now())) {
        const auto same = std::ranges::find_if(
            cards, [&](const std::vector<NextAct>& card) { return card.front().act == act.act; });
        if (same == cards.end())
            cards.push_back({act});
        else
            same->push_back(act);
    }
    int number = 0;
    for (const auto& card : cards) {
        danger_ = danger_ || card.front().urgency == Urgency::red_flag;
        column_->addWidget(make_card(card, ++number));
    }
}

void NextColumn::set_foldable(bool foldable) {
    foldable_ = foldable;
    if (fold_) fold_->setVisible(foldable);
}

int NextColumn::acts() const {
    return static_cast<int>(
        std::ranges::count_if(pages_, [](const QString& page) { return !page.isEmpty(); }));
}

void NextColumn::go_to(int number) {
    if (!isEnabled()) return;  // nothing answers beneath the cover
    if (number <= pages_.size() && !pages_[number - 1].isEmpty())
        emit workbench_.page_wanted(pages_[number - 1]);
}

void NextColumn::put_off(const Flag& flag) {
    SnoozeDialog dialog(workbench_, flag, window());
    dialog.exec();
}

/// One card for an act, with every reason for it; the number is its key.
QWidget* NextColumn::make_card(const std::vector<NextAct>& reasons, int number) {
    const NextAct& act = reasons.front();
    const ActWords words = words_of(act.act);
    const Meaning meaning = meaning_of(act.urgency);
    auto* card = new Card;
    card->set_meaning(meaning.fill, meaning.ink);
    auto* title = new Label(words.title, Type::strong, meaning.ink);
    card->body()->addWidget(title->wrapped());
    QStringList said;
    for (const NextAct& each : reasons) {
        auto* why = new Label(workbench_.sentence(each.why));
        said << why->text();
        card->body()->addWidget(why->wrapped());
        auto* behind = new QHBoxLayout;
        behind->setSpacing(0);
        behind->addStretch();
        if (each.urgency != Urgency::steady && each.urgency != Urgency::red_flag &&
            !is_never_put_off(each.why.rule, workbench_.desk().rules())) {
            auto* later = make_button(tr("Put off"), ButtonKind::quiet);
            later->setAccessibleName(tr("Put off: %1").arg(why->text()));
            connect(later, &QPushButton::clicked, this, [this, flag = each.why] { put_off(flag); });
            behind->addWidget(later);
        }
        behind->addWidget(new WhyButton(workbench_, each.why));
        card->body()->addLayout(behind);
    }
    auto* row = new QHBoxLayout;
    pages_ << words.page;
    if (!words.button.isEmpty()) {
        auto* go =
            make_button(number <= kMostKeys ? tr("%1 (Alt+%2)").arg(words.button).arg(number) : words.button);
        go->setProperty("tone", static_cast<int>(meaning.ink));
        go->setAccessibleDescription(said.join(u' '));
        connect(go, &QPushButton::clicked, this,
                [this, page = words.page] { emit workbench_.page_wanted(page); });
        row->addWidget(go);
    }
    row->addStretch();
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
