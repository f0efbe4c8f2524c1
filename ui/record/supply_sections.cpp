// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCheckBox>
#include <QHBoxLayout>
#include <map>
#include <set>

#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "record/sections.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

void clear_column(QVBoxLayout& column) {
    while (QLayoutItem* item = column.takeAt(0)) {
        if (item->widget()) {
            item->widget()->hide();
            item->widget()->deleteLater();
        }
        delete item;
    }
}

/// The agents that this person takes, and those of the products chosen before.
std::set<std::string> agents_known(const PatientRecord& record) {
    std::set<std::string> agents;
    if (!record.regimens.empty())
        for (const std::string& agent : agents_of(record.regimens.back().value.regimen.regimen))
            agents.insert(agent);
    if (record.products)
        for (const Product& product : record.products->value.products) agents.insert(product.drug);
    return agents;
}

class ProductsSection : public RecordSection {
  public:
    explicit ProductsSection(Workbench& workbench)
        : RecordSection(workbench, tr("Products at hand"),
                        tr("What this person has, or can get. Plans are made of these and of nothing else.")),
          list_(new QVBoxLayout) {
        list_->setSpacing(0);
        body().addLayout(list_);
    }

  protected:
    void load(const PatientRecord& record) override {
        clear_column(*list_);
        boxes_.clear();
        const auto agents = agents_known(record);
        if (agents.empty()) {
            auto* hint = new Label(tr("First record what is taken: its products are listed here then."),
                                   Type::text, Tone::soft_ink);
            list_->addWidget(hint->wrapped());
        }
        for (const std::string& agent : agents) list_agent(agent, record);
        tell_entry(record.products ? &record.products->stamp : nullptr);
    }

    std::optional<std::vector<Change>> collect() override {
        ProductsChosen chosen;
        for (const auto& [box, product] : boxes_)
            if (box->isChecked()) chosen.products.push_back(product);
        return std::vector<Change>{chosen};
    }

  private:
    void list_agent(const std::string& agent, const PatientRecord& record) {
        const Drug* drug = workbench().desk().formulary().find(agent);
        if (!drug) return;
        std::set<Product> chosen;
        if (record.products)
            chosen.insert(record.products->value.products.begin(), record.products->value.products.end());
        list_->addWidget(new Label(sentence_case(to_text(agent)), Type::strong));
        for (const ListedProduct& listed : drug->products) {
            if (!listed.for_steps) continue;
            QString name = to_text(product_name(listed.product));
            name = tr("%1, %2").arg(name, is_liquid(listed.product.form) ? tr("measured")
                                          : listed.product.cuts == Cuts::whole
                                              ? tr("not cut")
                                              : tr("cut into %1").arg(to_text(word(listed.product.cuts))));
            auto* box = new QCheckBox(name);
            box->setAccessibleName(name);
            box->setChecked(chosen.contains(listed.product));
            watch(box);
            boxes_.emplace_back(box, listed.product);
            list_->addWidget(box);
        }
    }

    QVBoxLayout* list_;
    std::vector<std::pair<QCheckBox*, Product>> boxes_;
};

/// So many units, in quarters: "21", "21.5".
class UnitsEdit : public TypedField {
  public:
    UnitsEdit(const Texts& texts, const QString& name)
        : TypedField(texts, QObject::tr("%1, units").arg(name), nullptr) {
        set_typed({});
    }
    std::optional<int> quarters() const {
        const auto value = parse(typed().trimmed());
        return value ? std::optional<int>(*value) : std::nullopt;
    }

  protected:
    Result<QString> read(const QString& text) const override {
        const auto value = parse(text);
        if (!value) return value.faults();
        return unit();
    }
    QString unit() const override { return QObject::tr("units"); }

  private:
    /// A volume's digits have the same rules and the same fineness as a count in quarters.
    static Result<int> parse(const QString& text) {
        constexpr std::int64_t kQuarter = 250'000;
        const auto millionths = parse_ml(to_utf8(text), {});
        const bool whole =
            millionths && millionths->nl() % kQuarter == 0 && millionths->nl() / kQuarter <= 40'000;
        if (whole) return static_cast<int>(millionths->nl() / kQuarter);
        return Fault{"field-not-quarters", {}, {{"text", to_utf8(text.left(40))}}};
    }
};

class SupplySection : public RecordSection {
  public:
    explicit SupplySection(Workbench& workbench)
        : RecordSection(workbench, tr("Supply at home"),
                        tr("What was counted on a day. From it follows until when the supply lasts.")),
          on_(new DayEdit(texts(), tr("Counted on"))),
          list_(new QVBoxLayout) {
        on_->set_required(true);
        add_field(body(), tr("Counted on"), on_);
        body().addLayout(list_);
        watch(on_);
    }

  protected:
    void load(const PatientRecord& record) override {
        clear_column(*list_);
        counts_.clear();
        on_->set_day(workbench().today());
        if (!record.products || record.products->value.products.empty()) {
            auto* hint = new Label(tr("First choose the products at hand: they are counted here then."),
                                   Type::text, Tone::soft_ink);
            list_->addWidget(hint->wrapped());
        } else {
            for (const Product& product : record.products->value.products) add_count(product);
        }
        if (!record.supply.empty())
            for (const OnHand& each : record.supply.back().value.on_hand) show_count(each);
        tell_entry(record.supply.empty() ? nullptr : &record.supply.back().stamp);
        forbid(counts_.empty() ? tr("Choose the products at hand first.") : QString());
    }

    std::optional<std::vector<Change>> collect() override {
        bool right = on_->check();
        SupplyCounted counted;
        for (auto& [field, product] : counts_) {
            right = field->check() && right;
            if (field->is_blank()) continue;
            OnHand hand{product, 0, Volume()};
            if (is_liquid(product.form))
                hand.volume = static_cast<VolumeEdit*>(field)->volume().value_or(Volume());
            else
                hand.quarters = static_cast<UnitsEdit*>(field)->quarters().value_or(0);
            counted.on_hand.push_back(hand);
        }
        if (!right) return std::nullopt;
        counted.on = *on_->day();
        return std::vector<Change>{counted};
    }

  private:
    void add_count(const Product& product) {
        const QString name = to_text(product_name(product));
        TypedField* field = is_liquid(product.form) ? static_cast<TypedField*>(new VolumeEdit(texts(), name))
                                                    : new UnitsEdit(texts(), name);
        auto* holder = new QWidget;
        auto* column = new QVBoxLayout(holder);
        column->setContentsMargins(0, 0, 0, 0);
        add_field(*column, name, field);
        list_->addWidget(holder);
        watch(field);
        counts_.emplace_back(field, product);
    }

    void show_count(const OnHand& each) {
        for (auto& [field, product] : counts_) {
            if (product != each.product) continue;
            if (is_liquid(product.form))
                static_cast<VolumeEdit*>(field)->set_volume(each.volume);
            else
                field->set_typed(
                    to_text(print_ml_digits(Volume::nanolitres(each.quarters * std::int64_t{250'000}))));
        }
    }

    DayEdit* on_;
    QVBoxLayout* list_;
    std::vector<std::pair<TypedField*, Product>> counts_;
};

}  // namespace

RecordSection* make_products_section(Workbench& workbench) {
    return new ProductsSection(workbench);
}

RecordSection* make_supply_section(Workbench& workbench) {
    return new SupplySection(workbench);
}

}  // namespace evenfall::ui
