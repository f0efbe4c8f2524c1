// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/in_force.h"

#include <algorithm>

namespace evenfall {
namespace {

constexpr const char* kClinicsChoice = "clinic's choice";

struct Listing {
    const Stamp* stamp;
    const Product* product;
    const std::string* reason;
    bool withdrawn;
};

/// Additions and withdrawals in the order in which they were written.
std::vector<Listing> listings_of(const ClinicRecord& clinic) {
    std::vector<Listing> listings;
    for (const auto& e : clinic.listed)
        listings.push_back({&e.stamp, &e.value.product, &e.value.reason, false});
    for (const auto& e : clinic.withdrawn)
        listings.push_back({&e.stamp, &e.value.product, &e.value.reason, true});
    std::ranges::stable_sort(listings, {}, [](const Listing& l) { return l.stamp->clock; });
    return listings;
}

void list(Drug& drug, const Listing& listing) {
    std::erase_if(drug.products, [&](const ListedProduct& p) { return p.product == *listing.product; });
    if (listing.withdrawn) return;
    ListedProduct added;
    added.product = *listing.product;
    added.strength = {kClinicsChoice, false, *listing.reason};
    added.cutting_provenance = added.strength;
    drug.products.push_back(std::move(added));
}

}  // namespace

Formulary formulary_in_force(Formulary shipped, const ClinicRecord& clinic) {
    for (const Listing& listing : listings_of(clinic))
        if (const auto drug = shipped.drugs.find(listing.product->drug); drug != shipped.drugs.end())
            list(drug->second, listing);
    for (const auto& chosen : clinic.equivalences) {
        const auto drug = shipped.drugs.find(chosen.value.drug);
        if (drug == shipped.drugs.end() || !drug->second.equivalence) continue;
        Equivalence& equivalence = *drug->second.equivalence;
        equivalence.usual = chosen.value.usual;
        equivalence.usual_source = std::string(kClinicsChoice) + ": " + chosen.value.reason;
        equivalence.least_diazepam = std::max(equivalence.least_diazepam, equivalence.usual);
        equivalence.most_diazepam = std::min(equivalence.most_diazepam, equivalence.usual);
    }
    return shipped;
}

Rules rules_in_force(Rules shipped, const ClinicRecord& clinic) {
    for (const auto& changed : clinic.rules)
        if (auto laid = shipped.with(changed.value.rule, changed.value.name, changed.value.value))
            shipped = std::move(*laid);
    return shipped;
}

Prices prices_in_force(const ClinicRecord& clinic) {
    Prices prices;
    for (const auto& entry : clinic.prices) {
        // Whatever cuts it was entered with, it is the same unit that is paid for.
        std::erase_if(prices, [&](const auto& each) {
            return find_price(Prices{each}, entry.value.product).has_value();
        });
        if (const auto price = parse_price(entry.value.price, "price")) prices[entry.value.product] = *price;
    }
    return prices;
}

}  // namespace evenfall
