// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "record/changes.h"

namespace evenfall {

/// A value of the record with who wrote it and when.
template <class T>
struct Entry {
    EventId id;
    Stamp stamp;
    T value;

    bool operator==(const Entry&) const = default;
};

/// How an event of the history stands.
enum class Standing {
    counts,         ///< it is part of the record
    amended,        ///< a later entry took it back
    without_right,  ///< its author had no right to write it
    unreadable      ///< this program cannot read it; kept, shown, not counted
};

/// One line of who did what when.
struct HistoryLine {
    EventId id;
    Stamp stamp;
    std::string kind;
    Standing standing = Standing::counts;
    std::string reason;  ///< of an amendment

    bool operator==(const HistoryLine&) const = default;
};

/// Everything that is known of one person: the fold of their events. Nothing here is derived.
struct PatientRecord {
    // Compiled once: so many members copied and let go are long work for each file that holds a record.
    PatientRecord();
    PatientRecord(const PatientRecord& other);
    PatientRecord(PatientRecord&& other) noexcept;
    PatientRecord& operator=(const PatientRecord& other);
    PatientRecord& operator=(PatientRecord&& other) noexcept;
    ~PatientRecord();

    PatientId id;
    std::optional<Entry<Person>> person;
    std::optional<Entry<RiskScreen>> risks;
    std::optional<Entry<OtherMedicines>> other_medicines;
    std::optional<Entry<History>> history;
    std::optional<Entry<Goals>> goals;
    std::optional<Entry<Supports>> supports;
    std::optional<Entry<Lifestyle>> lifestyle;
    std::optional<Entry<CuttingAbility>> cutting;
    std::optional<Entry<Baseline>> baseline;
    std::optional<Entry<ProductsChosen>> products;
    std::optional<Entry<Suitability>> suitability;
    std::optional<Entry<ContactPlanned>> next_contact;
    std::vector<Entry<RegimenRecorded>> regimens;
    std::vector<Entry<PlanCommitted>> plans;  ///< the last one is in force unless `plan_ended` came after it
    std::optional<Entry<PlanEnded>> plan_ended;
    std::vector<Entry<HoldStarted>> holds;
    std::vector<Entry<HoldEnded>> holds_ended;
    std::vector<Entry<IntakeNoted>> intake;
    std::vector<Entry<SymptomsNoted>> symptoms;
    std::vector<Entry<CheckIn>> check_ins;
    std::vector<Entry<ScaleAnswers>> scales;
    std::vector<Entry<SupplyCounted>> supply;
    std::vector<Entry<PaperIssued>> papers;
    std::vector<Entry<NoteAdded>> notes;
    std::vector<Entry<RuleOverridden>> overrides;
    std::vector<Entry<ContactAttempted>> attempts;
    std::vector<Entry<WhereaboutsNoted>> whereabouts;
    std::vector<Entry<DangerTold>> told;
    std::vector<Entry<ReasonSnoozed>> snoozed;
    std::optional<Entry<StandingChanged>> standing;  ///< empty: in care
    std::optional<Entry<CareTeamSet>> team;
    std::vector<Entry<DrugTestNoted>> drug_tests;
    std::vector<Entry<MonitoringChecked>> monitoring;
    std::vector<Entry<LifeEvent>> life_events;
    std::vector<Entry<TabletsReturned>> returned;
    std::vector<HistoryLine> lines;

    bool operator==(const PatientRecord&) const = default;
};

/// The clinic's own settings: the fold of its events.
struct ClinicRecord {
    std::optional<Entry<Clinic>> clinic;
    std::vector<Entry<ProductListed>> listed;
    std::vector<Entry<ProductWithdrawn>> withdrawn;
    std::vector<Entry<RuleChanged>> rules;
    std::vector<Entry<EquivalenceChosen>> equivalences;
    std::vector<Entry<PriceSet>> prices;
    std::optional<Entry<CurrencySet>> currency;
    std::vector<HistoryLine> lines;

    bool operator==(const ClinicRecord&) const = default;
};

/// Folds one patient's events, which are in fold order. An event that was judged void when it was read, or
/// was amended, is in the history and nowhere else.
PatientRecord fold_patient(PatientId id, std::span<const StoredEvent> events);

/// Folds the clinic's events; kinds that other rooms fold (grants) stand in the history only.
ClinicRecord fold_clinic(std::span<const StoredEvent> events);

/// The record with one more event, or nothing where the whole has to be folded anew (an amendment, or an
/// event that belongs before one that is already in).
std::optional<PatientRecord> apply(PatientRecord record, const StoredEvent& event);

/// The whole diary, in order of time.
Diary diary_of(const PatientRecord& record);

}  // namespace evenfall
