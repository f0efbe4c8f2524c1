// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/sample.h"

#include <algorithm>
#include <map>
#include <set>
#include <stdexcept>

namespace evenfall::papers {
namespace {

const Product kClonazepamHalf{"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::quarters, {}};
const Product kClonazepamOdt{
    "clonazepam", Form::orally_disintegrating_tablet, Dose::micrograms(125), Cuts::whole, {}};
const Product kDiazepam2{"diazepam", Form::tablet, Dose::milligrams(2), Cuts::quarters, {}};
const Product kDiazepamLiquid{"diazepam", Form::oral_solution, Dose::milligrams(1), Cuts::whole,
                              Volume::nanolitres(100'000)};

Step step(int number, Day starts, std::optional<int> days, StepStatus status, std::vector<PlannedDose> doses,
          Dose before) {
    Step made;
    made.number = number;
    made.starts = starts;
    made.days = days;
    made.status = status;
    made.doses = std::move(doses);
    for (const PlannedDose& each : made.doses) made.daily += each.amount;
    made.percent_of_last = Share::cut(before, made.daily);
    return made;
}

int roll(std::mt19937_64& random, int low, int high) {
    return std::uniform_int_distribution<int>(low, high)(random);
}

std::vector<Piece> random_pieces(std::mt19937_64& random, const std::vector<Product>& products) {
    std::map<Product, std::vector<Piece>> pieces;
    for (int i = roll(random, 1, 2); i > 0; --i) {
        const Product& product =
            products[static_cast<std::size_t>(roll(random, 0, static_cast<int>(products.size()) - 1))];
        std::vector<Piece>& mine = pieces[product];
        mine.clear();
        if (is_liquid(product.form)) {
            mine.push_back(measured(product, Volume::nanolitres(100'000) * roll(random, 1, 90)));
            continue;
        }
        if (roll(random, 0, 3) > 0) mine.push_back(piece(product, Cut::whole, roll(random, 1, 14)));
        if (product.cuts != Cuts::whole && roll(random, 0, 1)) mine.push_back(piece(product, Cut::half, 1));
        if (product.cuts == Cuts::quarters && roll(random, 0, 1))
            mine.push_back(piece(product, Cut::quarter, 1));
        if (mine.empty()) mine.push_back(piece(product, Cut::whole, 1));
    }
    std::vector<Piece> all;
    for (auto& [product, mine] : pieces) all.insert(all.end(), mine.begin(), mine.end());
    return all;
}

}  // namespace

const Formulary& shipped_formulary() {
    static const Formulary formulary = [] {
        auto loaded = load_formulary(resources_folder() / "formulary.json");
        if (!loaded) throw std::runtime_error("formulary: " + loaded.faults().front().id);
        return *loaded;
    }();
    return formulary;
}

const Texts& shipped_texts(const std::string& language) {
    static std::map<std::string, Texts> loaded;
    const auto found = loaded.find(language);
    if (found != loaded.end()) return found->second;
    auto texts = Texts::load(resources_folder(), language);
    if (!texts) throw std::runtime_error("texts: " + texts.faults().front().id);
    return loaded.emplace(language, *texts).first->second;
}

std::string text_of(Paper paper, const PaperSource& source, const std::string& language) {
    const auto document = make_paper(paper, source, shipped_texts(language));
    if (!document) throw std::runtime_error(document.faults().front().id);
    return plain_text(*document);
}

Piece piece(const Product& product, Cut cut, int count) {
    return {product, cut, count, {}};
}

Piece measured(const Product& product, Volume volume) {
    return {product, Cut::ml, 1, volume};
}

PlannedDose dose(int minutes, std::vector<Piece> pieces) {
    const Dose amount = amount_of(pieces);
    const std::string drug = pieces.front().product.drug;
    return {{minutes}, drug, amount, std::move(pieces)};
}

PaperSource person_without_plan() {
    PaperSource source;
    source.person = {"river-17", "Ana Example", day_at(1968, 4, 2), 71.0, "en"};
    source.clinic = {"Harbour Clinic", "555-0140", "555-0141", "112", "555-0199", 28, 5};
    source.prescriber = {"Dr Kim Sample", "LIC-4471"};
    source.formulary = &shipped_formulary();
    source.rules = &shipped_rules();
    source.as_of = day_at(2026, 12, 20);
    source.regimen.doses = {{{8 * 60}, "clonazepam", Dose::milligrams(1), {}, {}},
                            {{21 * 60}, "clonazepam", Dose::micrograms(1500), {}, {}}};
    return source;
}

PaperSource two_steps() {
    PaperSource source = person_without_plan();
    Plan plan;
    plan.request.drug = "clonazepam";
    plan.request.start = day_at(2027, 1, 4);
    plan.start = source.regimen;
    plan.products = {kClonazepamHalf, kClonazepamOdt};
    const auto morning = dose(8 * 60, {piece(kClonazepamHalf, Cut::whole, 2)});
    plan.steps = {
        step(1, day_at(2027, 1, 4), 14, StepStatus::committed,
             {morning,
              dose(21 * 60, {piece(kClonazepamHalf, Cut::whole, 2), piece(kClonazepamHalf, Cut::half, 1),
                             piece(kClonazepamOdt, Cut::whole, 1)})},
             Dose::micrograms(2500)),
        step(2, day_at(2027, 1, 18), 14, StepStatus::committed,
             {morning,
              dose(21 * 60, {piece(kClonazepamHalf, Cut::whole, 2), piece(kClonazepamHalf, Cut::half, 1)})},
             Dose::micrograms(2375)),
        step(3, day_at(2027, 2, 1), 14, StepStatus::outlook,
             {morning, dose(21 * 60, {piece(kClonazepamHalf, Cut::whole, 2)})}, Dose::micrograms(2250))};
    source.plan = plan;
    source.plan_id = "0123456789abcdef0123456789abcdef";
    source.goals = {"Sleep without tablets", "Walk to the lake with the dog"};
    source.confidence = 7;
    source.taken_for = "panic attacks";
    source.tracked_items = {"anxiety", "sleep", "sweating"};
    return source;
}

PaperSource every_risk() {
    PaperSource source = two_steps();
    source.regimen.doses = {{{8 * 60}, "diazepam", Dose::milligrams(6), {}, {}},
                            {{14 * 60}, "diazepam", Dose::milligrams(5), {}, {}},
                            {{22 * 60}, "diazepam", Dose::milligrams(8), {}, {}}};
    Plan& plan = *source.plan;
    plan.request.drug = "diazepam";
    plan.start = source.regimen;
    plan.products = {kDiazepam2, kDiazepamLiquid};
    const auto morning = dose(8 * 60, {piece(kDiazepam2, Cut::whole, 3)});
    const auto night = dose(22 * 60, {piece(kDiazepam2, Cut::whole, 4)});
    plan.steps = {
        step(1, day_at(2027, 1, 4), 14, StepStatus::committed,
             {morning, dose(14 * 60, {measured(kDiazepamLiquid, Volume::nanolitres(4'200'000))}), night},
             Dose::milligrams(19)),
        step(2, day_at(2027, 1, 18), 28, StepStatus::committed,
             {morning,
              dose(14 * 60, {piece(kDiazepam2, Cut::whole, 1), piece(kDiazepam2, Cut::half, 1),
                             piece(kDiazepam2, Cut::quarter, 1)}),
              night},
             Dose::micrograms(18200))};
    for (const std::string& risk : kRiskWords) source.risks.insert(risk);
    source.other_medicines = {"fluvoxamine 50 mg", "oxycodone", "ibuprofen"};
    source.as_of = day_at(2027, 1, 4);
    source.replaces_code = "4F7K-X2MC";
    source.replaces_on = day_at(2026, 12, 7);
    return source;
}

PaperSource two_agents() {
    PaperSource source = two_steps();
    const DoseTime other{{22 * 60 + 30}, "zolpidem", Dose::milligrams(5), {}, {}};
    source.plan->start.doses.push_back(other);
    for (Step& each : source.plan->steps) each.doses.push_back({other.at, other.drug, other.amount, {}});
    return source;
}

PaperSource crossing_over() {
    PaperSource source = two_steps();
    const Product alprazolam{"alprazolam", Form::tablet, Dose::micrograms(250), Cuts::halves, {}};
    Plan& plan = *source.plan;
    plan.request.drug = "diazepam";
    plan.products = {alprazolam, kDiazepam2};
    plan.start.doses = {{{8 * 60}, "alprazolam", Dose::micrograms(500), {}, {}},
                        {{22 * 60}, "alprazolam", Dose::micrograms(500), {}, {}}};
    source.regimen = plan.start;
    const auto night = dose(22 * 60, {piece(kDiazepam2, Cut::whole, 3)});
    plan.steps = {step(1, day_at(2027, 1, 4), 7, StepStatus::committed,
                       {dose(8 * 60, {piece(alprazolam, Cut::whole, 2)}),
                        dose(22 * 60, {piece(alprazolam, Cut::whole, 1)}), night},
                       Dose::milligrams(6)),
                  step(2, day_at(2027, 1, 11), 7, StepStatus::committed,
                       {dose(8 * 60, {piece(kDiazepam2, Cut::whole, 5)}), night}, Dose::milligrams(6))};
    for (Step& stage : plan.steps) stage.flags.push_back({"crossover-review", {}, {}});
    return source;
}

PaperSource from_a_bottle() {
    PaperSource source = two_steps();
    const Product strong{"lorazepam", Form::oral_concentrate, Dose::milligrams(2), Cuts::whole,
                         Volume::nanolitres(50'000)};
    Plan& plan = *source.plan;
    plan.request.drug = "lorazepam";
    plan.products = {strong};
    plan.start.doses = {{{8 * 60}, "lorazepam", Dose::milligrams(1), {}, {}}};
    source.regimen = plan.start;
    plan.steps = {
        step(1, day_at(2027, 1, 4), 14, StepStatus::committed,
             {dose(8 * 60, {measured(strong, Volume::nanolitres(450'000))})}, Dose::milligrams(1)),
        step(2, day_at(2027, 1, 18), 14, StepStatus::committed,
             {dose(8 * 60, {measured(strong, Volume::nanolitres(350'000))})}, Dose::micrograms(900))};
    return source;
}

PaperSource down_to_off() {
    PaperSource source = two_steps();
    Plan& plan = *source.plan;
    plan.start.doses = {{{21 * 60}, "clonazepam", Dose::micrograms(250), {}, {}}};
    plan.steps = {
        step(1, day_at(2027, 1, 4), 14, StepStatus::committed,
             {dose(21 * 60, {piece(kClonazepamOdt, Cut::whole, 1)})}, Dose::micrograms(250)),
        step(2, day_at(2027, 1, 18), std::nullopt, StepStatus::committed, {}, Dose::micrograms(125))};
    return source;
}

PaperSource random_source(std::mt19937_64& random) {
    PaperSource source = person_without_plan();
    std::vector<const Drug*> drugs;
    for (const auto& [name, drug] : source.formulary->drugs) drugs.push_back(&drug);
    const Drug& drug = *drugs[static_cast<std::size_t>(roll(random, 0, static_cast<int>(drugs.size()) - 1))];
    std::vector<Product> products;
    for (const ListedProduct& listed : drug.products) products.push_back(listed.product);
    std::set<int> times;
    for (int i = roll(random, 1, 12); i > 0; --i) times.insert(roll(random, 0, 95) * 15);
    Plan plan;
    plan.request.drug = drug.name;
    plan.request.start = source.as_of + std::chrono::days(roll(random, 0, 40));
    plan.products = products;
    for (const int at : times) {
        const PlannedDose each = dose(at, random_pieces(random, products));
        plan.start.doses.push_back({each.at, each.drug, each.amount, {}, {}});
    }
    Day starts = plan.request.start;
    const int committed = roll(random, 1, 6);
    for (int number = 1; number <= committed + 2; ++number) {
        std::vector<PlannedDose> doses;
        for (const int at : times)
            if (doses.empty() || roll(random, 0, 9) > 0)
                doses.push_back(dose(at, random_pieces(random, products)));
        const int days = roll(random, 1, 35);
        plan.steps.push_back(step(number, starts, days,
                                  number <= committed ? StepStatus::committed : StepStatus::outlook, doses,
                                  Dose::milligrams(100)));
        starts += std::chrono::days(days);
    }
    source.plan = plan;
    for (const std::string& risk : kRiskWords)
        if (roll(random, 0, 2) == 0) source.risks.insert(risk);
    source.supply = some_supply(source);
    source.judged = some_check(source, random());
    return source;
}

Judged some_check(const PaperSource& source, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    const Regimen& taken = source.plan ? source.plan->start : source.regimen;
    StabilizationInput input;
    input.as_of = LocalTime(source.as_of) + std::chrono::hours(12);
    const Day first = source.as_of - std::chrono::days(roll(random, 3, 20));
    input.intended = {{first, taken}};
    for (const std::string& risk : kRiskWords)
        if (roll(random, 0, 1)) input.risks.answers[risk] = roll(random, 0, 1) ? Answer::yes : Answer::no;
    for (Day day = first; day < source.as_of; day += std::chrono::days(1))
        for (const DoseTime& dose : taken.doses) {
            if (roll(random, 0, 7) == 0) continue;
            const LocalTime at =
                LocalTime(day) + std::chrono::minutes(dose.at.minutes + roll(random, -90, 90));
            input.diary.intake.push_back({at, dose.drug, dose.amount, TakenWhy::symptoms, ""});
            if (roll(random, 0, 9) == 0) input.diary.intake.push_back(input.diary.intake.back());
            input.diary.ratings.push_back({at + std::chrono::hours(2), "restless legs", roll(random, 0, 10)});
        }
    return {check_stabilization(input, *source.formulary, shipped_rules(), Zone::named("UTC", "").value()),
            input.as_of};
}

const Rules& shipped_rules() {
    static const Rules rules = Rules::load(resources_folder() / "rules.json").value();
    return rules;
}

Supply some_supply(const PaperSource& source) {
    Supply supply;
    const Day from = source.plan->request.start;
    const Day to = from + std::chrono::days(source.clinic.days_per_fill);
    Fill fill{from, to, {}, to + std::chrono::days(source.clinic.reserve_days), {}};
    for (const Product& product : source.plan->products) {
        if (is_liquid(product.form)) {
            fill.items.push_back({product, 0, Volume::millilitres(120)});
            fill.left_over.push_back({product, 0, Volume::nanolitres(4'500'000)});
        } else {
            fill.items.push_back({product, 1204, {}});
            fill.left_over.push_back({product, 19, {}});
        }
    }
    supply.fills = {fill};
    fill.from = to;
    fill.to = to + std::chrono::days(source.clinic.days_per_fill);
    fill.covers_hold_until = fill.to + std::chrono::days(source.clinic.reserve_days);
    fill.items.resize(std::min<std::size_t>(1, fill.items.size()));
    supply.fills.push_back(fill);
    return supply;
}

}  // namespace evenfall::papers
