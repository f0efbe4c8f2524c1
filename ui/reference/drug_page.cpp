// SPDX-License-Identifier: GPL-3.0-or-later
#include "reference/drug_page.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QVBoxLayout>
#include <map>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/label.h"
#include "reference/product_dialogs.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

/// A figure of a model for showing only: at most four significant digits, no trailing zeros.
QString figure(double value) {
    return QLocale::c().toString(value, 'g', 4);
}

QString range_of(Dose low, Dose high) {
    return low == high ? text_of(low) : QObject::tr("%1 to %2").arg(text_of(low), text_of(high));
}

QString nurse_reason(const Workbench& workbench) {
    return workbench.desk().worker().role == Role::prescriber
               ? QString()
               : QObject::tr("A nurse may not change the clinic's products. Ask a prescriber.");
}

}  // namespace

DrugPage::DrugPage(Workbench& workbench, Drug drug, QWidget* parent)
    : QWidget(parent), workbench_(workbench), drug_(std::move(drug)), column_(new QVBoxLayout(this)) {
    column_->setContentsMargins(0, 0, kSpace3, kSpace4);
    column_->setSpacing(kSpace3);
    column_->addWidget(new Label(sentence_case(to_text(drug_.name)), Type::title));
    QString about = sentence_case(to_text(drug_.drug_class));
    if (drug_.hypnotic) about += tr(" · taken at night only");
    if (drug_.glucuronidated) about += tr(" · cleared by glucuronidation alone");
    column_->addWidget(new Label(about, Type::text, Tone::soft_ink));
    add_products();
    add_equivalence();
    add_kinetics();
    add_interactions();
    add_facts();
    column_->addStretch();
}

Card* DrugPage::add_card(const QString& title, const QString& note) {
    auto* card = new Card;
    card->body()->addWidget(new SectionHeader(title, note));
    column_->addWidget(card);
    return card;
}

QString DrugPage::source_words(const Provenance& from) const {
    const auto& sources = workbench_.desk().formulary().sources;
    const auto found = sources.find(from.source);
    QStringList parts;
    if (from.from_memory) parts << tr("From memory, not yet confirmed");
    if (found != sources.end())
        parts << to_text(found->second.citation);
    else if (!from.source.empty())
        parts << to_text(from.source);
    if (!from.note.empty()) parts << to_text(from.note);
    return parts.join(QStringLiteral(" · "));
}

void DrugPage::add_value(Card& card, const QString& label, const QString& value, const Provenance& from) {
    auto* row = new QHBoxLayout;
    row->setSpacing(kSpace3);
    auto* name = new Label(label, Type::text, Tone::soft_ink);
    name->wrapped()->setFixedWidth(210);
    auto* right = new QVBoxLayout;
    right->setSpacing(1);
    auto* says = new Label(value, Type::strong);
    right->addWidget(says->wrapped());
    const QString words = source_words(from);
    if (!words.isEmpty()) {
        auto* source = new Label(words, Type::note, from.from_memory ? Tone::presses : Tone::soft_ink);
        right->addWidget(source->wrapped());
    }
    row->addWidget(name, 0, Qt::AlignTop);
    row->addLayout(right, 1);
    card.body()->addLayout(row);
}

void DrugPage::add_products() {
    Card* card = add_card(tr("Products"), tr("Only what stands here is offered in a plan."));
    for (const ListedProduct& listed : drug_.products) add_product_row(*card, listed);
    if (drug_.products.empty())
        card->body()->addWidget(new Label(tr("No product is listed."), Type::text, Tone::soft_ink));
    auto* add = make_button(tr("Add a product"));
    set_reason_disabled(add, nurse_reason(workbench_));
    connect(add, &QPushButton::clicked, this, [this] { add_product(workbench_, drug_.name, window()); });
    card->body()->addWidget(add, 0, Qt::AlignLeft);
}

void DrugPage::add_product_row(Card& card, const ListedProduct& listed) {
    auto* row = new QHBoxLayout;
    auto* words = new QVBoxLayout;
    words->setSpacing(1);
    const QString name = to_text(product_name(listed.product));
    words->addWidget(new Label(name, Type::strong));
    QStringList notes{tr("Cut: %1").arg(to_text(word(listed.product.cuts)))};
    if (!listed.for_steps) notes << tr("not for dose steps");
    if (!listed.scored.empty()) notes << tr("scored: %1").arg(to_text(listed.scored));
    for (const std::string* each : {&listed.cutting, &listed.device})
        if (!each->empty()) notes << to_text(*each);
    notes << source_words(listed.strength);
    auto* note = new Label(notes.join(QStringLiteral(" · ")), Type::note,
                           listed.strength.from_memory ? Tone::presses : Tone::soft_ink);
    words->addWidget(note->wrapped());
    row->addLayout(words, 1);
    auto* out = make_button(tr("Withdraw"), ButtonKind::quiet);
    out->setAccessibleName(tr("Withdraw %1").arg(name));
    set_reason_disabled(out, nurse_reason(workbench_));
    connect(out, &QPushButton::clicked, this, [this, product = listed.product] { withdraw(product); });
    row->addWidget(out, 0, Qt::AlignTop);
    card.body()->addLayout(row);
}

void DrugPage::withdraw(const Product& product) {
    withdraw_product(workbench_, product, window());
}

void DrugPage::add_equivalence() {
    if (!drug_.equivalence) return;
    const Equivalence& equal = *drug_.equivalence;
    Card* card =
        add_card(tr("Equal to 10 mg of diazepam"), tr("Published figures disagree; each is kept apart."));
    add_value(*card, tr("Used here"), text_of(equal.usual), {equal.usual_source, false, {}});
    add_value(*card, tr("From the most to the least diazepam"),
              range_of(equal.most_diazepam, equal.least_diazepam), {});
    for (const PublishedEquivalence& each : equal.published) {
        QString value = range_of(each.low, each.high);
        if (!each.as_printed.empty()) value += tr(" (printed: %1)").arg(to_text(each.as_printed));
        add_value(*card, sentence_case(to_text(each.kind)), value, each.provenance);
    }
}

void DrugPage::add_kinetics() {
    const Kinetics& kinetics = drug_.kinetics;
    Card* card = add_card(tr("Constants of the level model"),
                          tr("A modelled level is relative, never a measured concentration."));
    const auto from = [&kinetics](const char* field) {
        const auto found = kinetics.provenance.find(field);
        return found == kinetics.provenance.end() ? Provenance{} : found->second;
    };
    add_value(*card, tr("Half-life"),
              tr("%1 h (%2 to %3 h)")
                  .arg(figure(kinetics.half_life_h), figure(kinetics.half_life_low_h),
                       figure(kinetics.half_life_high_h)),
              from("half_life_h"));
    add_value(*card, tr("Absorption half-life"), tr("%1 h").arg(figure(kinetics.absorption_half_life_h)),
              from("absorption_half_life_h"));
    if (kinetics.lag_h > 0)
        add_value(*card, tr("Lag"), tr("%1 h").arg(figure(kinetics.lag_h)), from("lag_h"));
    add_value(*card, tr("Bioavailability"), tr("%1 %").arg(figure(kinetics.bioavailability * 100)),
              from("bioavailability"));
    for (const Metabolite& each : kinetics.metabolites)
        add_value(*card, sentence_case(to_text(each.name)),
                  tr("half-life %1 h (%2 to %3 h), relative potency %4")
                      .arg(figure(each.half_life_h), figure(each.half_life_low_h),
                           figure(each.half_life_high_h), figure(each.relative_potency)),
                  each.provenance);
}

void DrugPage::add_interactions() {
    if (drug_.interactions.empty()) return;
    Card* card = add_card(tr("Interactions"));
    for (const Interaction& each : drug_.interactions) {
        QStringList examples;
        for (const std::string& example : each.examples) examples << to_text(example);
        QString value = sentence_case(to_text(each.effect));
        if (!examples.isEmpty()) value += tr(" For example: %1.").arg(examples.join(QStringLiteral(", ")));
        add_value(*card, sentence_case(to_text(each.mechanism)), value, each.provenance);
    }
}

void DrugPage::add_facts() {
    std::map<std::string, Card*> cards;
    for (const Fact& fact : drug_.facts) {
        Card*& card = cards[fact.group];
        if (!card) card = add_card(sentence_case(to_text(fact.group)));
        add_value(*card, to_text(fact.label), to_text(fact.value), fact.provenance);
    }
}

}  // namespace evenfall::ui
