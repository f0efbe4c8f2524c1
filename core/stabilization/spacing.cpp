// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "stabilization/proposals.h"
#include "stabilization/split.h"
#include "units/dose_text.h"

namespace evenfall::stabilization {

namespace {

std::vector<DoseTime> doses_of(const Regimen& regimen, const std::string& drug, ClockTime begins) {
    std::vector<DoseTime> doses;
    for (const DoseTime& each : regimen.doses)
        if (each.drug == drug) doses.push_back(each);
    std::stable_sort(doses.begin(), doses.end(), [&](const DoseTime& a, const DoseTime& b) {
        return minutes_into_day(a.at, begins) < minutes_into_day(b.at, begins);
    });
    return doses;
}

/// Evenly over the waking hours. The person's own first and last dose times stay where they lie near its
/// ends; a last dose early in the evening would keep the long night gap that spreading is to shorten.
std::vector<ClockTime> spread_times(const Context& context, const std::vector<DoseTime>& doses, int count) {
    int first = context.rules.whole("waking-hours", "first_h") * 60;
    int last = context.rules.whole("waking-hours", "last_h") * 60;
    const int near = context.rules.whole("waking-hours", "near_minutes");
    if (std::abs(doses.front().at.minutes - first) <= near) first = doses.front().at.minutes;
    if (std::abs(doses.back().at.minutes - last) <= near) last = doses.back().at.minutes;
    std::vector<ClockTime> times;
    for (int i = 0; i < count; ++i) {
        const double at = first + static_cast<double>(last - first) * i / std::max(count - 1, 1);
        const bool end = i == 0 || i == count - 1;
        times.push_back({end ? static_cast<int>(at) : static_cast<int>(std::lround(at / 30) * 30)});
    }
    return times;
}

Regimen with_doses(const Regimen& regimen, const std::string& drug, const std::vector<ClockTime>& times,
                   const std::vector<Dose>& amounts) {
    Regimen changed;
    for (const DoseTime& each : regimen.doses)
        if (each.drug != drug) changed.doses.push_back(each);
    for (std::size_t i = 0; i < times.size(); ++i)
        changed.doses.push_back({times[i], drug, amounts[i], "", ""});
    std::sort(changed.doses.begin(), changed.doses.end());
    return changed;
}

/// The numbers of dose times worth trying: from the present number up to what is used of the agent.
std::pair<int, int> counts_to_try(const Drug& drug, int now) {
    const int low = std::max(now, drug.doses_per_day.usual_low);
    const int high =
        now >= drug.doses_per_day.usual_high ? drug.doses_per_day.most : drug.doses_per_day.usual_high;
    return {low, high};
}

std::optional<Proposal> one_spacing(const Context& context, const Today& today, const Drug& drug, int count,
                                    const PieceTable& table) {
    const auto doses = doses_of(today.regimen, drug.name, context.begins);
    const Dose total = daily_amount(today.regimen, drug.name);
    const auto amounts = split_evenly(total, count, table);
    if (!amounts) return std::nullopt;
    const auto pieces = table.day_pieces(*amounts);
    if (!pieces) return std::nullopt;
    const Regimen changed =
        with_doses(today.regimen, drug.name, spread_times(context, doses, count), *amounts);
    Proposal proposal;
    proposal.kind = ProposalKind::spacing;
    proposal.drug = drug.name;
    proposal.doses = planned(changed, drug.name, *pieces);
    proposal.today = today.shape;
    proposal.proposed = steady_shape(today.agents, changed, today.average, context.rules);
    proposal.says.push_back({"proposal-spacing",
                             {{"drug", drug.name},
                              {"amount", print_dose(total)},
                              {"doses", std::to_string(count)},
                              {"now", std::to_string(doses.size())},
                              {"usual_low", std::to_string(drug.doses_per_day.usual_low)},
                              {"usual_high", std::to_string(drug.doses_per_day.usual_high)}},
                             {}});
    return proposal;
}

/// A higher trough, and not bought with a higher peak.
bool gains(const Proposal& proposal, const Rules& rules) {
    return proposal.proposed.trough - proposal.today.trough >=
               rules.number("proposal-gain", "trough_percent") &&
           proposal.proposed.fluctuation <= proposal.today.fluctuation;
}

}  // namespace

std::vector<Product> usable_products(const Context& context, const Drug& drug, bool& listed) {
    std::vector<Product> products;
    bool on_hand = false;
    for (const Product& each : context.input.products) {
        if (each.drug != drug.name) continue;
        on_hand = true;
        if (!is_modified_release(each.form)) products.push_back(each);
    }
    listed = !on_hand;
    if (listed)
        for (const ListedProduct& each : drug.products)
            if (each.for_steps && !is_modified_release(each.product.form)) products.push_back(each.product);
    if (products.size() > kMostProducts) products.resize(kMostProducts);
    return products;
}

std::vector<PlannedDose> planned(const Regimen& regimen, const std::string& drug,
                                 const std::vector<std::vector<Piece>>& pieces) {
    std::vector<PlannedDose> doses;
    std::size_t next = 0;
    for (const DoseTime& each : regimen.doses) {
        doses.push_back({each.at, each.drug, each.amount, {}});
        if (each.drug == drug && next < pieces.size()) doses.back().pieces = pieces[next++];
    }
    return doses;
}

std::vector<Proposal> spacings(const Context& context, const Today& today, const Drug& drug,
                               std::vector<Flag>& none) {
    const auto reason = [&](const char* rule, Args args = {}) {
        args["drug"] = drug.name;
        none.push_back({rule, std::move(args), {}});
        return std::vector<Proposal>{};
    };
    if (drug.hypnotic) return reason("proposal-hypnotic");
    bool listed = false;
    const auto products = usable_products(context, drug, listed);
    if (products.empty()) return reason(listed ? "proposal-no-products" : "proposal-modified-release");
    const Dose total = daily_amount(today.regimen, drug.name);
    const PieceTable table(products, drug.name, PieceWeights::from(context.rules), total);
    const int now = static_cast<int>(doses_of(today.regimen, drug.name, context.begins).size());
    const auto [low, high] = counts_to_try(drug, now);
    std::vector<Proposal> found;
    bool made = false;
    for (int count = low; count <= high; ++count) {
        auto proposal = one_spacing(context, today, drug, count, table);
        made = made || proposal;
        if (!proposal || !gains(*proposal, context.rules)) continue;
        if (listed) proposal->says.push_back({"proposal-listed-products", {{"drug", drug.name}}, {}});
        found.push_back(std::move(*proposal));
    }
    if (found.empty()) {
        if (now >= drug.doses_per_day.most)
            return reason("proposal-already-spread", {{"now", std::to_string(now)}});
        return reason(made ? "proposal-no-gain" : "proposal-not-makeable", {{"amount", print_dose(total)}});
    }
    std::stable_sort(found.begin(), found.end(), [](const Proposal& a, const Proposal& b) {
        return a.proposed.trough > b.proposed.trough;
    });
    return found;
}

}  // namespace evenfall::stabilization
