// SPDX-License-Identifier: GPL-3.0-or-later
#include <QFormLayout>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QPushButton>
#include <algorithm>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/label.h"
#include "controls/why.h"
#include "diary/days.h"
#include "diary/diary_words.h"
#include "record/users.h"
#include "stabilization/charts.h"
#include "stabilization/check_words.h"
#include "stabilization/flag_entries.h"
#include "stabilization/proposal_card.h"
#include "stabilization/stabilization_page.h"
#include "texts/render.h"
#include "theme/theme.h"

// The cards of the stabilization page, one function each.

namespace evenfall::ui {
namespace {

bool permits(Verdict verdict) {
    return verdict == Verdict::steady;
}

/// A flag that only says how the diary was judged.
bool is_note(const std::string& rule) {
    for (const char* quiet :
         {"diary-days", "days-unknown", "dose-times-found", "dose-times-found-before", "between-dose-few",
          "between-dose-not-shown", "between-dose-clock", "planned-step"})
        if (rule == quiet) return true;
    return false;
}

QString because_of_levels(const StabilizationCheck& check) {
    QStringList regimens;
    for (const DatedRegimen& dated : check.held_against) {
        QStringList doses;
        for (const DoseTime& dose : dated.regimen.doses)
            doses << QObject::tr("%1 %2 %3").arg(text_of(dose.at), to_text(dose.drug), text_of(dose.amount));
        regimens << doses.join(QStringLiteral(", "));
    }
    QString says = QObject::tr(
                       "Computed from the entries of the diary and the intended doses (%1) with the "
                       "half-lives and metabolites of the "
                       "drug's page, whose sources stand there. 100 % is the average of the intended regimen "
                       "at steady state.")
                       .arg(regimens.join(QStringLiteral("; then ")));
    if (!check.levels.not_modelled.empty()) {
        QStringList names;
        for (const std::string& name : check.levels.not_modelled) names << to_text(name);
        says +=
            QObject::tr(" Not modelled, for want of constants: %1.").arg(names.join(QStringLiteral(", ")));
    }
    return says;
}

/// "Why?" for a figure that no single rule stands behind.
QPushButton* make_because(const QString& about, const QString& says) {
    auto* why = make_button(QObject::tr("Why?"), ButtonKind::quiet);
    why->setAccessibleName(QObject::tr("Why? %1").arg(about));
    QObject::connect(why, &QPushButton::clicked, why, [why, about, says] {
        auto* popover = new Popover(why);
        popover->setAccessibleName(about);
        auto* column = new QVBoxLayout(popover);
        column->setContentsMargins(kSpace4, kSpace3, kSpace4, kSpace3);
        column->addWidget((new Label(about, Type::strong))->wrapped());
        column->addWidget((new Label(says, Type::note))->wrapped());
        popover->open();
    });
    return why;
}

/// Why the verdict is what it is, in the rules' sentences.
QString reason_of(const Workbench& workbench, const StabilizationCheck& check) {
    QStringList reasons;
    for (const Flag& flag : check.flags) {
        if (is_note(flag.rule) && !reasons.isEmpty()) break;
        reasons << workbench.sentence(flag);
        // Beside the limits, an uneven diary's weightiest finding stands next.
        if (check.verdict != Verdict::uneven || reasons.size() == 2) break;
    }
    return reasons.join(QLatin1Char(' '));
}

QHBoxLayout* titled(const QString& title, QPushButton* why) {
    auto* row = new QHBoxLayout;
    row->addWidget((new Label(title, Type::strong))->wrapped(), 1);
    row->addWidget(why, 0, Qt::AlignTop);
    return row;
}

}  // namespace

void StabilizationPage::add_answer() {
    const StabilizationCheck& check = checked_->check;
    const Texts& texts = workbench().texts();
    auto* card = add_card({});
    if (check.ready())
        card->set_meaning(Tone::planned_fill, Tone::planned);
    else
        card->set_meaning(Tone::presses_fill, Tone::presses);
    const Tone colour = check.ready() ? Tone::planned : Tone::presses;
    auto* head = new QHBoxLayout;
    auto* verdict = new Label(to_text(texts.text(verdict_text(check.verdict))), Type::dose, colour);
    verdict->setObjectName(QStringLiteral("verdict"));
    head->addWidget(verdict);
    head->addStretch();
    if (!check.flags.empty())
        head->addWidget(new WhyButton(workbench(), check.flags.front()), 0, Qt::AlignTop);
    card->body()->addLayout(head);
    int open = 0;
    for (const Gate& gate : check.readiness) open += !gate.met;
    QString means = to_text(texts.text(verdict_meaning(check.verdict)));
    if (check.ready())
        means = tr("The dosing permits a cut, and every gate is met.");
    else if (permits(check.verdict))
        means = tr("The dosing permits a cut. Of the gates beside it, %1 of %2 are not met yet.")
                    .arg(open)
                    .arg(check.readiness.size());
    auto* says = new Label(means, Type::strong);
    says->setObjectName(QStringLiteral("means"));
    card->body()->addWidget(says->wrapped());
    auto* why = new Label(reason_of(workbench(), check));
    why->setObjectName(QStringLiteral("reason"));
    card->body()->addWidget(why->wrapped());
    const QString basis = tr("Recorded days judged: %1. Use: %2. %3.")
                              .arg(check.days)
                              .arg(to_text(texts.text(use_text(check.use))).toLower(),
                                   to_text(texts.text(dose_times_text(check.dose_times))));
    card->body()->addWidget((new Label(basis, Type::note, Tone::soft_ink))->wrapped());
    add_gates(*card);
}

void StabilizationPage::add_gates(Card& card) {
    const Texts& texts = workbench().texts();
    std::vector<Gate> gates = checked_->check.readiness;
    std::ranges::stable_partition(gates, [](const Gate& gate) { return !gate.met; });
    const auto open = std::ranges::count(gates, false, &Gate::met);
    card.body()->addSpacing(kSpace1);
    card.body()->addWidget(
        new Label(open == 0 ? tr("Every gate before a cut is met")
                            : tr("Gates before a cut, not met: %1 of %2").arg(open).arg(gates.size()),
                  Type::heading));
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(kSpace3);
    grid->setVerticalSpacing(0);
    for (const Gate& gate : gates) {
        const int row = grid->rowCount();
        const QString state =
            to_text(texts.text(gate.met ? "stabilization-gate-met" : "stabilization-gate-open"));
        auto* mark = new Label(gate.met ? tr("✓ %1").arg(state) : tr("○ %1").arg(state), Type::strong,
                               gate.met ? Tone::planned : Tone::presses);
        mark->setAccessibleName(state);
        const std::string title = "stabilization-" + gate.gate + "-title";
        grid->addWidget(mark, row, 0, Qt::AlignVCenter);
        grid->addWidget(new Label(to_text(texts.text(title)), Type::strong), row, 1, Qt::AlignVCenter);
        grid->addWidget((new Label(workbench().sentence(gate.says)))->wrapped(), row, 2, Qt::AlignVCenter);
        grid->addWidget(new WhyButton(workbench(), gate.says), row, 3, Qt::AlignVCenter);
    }
    grid->setColumnStretch(2, 1);
    card.body()->addLayout(grid);
}

void StabilizationPage::add_flags() {
    auto* card = add_card(tr("What the diary shows"));
    bool opened = true;  // the weightiest one with its entries open
    for (const Flag& flag : checked_->check.flags) {
        const bool steady = flag.rule == "steady-limits" && checked_->check.verdict == Verdict::steady;
        const Weight weight = is_note(flag.rule) || steady ? Weight::note : Weight::presses;
        auto* row = new FlagEntries(workbench(), flag, weight, opened && !flag.entries.empty());
        if (!flag.entries.empty()) opened = false;
        connect(row, &FlagEntries::day_wanted, this, [this](Day day) {
            emit this->workbench().page_wanted(QStringLiteral("diary/") + to_text(print_day(day)));
        });
        card->body()->addWidget(row);
    }
}

void StabilizationPage::add_pictures() {
    auto* holder = new QWidget;
    auto* row = new QHBoxLayout(holder);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(kSpace3);
    row->addWidget(make_levels(), 1);
    row->addWidget(make_symptoms(), 1);
    column_->addWidget(holder);
}

QWidget* StabilizationPage::make_levels() {
    const StabilizationCheck& check = checked_->check;
    const Texts& texts = workbench().texts();
    auto* card = new Card;
    const QString title = to_text(texts.text("stabilization-level-title"));
    card->body()->addLayout(titled(title, make_because(title, because_of_levels(check))));
    if (!check.levels.hours.empty()) {
        auto* chart = new DayLevelChart;
        chart->show_levels(check.levels, diary_day_begins(workbench().desk().rules()));
        card->body()->addWidget(chart, 1);
    }
    auto* says = new Label(level_sentence(check.levels), Type::note);
    card->body()->addWidget(says->wrapped());
    card->body()->addWidget(
        (new Label(to_text(texts.text("stabilization-level-note")), Type::note, Tone::soft_ink))->wrapped());
    return card;
}

QWidget* StabilizationPage::make_symptoms() {
    const StabilizationCheck& check = checked_->check;
    auto* card = new Card;
    const QString title = to_text(workbench().texts().text("stabilization-between-dose-title"));
    const Flag* flag = nullptr;
    for (const Flag& each : check.flags)
        if (each.rule.starts_with("between-dose")) flag = &each;
    const QString answer = flag ? workbench().sentence(*flag) : QString();
    card->body()->addLayout(titled(title, flag ? static_cast<QPushButton*>(new WhyButton(workbench(), *flag))
                                               : make_because(title, answer)));
    std::vector<IntervalChart::Point> points;
    for (const RatingPoint& point : check.ratings)
        points.push_back(
            {point.hours_since_dose, checked_->input.diary.ratings[point.rating].severity, point.late});
    const QString numbers = between_sentence(check.between_dose);
    if (!points.empty()) {
        auto* chart = new IntervalChart;
        chart->show_points(std::move(points), numbers);
        card->body()->addWidget(chart, 1);
    }
    card->body()->addWidget((new Label(answer))->wrapped());
    card->body()->addWidget((new Label(numbers, Type::note, Tone::soft_ink))->wrapped());
    if (check.ratings.empty()) card->body()->addStretch();
    return card;
}

void StabilizationPage::add_measures() {
    auto* card = add_card(tr("Measures"));
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(kSpace4);
    grid->setVerticalSpacing(0);
    const Rules& rules = workbench().desk().rules();
    const auto put = [&](const MeasureRow& line) {
        const int row = grid->rowCount();
        grid->addWidget((new Label(line.what, Type::text, Tone::soft_ink))->wrapped(), row, 0,
                        Qt::AlignVCenter);
        grid->addWidget((new Label(line.says))->wrapped(), row, 1, Qt::AlignVCenter);
        QStringList because{line.because, rule_in_words(rules, line.rule)};
        because.removeAll(QString());
        grid->addWidget(make_because(line.what, because.join(QLatin1Char(' '))), row, 2, Qt::AlignVCenter);
    };
    for (const auto& line : measure_rows(checked_->check)) put(line);
    for (const auto& line : dose_time_rows(checked_->check)) put(line);
    grid->setColumnStretch(0, 2);
    grid->setColumnStretch(1, 3);
    card->body()->addLayout(grid);
}

void StabilizationPage::add_proposals() {
    const StabilizationCheck& check = checked_->check;
    auto* heading = new Label(tr("Ways to steadier levels"), Type::heading);
    column_->addWidget(heading);
    auto* holder = new QWidget;
    auto* grid = new QGridLayout(holder);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setSpacing(kSpace3);
    const bool may_write = may(workbench().desk().worker().role, "regimen-recorded");
    const QString not_allowed = may_write ? QString() : tr("A prescriber accepts a proposal.");
    int at = 0;
    for (const Proposal& proposal : check.proposals) {
        auto* card = new ProposalCard(workbench(), proposal, not_allowed);
        connect(card, &ProposalCard::accepted, this, [this, proposal] { accept(proposal); });
        grid->addWidget(card, at / 2, at % 2);
        ++at;
    }
    grid->setColumnStretch(0, 1);
    grid->setColumnStretch(1, 1);
    if (at > 0) column_->addWidget(holder);
    if (at > 0 || check.no_proposal.empty()) return;
    auto* card = add_card({});
    for (const Flag& flag : check.no_proposal)
        card->body()->addWidget(new FlagRow(workbench(), flag, Weight::note));
}

}  // namespace evenfall::ui
