// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/crossover_dialog.h"

#include <QComboBox>
#include <QEvent>
#include <QHBoxLayout>
#include <QPushButton>
#include <algorithm>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/clear_layout.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "controls/why.h"
#include "course/day_words.h"
#include "plan/crossover_card.h"
#include "plan/plan_preview.h"
#include "plan/product_list.h"
#include "shell/workbench.h"

namespace evenfall::ui {

namespace {

constexpr int kWidth = 1310, kHeight = 860;
constexpr int kMostDays = 90;
constexpr int kQuiet = 150;  // milliseconds after the last keystroke
constexpr std::size_t kMostWays = 4;

}  // namespace

CrossoverDialog::CrossoverDialog(Workbench& workbench, const PlanBase& base, QWidget* parent)
    : QuietDialog(tr("Cross over to another agent"),
                  tr("Stage by stage, dose time by dose time. A conversion is where a clinician starts, not "
                     "where they end: people differ, and no overlap is added."),
                  parent),
      workbench_(workbench),
      base_(base),
      from_(make_choice(tr("From"), {})),
      to_(make_choice(tr("To"), {})),
      first_(make_choice(tr("Replaced first"), {})),
      start_(new DayEdit(workbench.texts(), tr("First stage on"))),
      days_(new WholeEdit(workbench.texts(), tr("Days for each stage"), 1, kMostDays, tr("days"))),
      products_(new ProductList),
      suits_(new Label({}, Type::note, Tone::soft_ink)),
      state_(new Label({}, Type::strong)),
      against_(new Card),
      care_(new Card),
      all_the_same_(make_button(tr("Lay out ways across all the same"))),
      cards_(new QWidget),
      card_row_(new QHBoxLayout(cards_)),
      preview_(new PlanPreview),
      jobs_([this](const Result<std::vector<CrossoverPlan>>& ways) { show_ways(ways); }) {
    // As large as four ways side by side need, and never larger than the window that it stands before.
    const QSize room = parent ? parent->window()->size() : QSize(kWidth, kHeight);
    resize(std::min(kWidth, room.width()), std::min(kHeight, room.height()));
    auto* row = new QHBoxLayout;
    row->setSpacing(kSpace4);
    row->addWidget(make_fields());
    row->addWidget(make_ways(), 1);
    body()->addLayout(row, 1);
    auto* leave = make_button(tr("Leave without crossing"));
    auto* foot = new QHBoxLayout;
    foot->addStretch();
    foot->addWidget(leave);
    body()->addLayout(foot);
    connect(leave, &QPushButton::clicked, this, &QDialog::reject);
    soon_.setSingleShot(true);
    soon_.setInterval(kQuiet);
    connect(&soon_, &QTimer::timeout, this, &CrossoverDialog::compute);
    from_changed();
    to_changed();
    compute();
    to_->setFocus();
}

/// Offers the dose times of the agent that is left, the usual order first.
void CrossoverDialog::from_changed() {
    first_->clear();
    first_->addItem(tr("the evening dose (usual)"));
    for (const DoseTime& dose : base_.now.doses)
        if (to_text(dose.drug) == from_->currentText()) first_->addItem(text_of(dose.at));
    heard_ = false;
    show_suits();
}

/// What the formulary says of the agent that is gone over to, and its products.
void CrossoverDialog::to_changed() {
    const Formulary& formulary = workbench_.desk().formulary();
    const std::string name = to_utf8(to_->currentText());
    const Drug* drug = formulary.find(name);
    heard_ = false;
    if (!drug) return;
    const auto candidates = candidate_products(formulary, name);
    std::vector<Product> own;
    for (const Product& product : base_.chosen)
        if (product.drug == name) own.push_back(product);
    if (own.empty())
        std::ranges::copy_if(candidates, std::back_inserter(own),
                             [](const Product& product) { return !is_liquid(product.form); });
    products_->offer(candidates, own);
    show_suits();
}

/// What is known of the person for whom an agent is chosen.
CrossoverPerson CrossoverDialog::person() const {
    CrossoverPerson person;
    const PatientRecord* record = workbench_.record();
    if (record && record->risks) person.risks = record->risks->value;
    if (record && record->other_medicines)
        for (const OtherMedicine& medicine : record->other_medicines->value.medicines)
            person.other_medicines.push_back(medicine.name);
    return person;
}

/// What speaks for and against the agent that was chosen, and which are suited best by the same rules.
void CrossoverDialog::show_suits() {
    constexpr qsizetype kBest = 3;
    const std::string to = to_utf8(to_->currentText());
    QStringList best, lines;
    for (const SuitedAgent& agent : suited_agents(to_utf8(from_->currentText()), person(),
                                                  workbench_.desk().formulary(), workbench_.desk().rules())) {
        if (best.size() < kBest) best << to_text(agent.drug);
        if (agent.drug != to) continue;
        for (const auto* flags : {&agent.speaks_for, &agent.speaks_against, &agent.known})
            for (const Flag& flag : *flags) lines << workbench_.sentence(flag);
    }
    lines << tr("By these rules the best suited: %1. You choose.").arg(best.join(QStringLiteral(", ")));
    suits_->setText(lines.join(QLatin1Char('\n')));
}

std::optional<CrossoverInput> CrossoverDialog::input() const {
    if (!start_->day() || !days_->number()) return std::nullopt;
    CrossoverInput input;
    input.regimen = base_.now;
    input.from = to_utf8(from_->currentText());
    input.to = to_utf8(to_->currentText());
    input.start = *start_->day();
    input.days_per_stage = *days_->number();
    input.products = products_->checked();
    const auto add = [&](const std::vector<Product>& products) {
        for (const Product& product : products)
            if (product.drug == input.from &&
                std::ranges::find(input.products, product) == input.products.end())
                input.products.push_back(product);
    };
    add(base_.chosen);
    if (base_.in_force) add(base_.in_force->products);
    for (const DoseTime& dose : base_.now.doses)
        if (first_->currentIndex() > 0 && text_of(dose.at) == first_->currentText() &&
            dose.drug == input.from)
            input.order.push_back(dose.at);
    return input;
}

void CrossoverDialog::compute() {
    soon_.stop();
    jobs_.stop();
    asked_ = input();
    ways_.clear();
    if (!asked_) {
        state_->setText(tr("A field at the left is still open."));
        return show_cards();
    }
    const CrossoverPerson who = person();
    asked_->risks = who.risks;
    asked_->other_medicines = who.other_medicines;
    state_->setText(tr("Looking for ways across …"));
    jobs_.start([input = *asked_, formulary = workbench_.desk().formulary(),
                 rules = workbench_.desk().rules()](const std::stop_token& stop) {
        return plan_crossover(input, formulary, rules, stop);
    });
}

void CrossoverDialog::show_ways(const Result<std::vector<CrossoverPlan>>& ways) {
    days_->show_fault({});
    if (!ways) return show_faults(ways.faults());
    ways_ = *ways;
    if (ways_.size() > kMostWays) ways_.resize(kMostWays);
    if (ways_.empty()) state_->setText(tr("No way across was found."));
    show_cards();
}

void CrossoverDialog::show_faults(const Faults& faults) {
    QStringList elsewhere;
    for (const Fault& fault : faults) {
        const QString sentence = to_text(workbench_.texts().text(fault.id, fault.args));
        if (fault.place == "crossover.days_per_stage")
            days_->show_fault(sentence);
        else
            elsewhere << sentence;
    }
    state_->setText(elsewhere.isEmpty() ? tr("See the field marked at the left.")
                                        : elsewhere.join(QLatin1Char('\n')));
    show_cards();
}

void CrossoverDialog::show_flags(Card& card, const std::vector<Flag>& flags, const QString& heading) {
    clear_layout(*card.body());
    const bool danger = &card == against_;
    card.body()->addWidget(
        (new Label(heading, Type::strong, danger ? Tone::danger : Tone::presses))->wrapped());
    for (const Flag& flag : flags)
        card.body()->addWidget(new FlagRow(workbench_, flag, danger ? Weight::danger : Weight::presses));
}

void CrossoverDialog::show_cards() {
    clear_layout(*card_row_);
    choices_.clear();
    const std::vector<Flag> against =
        ways_.empty() ? std::vector<Flag>{} : case_against_crossing(ways_.front());
    std::vector<Flag> care;
    if (!ways_.empty())
        for (const Flag& flag : care_in_crossing(ways_.front()))
            if (flag.rule != "crossover-review" && flag.rule != "crossover-first-cut") care.push_back(flag);
    against_->setVisible(!against.empty());
    if (!against.empty()) show_flags(*against_, against, tr("First: what speaks against crossing here"));
    const bool shown = against.empty() || heard_;
    all_the_same_->setVisible(!shown);
    if (!ways_.empty())
        state_->setText(shown
                            ? tr("%1 ways, the evenest first. A slow agent dips whatever one does: there is "
                                 "no pass mark. The dip is read at the least diazepam and fast clearing, "
                                 "the overshoot at the most diazepam and slow clearing.")
                                  .arg(ways_.size())
                            : tr("The ways across wait until this was read."));
    care_->setVisible(shown && !care.empty());
    if (!care.empty()) show_flags(*care_, care, tr("On the way across"));
    if (shown)
        for (std::size_t i = 0; i < ways_.size(); ++i) add_card(ways_[i], static_cast<int>(i) + 1);
    card_row_->addStretch();
    preview_->setVisible(shown && !ways_.empty());
    if (shown && !ways_.empty()) preview(1);
}

void CrossoverDialog::add_card(const CrossoverPlan& way, int number) {
    auto* card = new CrossoverCard(way, number, workbench_.desk().formulary(), workbench_.desk().rules());
    card_row_->addWidget(card);
    choices_.emplace_back(card->choose(), number);
    card->choose()->installEventFilter(this);
    connect(card->choose(), &QPushButton::clicked, this, [this, number] {
        chosen_ = plan_of(number);
        accept();
    });
}

Plan CrossoverDialog::plan_of(int number) const {
    PlanRequest request;
    request.drug = asked_->to;
    return plan_of_crossover(request, *asked_, ways_[static_cast<std::size_t>(number) - 1]);
}

void CrossoverDialog::preview(int number) {
    preview_->look_until(ways_[static_cast<std::size_t>(number) - 1].steady_on);
    preview_->show_plans(base_.in_force, plan_of(number), workbench_.desk().formulary(), base_.today);
}

/// The way whose button has the focus, or lies under the mouse, is drawn on the chart.
bool CrossoverDialog::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::FocusIn || event->type() == QEvent::Enter)
        for (const auto& [button, number] : choices_)
            if (button == watched) preview(number);
    return QuietDialog::eventFilter(watched, event);
}

}  // namespace evenfall::ui
