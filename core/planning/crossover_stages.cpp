// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/crossover_stages.h"

#include <algorithm>

#include "units/dose_text.h"

namespace evenfall::planning {

namespace {

constexpr int kDayMinutes = 24 * 60;

int minutes_into_day(ClockTime at) {
    constexpr int kDayStarts = 4 * 60;
    return (at.minutes + kDayMinutes - kDayStarts) % kDayMinutes;
}

// What is left of the old agent at a dose time, and what stands there of the new one.
struct Move {
    ClockTime at;
    Dose left;
    Dose added;
};

class Layer {
  public:
    Layer(const CrossoverInput& input, const Formulary& formulary, const Rules& rules)
        : input_(input),
          formulary_(formulary),
          rules_(rules),
          old_(*formulary.find(input.from)->equivalence),
          new_(*formulary.find(input.to)->equivalence),
          old_pieces_(input.products, input.from, PieceWeights::from(rules), most_old()),
          new_pieces_(input.products, input.to, PieceWeights::from(rules), most_new()) {}

    Result<std::vector<CrossoverStage>> run(Portion portion, int days);

  private:
    Dose most_old() const {
        Dose most;
        for (const DoseTime& dose : input_.regimen.doses) most = std::max(most, dose.amount);
        return most;
    }
    // Room for the largest dose, for one unit beyond it, and for what is taken of the new agent already.
    Dose most_new() const {
        Dose most = converted(most_old(), old_, new_) + daily_amount(input_.regimen, input_.to);
        Dose unit;
        for (const Product& product : input_.products)
            if (product.drug == input_.to) unit = std::max(unit, product.strength);
        return most + unit;
    }
    bool old_is_listed() const { return !old_pieces_.products().empty(); }

    std::vector<Move> moves(Portion portion);
    std::optional<Dose> rest_of_half(Dose amount) const;
    Dose rounded(const DoseTime& time, Dose replaced);
    CrossoverStage stage(const std::vector<Move>& done);
    std::optional<DiazepamRange> as_diazepam_total(const std::map<std::string, Dose>& daily) const;
    std::vector<PlannedDose> merged(const std::vector<Move>& done) const;
    void add_pieces(CrossoverStage& stage);
    void add_pieces_of(const PieceTable& table, const std::string& drug, CrossoverStage& stage);

    const CrossoverInput& input_;
    const Formulary& formulary_;
    const Rules& rules_;
    Equivalence old_, new_;
    PieceTable old_pieces_, new_pieces_;
    std::vector<Flag> rounding_;
    Faults faults_;
};

// The makeable amount nearest to a half, the lower of two; nothing where that leaves all or none.
std::optional<Dose> Layer::rest_of_half(Dose amount) const {
    if (!old_is_listed()) return std::nullopt;
    std::optional<Dose> best;
    for (const Dose each : old_pieces_.makeable()) {
        if (each.is_zero() || each >= amount) continue;
        const auto off = [&](Dose rest) { return std::abs(2 * rest.ng() - amount.ng()); };
        if (!best || off(each) < off(*best)) best = each;
    }
    return best;
}

Dose Layer::rounded(const DoseTime& time, Dose replaced) {
    const Dose wish = converted(replaced, old_, new_);
    const auto [below, above] = new_pieces_.nearest(wish);
    Dose chosen = below.value_or(Dose());
    if (above && (chosen.is_zero() || *above - wish < wish - chosen)) chosen = *above;
    const Share off = Share::of(std::abs((chosen - wish).ng()), wish.ng());
    const Args args{{"at", print_clock(time.at)},
                    {"drug", input_.to},
                    {"wish", print_dose(Dose::micrograms((wish.ng() + 500) / 1000))},
                    {"amount", print_dose(chosen)},
                    {"percent", print_percent(off)}};
    if (chosen.is_zero() || off > rules_.percent("crossover-rounding", "most_percent")) {
        std::string nearest = below && !below->is_zero() ? print_dose(*below) : "";
        if (above) nearest += (nearest.empty() ? "" : ", ") + print_dose(*above);
        Args said = args;
        said["nearest"] = nearest;
        faults_.push_back({"crossover-new-not-makeable", "products", said});
    } else if (off > rules_.percent("crossover-rounding", "percent")) {
        rounding_.push_back({"crossover-rounding", args, {}});
    }
    return chosen;
}

std::vector<Move> Layer::moves(Portion portion) {
    std::vector<Move> all;
    for (const DoseTime& time : replaced_in_order(input_)) {
        const auto rest = portion == Portion::half ? rest_of_half(time.amount) : std::nullopt;
        if (rest) all.push_back({time.at, *rest, rounded(time, time.amount - *rest)});
        all.push_back({time.at, Dose(), rounded(time, time.amount)});
    }
    return all;
}

// The day's doses after the moves: what is left of the old agent, and the new one on top of what is taken of
// it already.
std::vector<PlannedDose> Layer::merged(const std::vector<Move>& done) const {
    std::vector<PlannedDose> doses;
    std::map<ClockTime, Dose> added;
    for (const Move& move : done) added[move.at] = move.added;
    for (const DoseTime& dose : input_.regimen.doses) {
        Dose amount = dose.amount;
        for (const Move& move : done)
            if (dose.drug == input_.from && move.at == dose.at) amount = move.left;
        if (dose.drug == input_.to && added.contains(dose.at)) {
            amount += added[dose.at];
            added.erase(dose.at);
        }
        if (!amount.is_zero()) doses.push_back({dose.at, dose.drug, amount, {}});
    }
    for (const auto& [at, amount] : added) doses.push_back({at, input_.to, amount, {}});
    std::stable_sort(doses.begin(), doses.end(),
                     [](const PlannedDose& a, const PlannedDose& b) { return a.at < b.at; });
    return doses;
}

void Layer::add_pieces_of(const PieceTable& table, const std::string& drug, CrossoverStage& stage) {
    std::vector<PlannedDose*> of_drug;
    std::vector<Dose> amounts;
    for (PlannedDose& dose : stage.doses)
        if (dose.drug == drug) {
            of_drug.push_back(&dose);
            amounts.push_back(dose.amount);
        }
    const auto day = table.day_pieces(amounts);
    for (std::size_t i = 0; i < of_drug.size(); ++i) {
        if (day) of_drug[i]->pieces = (*day)[i];
        if (!day && !table.makes(amounts[i]))
            faults_.push_back(
                {drug == input_.to ? "crossover-new-not-makeable" : "crossover-old-not-makeable",
                 "products",
                 {{"amount", print_dose(amounts[i])},
                  {"at", print_clock(of_drug[i]->at)},
                  {"drug", drug},
                  {"wish", print_dose(amounts[i])},
                  {"nearest", print_dose(table.nearest(amounts[i]).first.value_or(Dose()))}}});
    }
}

void Layer::add_pieces(CrossoverStage& stage) {
    if (old_is_listed()) add_pieces_of(old_pieces_, input_.from, stage);
    add_pieces_of(new_pieces_, input_.to, stage);
}

std::optional<DiazepamRange> Layer::as_diazepam_total(const std::map<std::string, Dose>& daily) const {
    DiazepamRange total;
    for (const auto& [agent, amount] : daily) {
        if (amount.is_zero()) continue;
        const Drug* drug = formulary_.find(agent);
        if (!drug || !drug->equivalence) return std::nullopt;
        total = total + as_diazepam(amount, *drug->equivalence);
    }
    return total;
}

CrossoverStage Layer::stage(const std::vector<Move>& done) {
    CrossoverStage stage;
    stage.number = static_cast<int>(done.size());
    stage.doses = merged(done);
    for (const std::string& agent : agents_of(input_.regimen)) stage.daily[agent] = Dose();
    for (const PlannedDose& dose : stage.doses) stage.daily[dose.drug] += dose.amount;
    stage.diazepam = as_diazepam_total(stage.daily);
    add_pieces(stage);
    return stage;
}

Result<std::vector<CrossoverStage>> Layer::run(Portion portion, int days) {
    const std::vector<Move> all = moves(portion);
    std::vector<CrossoverStage> stages;
    if (portion == Portion::half && all.size() == replaced_in_order(input_).size()) return stages;
    std::vector<Move> done;
    for (const Move& move : all) {
        done.push_back(move);
        stages.push_back(stage(done));
        stages.back().starts = input_.start + std::chrono::days(days * (stages.back().number - 1));
        for (const Flag& flag : rounding_)
            if (flag.args.at("at") == print_clock(move.at) &&
                flag.args.at("amount") == print_dose(move.added))
                stages.back().flags.push_back(flag);
    }
    if (!faults_.empty()) return faults_;
    return stages;
}

}  // namespace

Dose converted(Dose amount, const Equivalence& from, const Equivalence& to) {
    __extension__ using Wide = __int128;
    const Wide exact = Wide{amount.ng()} * to.usual.ng();
    const Wide half = from.usual.ng() / 2;
    return Dose::nanograms(static_cast<std::int64_t>((exact + half) / from.usual.ng()));
}

std::vector<DoseTime> replaced_in_order(const CrossoverInput& input) {
    std::vector<DoseTime> times;
    for (const DoseTime& dose : input.regimen.doses)
        if (dose.drug == input.from) times.push_back(dose);
    const auto place = [&](const DoseTime& dose) {
        const auto named = std::find(input.order.begin(), input.order.end(), dose.at);
        return std::pair(named - input.order.begin(), -minutes_into_day(dose.at));
    };
    std::stable_sort(times.begin(), times.end(),
                     [&](const DoseTime& a, const DoseTime& b) { return place(a) < place(b); });
    return times;
}

Result<std::vector<CrossoverStage>> lay_stages(const CrossoverInput& input, Portion portion,
                                               int days_per_stage, const Formulary& formulary,
                                               const Rules& rules) {
    return Layer(input, formulary, rules).run(portion, days_per_stage);
}

}  // namespace evenfall::planning
