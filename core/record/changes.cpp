// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/changes.h"

#include <array>
#include <utility>

#include "model/json.h"
#include "record/contacts_json.h"

namespace evenfall {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(OtherMedicine, name, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(OtherMedicines, medicines, naloxone_at_home)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(RegimenRecorded, regimen, use)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(ProductsChosen, products)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Override, rule, reason)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(PlanCommitted, plan, replaces, overrides, signed_by)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(PlanEnded, on, reason)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(HoldStarted, from, review_on, reason)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(HoldEnded, on)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(IntakeNoted, entries, kept_empty)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(SymptomsNoted, entries)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(SupplyCounted, on, on_hand)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(PaperIssued, paper, code, plan, on, valid_through)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(ContactPlanned, on, how)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(NoteAdded, text)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(EntryAmended, event, reason)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(RuleOverridden, event, overrides)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(ProductListed, product, reason)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(ProductWithdrawn, product, reason)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(RuleChanged, rule, name, value, reason)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(EquivalenceChosen, drug, usual, reason)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(PriceSet, product, price)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(CurrencySet, currency)

namespace {

using nlohmann::json;

constexpr std::size_t kAlternatives = std::variant_size_v<AnyChange>;

/// The kinds, in the order of the variant. A kind that shipped keeps its name for ever.
constexpr std::array<std::string_view, kAlternatives> kKinds = {
    "person-recorded",    "risks-recorded",     "other-medicines-recorded",
    "history-recorded",   "goals-recorded",     "supports-recorded",
    "lifestyle-recorded", "cutting-recorded",   "baseline-recorded",
    "regimen-recorded",   "products-chosen",    "suitability-signed",
    "plan-committed",     "plan-ended",         "hold-started",
    "hold-ended",         "intake-noted",       "symptoms-noted",
    "check-in-recorded",  "scale-recorded",     "supply-counted",
    "paper-issued",       "contact-planned",    "note-added",
    "entry-amended",      "rule-overridden",    "contact-attempted",
    "whereabouts-noted",  "danger-told",        "reason-snoozed",
    "standing-changed",   "care-team-set",      "drug-test-noted",
    "monitoring-checked", "life-event-noted",   "tablets-returned",
    "clinic-set",         "product-listed",     "product-withdrawn",
    "rule-changed",       "equivalence-chosen", "price-set",
    "currency-set"};

/// The first kind that concerns the clinic.
constexpr std::size_t kFirstClinicKind = 36;

constexpr int kVersion = 1;

template <std::size_t I>
Change read_alternative(const json& body) {
    return Change(std::in_place_index<I>, body.get<std::variant_alternative_t<I, AnyChange>>());
}

template <std::size_t... I>
Change read_at(std::size_t index, const json& body, std::index_sequence<I...>) {
    using Reader = Change (*)(const json&);
    static constexpr std::array<Reader, sizeof...(I)> readers = {&read_alternative<I>...};
    return readers[index](body);
}

Fault fault(std::string id, const Event& event, std::string text) {
    return {std::move(id), event.id, {{"kind", event.kind}, {"text", std::move(text)}}};
}

}  // namespace

Change::Change(const Change& other) = default;
Change::Change(Change&& other) noexcept = default;
Change& Change::operator=(const Change& other) = default;
Change& Change::operator=(Change&& other) noexcept = default;
Change::~Change() = default;

std::string_view kind_of(const Change& change) {
    return kKinds[change.index()];
}

bool is_clinic_change(const Change& change) {
    return change.index() >= kFirstClinicKind;
}

Event write_change(EventId id, PatientId patient, const Change& change) {
    Event event{std::move(id), std::move(patient), std::string(kind_of(change)), kVersion, {}};
    std::visit([&](const auto& value) { *event.body = value; }, change);
    return event;
}

Result<Change> read_change(const Event& event) {
    std::size_t index = 0;
    while (index < kKinds.size() && kKinds[index] != event.kind) ++index;
    if (index == kKinds.size()) return fault("event-unknown-kind", event, event.kind);
    if (event.version > kVersion) return fault("event-newer-version", event, std::to_string(event.version));
    try {
        return read_at(index, *event.body, std::make_index_sequence<kAlternatives>());
    } catch (const std::exception& error) {
        return fault("event-unreadable", event, error.what());
    }
}

}  // namespace evenfall
