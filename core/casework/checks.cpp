// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/checks.h"

#include <array>

#include "casework/check_contacts.h"
#include "planning/price.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

using std::chrono::days;
using std::chrono::years;

constexpr int kMostScore = 10;
constexpr std::size_t kShortText = 200;
constexpr std::size_t kCurrency = 12;  // letters: a name or a sign, no sentence

/// Marks that turn the direction of writing around (Unicode UAX 9): in a name they can reorder a dose on
/// paper.
constexpr std::array<std::string_view, 12> kDirectionMarks = {"\u200e", "\u200f", "\u061c", "\u202a",
                                                              "\u202b", "\u202c", "\u202d", "\u202e",
                                                              "\u2066", "\u2067", "\u2068", "\u2069"};

std::size_t characters(std::string_view text) {
    std::size_t count = 0;
    for (const char c : text) count += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    return count;
}

bool has_control(std::string_view text) {
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if ((byte < 0x20 && c != '\n' && c != '\t') || byte == 0x7f) return true;
    }
    for (const auto mark : kDirectionMarks)
        if (text.find(mark) != std::string_view::npos) return true;
    return false;
}

Fault fault(std::string id, std::string_view place, Args args = {}) {
    return {std::move(id), std::string(place), std::move(args)};
}

/// Checks each kind of change; kinds that hold nothing to check fall through to the template.
class Checker {
  public:
    Checker(const Formulary& formulary, Day today, Faults& faults)
        : formulary_(formulary), today_(today), faults_(faults) {}

    void operator()(const Person& person) {
        if (person.name.empty()) faults_.push_back(fault("person-no-name", "name"));
        if (person.reference.empty()) faults_.push_back(fault("person-no-reference", "reference"));
        check_text(person.name, "name", faults_, kShortText);
        check_text(person.reference, "reference", faults_, 40);
        check_text(person.phone, "phone", faults_, kShortText);
        if (person.born && *person.born > today_) faults_.push_back(fault("born-in-future", "born"));
        if (person.born && age_on(*person.born, today_) > 120)
            faults_.push_back(fault("born-too-long-ago", "born"));
        if (person.weight_kg && !(*person.weight_kg >= 2 && *person.weight_kg <= 500))
            faults_.push_back(fault("weight-out-of-range", "weight"));
    }
    void operator()(const RiskScreen& screen) {
        for (const auto& [question, answer] : screen.answers)
            if (std::find(kRiskWords.begin(), kRiskWords.end(), question) == kRiskWords.end())
                faults_.push_back(fault("risk-unknown", question, {{"text", question}}));
        check_text(screen.note, "note", faults_);
    }
    void operator()(const OtherMedicines& medicines) {
        for (std::size_t i = 0; i < medicines.medicines.size(); ++i) {
            const std::string place = "medicine " + std::to_string(i + 1);
            if (medicines.medicines[i].name.empty()) faults_.push_back(fault("medicine-no-name", place));
            check_text(medicines.medicines[i].name, place, faults_, kShortText);
            check_text(medicines.medicines[i].note, place, faults_);
        }
    }
    void operator()(const History& history) {
        for (const auto* text :
             {&history.taken_for, &history.treatment, &history.earlier_attempts, &history.note})
            check_text(*text, "history", faults_);
        if (history.since && *history.since > today_) faults_.push_back(fault("day-in-future", "since"));
    }
    void operator()(const Goals& goals) {
        for (const auto& goal : goals.goals) check_text(goal, "goal", faults_, kShortText);
        if (goals.confidence && (*goals.confidence < 0 || *goals.confidence > kMostScore))
            faults_.push_back(
                fault("score-out-of-range", "confidence", {{"text", std::to_string(*goals.confidence)}}));
    }
    void operator()(const Supports& supports) {
        for (const auto& person : supports.people)
            for (const auto* text : {&person.name, &person.relation, &person.phone})
                check_text(*text, "support", faults_, kShortText);
        check_text(supports.safe_times, "safe times", faults_);
    }
    void operator()(const Lifestyle& life) {
        for (const auto* text :
             {&life.meals, &life.movement, &life.daylight, &life.sleep, &life.skills, &life.substances})
            check_text(*text, "lifestyle", faults_);
    }
    void operator()(const CuttingAbility& cutting) {
        check_text(cutting.helper, "helper", faults_, kShortText);
    }
    void operator()(const Baseline& baseline) {
        if (baseline.on > today_) faults_.push_back(fault("day-in-future", "baseline"));
        for (const auto& [item, severity] : baseline.severity) check_score(severity, item);
    }
    void operator()(const RegimenRecorded& recorded) {
        check_regimen(recorded.regimen.regimen, formulary_, "regimen", faults_);
        if (recorded.regimen.from > today_ + days(366)) faults_.push_back(fault("day-too-far", "from"));
        if (recorded.regimen.from < today_ - days(366 * 100))
            faults_.push_back(fault("day-too-long-ago", "from"));
    }
    void operator()(const ProductsChosen& chosen) {
        for (const auto& product : chosen.products) check_product(product, product_name(product));
    }
    void operator()(const Suitability& suitability) { check_text(suitability.reason, "reason", faults_); }
    void operator()(const PlanCommitted& committed) { check_plan(committed.plan); }
    void operator()(const PlanEnded& ended) {
        if (ended.reason.empty()) faults_.push_back(fault("reason-missing", "reason"));
        check_text(ended.reason, "reason", faults_);
    }
    void operator()(const HoldStarted& hold) {
        if (hold.reason.empty()) faults_.push_back(fault("reason-missing", "reason"));
        check_text(hold.reason, "reason", faults_);
        if (hold.review_on < hold.from) faults_.push_back(fault("days-out-of-order", "review"));
    }
    void operator()(const IntakeNoted& noted) {
        for (std::size_t i = 0; i < noted.entries.size(); ++i) {
            const std::string place = "entry " + std::to_string(i + 1);
            const Intake& entry = noted.entries[i];
            if (!formulary_.find(entry.drug))
                faults_.push_back(fault("drug-unknown", place, {{"text", entry.drug}}));
            if (entry.amount <= Dose()) faults_.push_back(fault("amount-zero", place));
            if (day_of(entry.taken_at) > today_) faults_.push_back(fault("day-in-future", place));
            check_text(entry.note, place, faults_);
        }
    }
    void operator()(const SymptomsNoted& noted) {
        for (std::size_t i = 0; i < noted.entries.size(); ++i) {
            const Rating& rating = noted.entries[i];
            check_score(rating.severity, "entry " + std::to_string(i + 1));
            if (rating.item.empty())
                faults_.push_back(fault("item-missing", "entry " + std::to_string(i + 1)));
            check_text(rating.item, "item", faults_, kShortText);
            if (day_of(rating.rated_at) > today_) faults_.push_back(fault("day-in-future", rating.item));
        }
    }
    void operator()(const NoteAdded& note) { check_text(note.text, "note", faults_); }
    void operator()(const EntryAmended& amended) {
        if (amended.reason.empty()) faults_.push_back(fault("reason-missing", "reason"));
        check_text(amended.reason, "reason", faults_);
    }
    void operator()(const Clinic& clinic) {
        if (clinic.name.empty()) faults_.push_back(fault("clinic-no-name", {}));  // its sentence says where
        for (const auto* text : {&clinic.name, &clinic.phone, &clinic.after_hours, &clinic.emergency_number,
                                 &clinic.crisis_number})
            check_text(*text, "clinic", faults_, kShortText);
        if (clinic.days_per_fill < 1 || clinic.days_per_fill > 90)
            faults_.push_back(fault("days-per-fill", "fill"));
        if (clinic.reserve_days < 0 || clinic.reserve_days > 30)
            faults_.push_back(fault("reserve-days", "reserve"));
    }
    void operator()(const ProductListed& listed) { check_product(listed.product, "product"); }
    void operator()(const PriceSet& set) {
        check_product(set.product, product_name(set.product));
        if (set.price.empty()) return;
        if (const auto price = parse_price(set.price, product_name(set.product)); !price)
            faults_.insert(faults_.end(), price.faults().begin(), price.faults().end());
    }
    void operator()(const CurrencySet& set) { check_text(set.currency, "currency", faults_, kCurrency); }
    template <class T>
    void operator()(const T& value) {
        if constexpr (requires { check_contact(value, today_, faults_); })
            check_contact(value, today_, faults_);
    }

  private:
    void check_score(int score, std::string_view place) {
        if (score < 0 || score > kMostScore)
            faults_.push_back(fault("score-out-of-range", place, {{"text", std::to_string(score)}}));
    }

    void check_product(const Product& product, std::string_view place) {
        if (!formulary_.find(product.drug))
            faults_.push_back(fault("drug-unknown", place, {{"text", product.drug}}));
        if (product.strength <= Dose()) faults_.push_back(fault("amount-zero", place));
        if (is_liquid(product.form) && product.measure <= Volume())
            faults_.push_back(fault("measure-missing", place));
        if (product.cuts != Cuts::whole && product.form != Form::tablet &&
            product.form != Form::orally_disintegrating_tablet && product.form != Form::sublingual_tablet)
            faults_.push_back(fault("product-not-cut", place, {{"form", word(product.form)}}));
    }

    /// A plan is computed by the planner; what it says is proved again before it can be signed.
    void check_plan(const Plan& plan) {
        if (plan.steps.empty()) faults_.push_back(fault("plan-empty", "plan"));
        Day last = Day(days(-1000000));
        bool outlook = false;
        for (const Step& step : plan.steps) {
            if (step.status == StepStatus::outlook) outlook = true;
            if (outlook && step.status == StepStatus::committed)
                faults_.push_back(fault("plan-gap", "step " + std::to_string(step.number)));
            const std::string place = "step " + std::to_string(step.number);
            Dose daily;
            for (const PlannedDose& dose : step.doses) {
                const bool ours = dose.drug == plan.request.drug;
                if (ours) daily += dose.amount;
                // Another agent's doses stand without pieces, or with pieces that make them up.
                if ((ours || !dose.pieces.empty()) && amount_of(dose.pieces) != dose.amount)
                    faults_.push_back(
                        fault("plan-pieces-differ", place, {{"amount", print_dose(dose.amount)}}));
            }
            if (daily != step.daily)
                faults_.push_back(fault("plan-sum-differs", place, {{"amount", print_dose(step.daily)}}));
            if (step.starts <= last) faults_.push_back(fault("days-out-of-order", place));
            last = step.starts;
        }
    }

    const Formulary& formulary_;
    Day today_;
    Faults& faults_;
};

}  // namespace

void check_text(const std::string& text, std::string_view place, Faults& faults, std::size_t most) {
    if (characters(text) > most)
        faults.push_back(fault("text-too-long", place, {{"most", std::to_string(most)}}));
    if (has_control(text)) faults.push_back(fault("text-control", place));
}

void check_regimen(const Regimen& regimen, const Formulary& formulary, std::string_view place,
                   Faults& faults) {
    if (regimen.doses.empty()) faults.push_back(fault("regimen-empty", place));
    if (regimen.doses.size() > kMostDoseTimes)
        faults.push_back(fault("regimen-too-many", place, {{"most", std::to_string(kMostDoseTimes)}}));
    for (std::size_t i = 0; i < regimen.doses.size(); ++i) {
        const DoseTime& dose = regimen.doses[i];
        const std::string at = std::string(place) + ", dose " + std::to_string(i + 1);
        if (!formulary.find(dose.drug)) faults.push_back(fault("drug-unknown", at, {{"text", dose.drug}}));
        if (dose.amount <= Dose()) faults.push_back(fault("amount-zero", at));
        check_text(dose.how, at, faults, kShortText);
        check_text(dose.why, at, faults, kShortText);
        if (i == 0) continue;
        const DoseTime& before = regimen.doses[i - 1];
        if (dose.at < before.at) faults.push_back(fault("dose-times-out-of-order", at));
        if (dose.at == before.at && dose.drug == before.drug) faults.push_back(fault("dose-time-twice", at));
    }
}

Faults check_change(const Change& change, const Formulary& formulary, Day today) {
    Faults faults;
    std::visit(Checker(formulary, today, faults), change);
    return faults;
}

}  // namespace evenfall
