// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "model/diary.h"
#include "model/person.h"
#include "model/plan.h"
#include "record/contacts.h"
#include "record/event.h"
#include "units/result.h"

namespace evenfall {

/// Another medicine that the person takes, as they name it.
struct OtherMedicine {
    std::string name;
    std::string note;

    bool operator==(const OtherMedicine&) const = default;
};

struct OtherMedicines {
    std::vector<OtherMedicine> medicines;
    bool naloxone_at_home = false;

    bool operator==(const OtherMedicines&) const = default;
};

/// What is really taken from a day on, and how the agent is used.
struct RegimenRecorded {
    DatedRegimen regimen;
    Use use = Use::scheduled;

    bool operator==(const RegimenRecorded&) const = default;
};

/// The products that this person has or can get.
struct ProductsChosen {
    std::vector<Product> products;

    bool operator==(const ProductsChosen&) const = default;
};

/// A rule that was overridden by a prescriber, and why.
struct Override {
    std::string rule;
    std::string reason;

    bool operator==(const Override&) const = default;
};

/// A prescriber's signature under the committed steps of a plan. The outlook rides along as it was shown
/// then.
struct PlanCommitted {
    Plan plan;
    EventId replaces;  ///< the commitment before it; empty for the first
    std::vector<Override> overrides;
    Prescriber signed_by{};  ///< as the papers name them; the desk fills it in with whoever works there

    bool operator==(const PlanCommitted&) const = default;
};

/// The plan is no longer followed: OFF was reached, a maintenance dose agreed, or it was given up.
struct PlanEnded {
    Day on{};
    std::string reason;

    bool operator==(const PlanEnded&) const = default;
};

/// The dose stays where it is from a day on.
struct HoldStarted {
    Day from{};
    Day review_on{};
    std::string reason;

    bool operator==(const HoldStarted&) const = default;
};

struct HoldEnded {
    Day on{};

    bool operator==(const HoldEnded&) const = default;
};

/// Diary entries of doses.
struct IntakeNoted {
    std::vector<Intake> entries;
    std::vector<Day> kept_empty;  ///< days on which the diary was kept and nothing was taken

    bool operator==(const IntakeNoted&) const = default;
};

/// Diary entries of symptoms.
struct SymptomsNoted {
    std::vector<Rating> entries;

    bool operator==(const SymptomsNoted&) const = default;
};

/// What was counted at home on a day.
struct SupplyCounted {
    Day on{};
    std::vector<OnHand> on_hand;

    bool operator==(const SupplyCounted&) const = default;
};

/// A paper that left the room.
struct PaperIssued {
    std::string paper;  ///< "schedule", "caution", …
    std::string code;   ///< the short code it bears
    EventId plan;       ///< the commitment that it shows; empty where it shows none
    Day on{};
    Day valid_through{};

    bool operator==(const PaperIssued&) const = default;
};

/// When the person is to be seen or called next.
struct ContactPlanned {
    Day on{};
    std::string how;  ///< "call", "visit"

    bool operator==(const ContactPlanned&) const = default;
};

struct NoteAdded {
    std::string text;

    bool operator==(const NoteAdded&) const = default;
};

/// An earlier entry is taken back, or corrected by the entries written with this one.
struct EntryAmended {
    EventId event;
    std::string reason;

    bool operator==(const EntryAmended&) const = default;
};

/// Rules that a prescriber overrode when writing another entry, and why.
struct RuleOverridden {
    EventId event;
    std::vector<Override> overrides;

    bool operator==(const RuleOverridden&) const = default;
};

/// A clinic's own product, added or withdrawn.
struct ProductListed {
    Product product;
    std::string reason;

    bool operator==(const ProductListed&) const = default;
};
struct ProductWithdrawn {
    Product product;
    std::string reason;

    bool operator==(const ProductWithdrawn&) const = default;
};

/// A clinic's own value for a rule.
struct RuleChanged {
    std::string rule;
    std::string name;
    std::string value;
    std::string reason;

    bool operator==(const RuleChanged&) const = default;
};

/// A clinic's own usual equivalence: milligrams equal to 10 mg of diazepam.
struct EquivalenceChosen {
    std::string drug;
    Dose usual;
    std::string reason;

    bool operator==(const EquivalenceChosen&) const = default;
};

/// What one unit of a product costs, or one millilitre of a liquid, in the clinic's currency. Plain digits
/// ("0.12"); blank: it is not known any more.
struct PriceSet {
    Product product;
    std::string price;

    bool operator==(const PriceSet&) const = default;
};

/// What the clinic writes after a sum of money ("EUR"): a plain text that is printed as it stands.
struct CurrencySet {
    std::string currency;

    bool operator==(const CurrencySet&) const = default;
};

/// Everything that can be written into a record. The patient's changes first, then the clinic's.
using AnyChange =
    std::variant<Person, RiskScreen, OtherMedicines, History, Goals, Supports, Lifestyle, CuttingAbility,
                 Baseline, RegimenRecorded, ProductsChosen, Suitability, PlanCommitted, PlanEnded,
                 HoldStarted, HoldEnded, IntakeNoted, SymptomsNoted, CheckIn, ScaleAnswers, SupplyCounted,
                 PaperIssued, ContactPlanned, NoteAdded, EntryAmended, RuleOverridden, ContactAttempted,
                 WhereaboutsNoted, DangerTold, ReasonSnoozed, StandingChanged, CareTeamSet, DrugTestNoted,
                 MonitoringChecked, LifeEvent, TabletsReturned, Clinic, ProductListed, ProductWithdrawn,
                 RuleChanged, EquivalenceChosen, PriceSet, CurrencySet>;

/// One of them. How so many alternatives are copied and let go is compiled once, not in every file that holds
/// changes.
struct Change : AnyChange {
    using AnyChange::AnyChange;
    Change(const Change& other);
    Change(Change&& other) noexcept;
    Change& operator=(const Change& other);
    Change& operator=(Change&& other) noexcept;
    ~Change();
};

/// The kind under which a change is written ("plan-committed").
std::string_view kind_of(const Change& change);

/// Whether a change concerns the clinic as a whole.
bool is_clinic_change(const Change& change);

/// The event that writes `change`; `id` is 32 hexadecimal digits.
Event write_change(EventId id, PatientId patient, const Change& change);

/// What an event says. Faults: `event-unknown-kind`, `event-newer-version`, `event-unreadable`.
Result<Change> read_change(const Event& event);

}  // namespace evenfall
