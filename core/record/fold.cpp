// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>
#include <tuple>

#include "record/patient_record.h"

namespace evenfall {
namespace {

auto fold_key(const Stamp& stamp) {
    return std::tie(stamp.clock, stamp.log, stamp.sequence);
}

template <class T>
Entry<T> entry(const StoredEvent& event, T value) {
    return {event.event.id, event.stamp, std::move(value)};
}

/// Puts each kind of change where the patient's record keeps it.
struct PatientFold {
    PatientRecord& record;
    const StoredEvent& event;

    void operator()(Person value) const { record.person = entry(event, std::move(value)); }
    void operator()(RiskScreen value) const { record.risks = entry(event, std::move(value)); }
    void operator()(OtherMedicines value) const { record.other_medicines = entry(event, std::move(value)); }
    void operator()(History value) const { record.history = entry(event, std::move(value)); }
    void operator()(Goals value) const { record.goals = entry(event, std::move(value)); }
    void operator()(Supports value) const { record.supports = entry(event, std::move(value)); }
    void operator()(Lifestyle value) const { record.lifestyle = entry(event, std::move(value)); }
    void operator()(CuttingAbility value) const { record.cutting = entry(event, std::move(value)); }
    void operator()(Baseline value) const { record.baseline = entry(event, std::move(value)); }
    void operator()(ProductsChosen value) const { record.products = entry(event, std::move(value)); }
    void operator()(Suitability value) const { record.suitability = entry(event, std::move(value)); }
    void operator()(ContactPlanned value) const { record.next_contact = entry(event, std::move(value)); }
    void operator()(PlanEnded value) const { record.plan_ended = entry(event, std::move(value)); }
    void operator()(RegimenRecorded value) const {
        record.regimens.push_back(entry(event, std::move(value)));
    }
    void operator()(PlanCommitted value) const {
        record.plans.push_back(entry(event, std::move(value)));
        record.plan_ended.reset();
    }
    void operator()(HoldStarted value) const { record.holds.push_back(entry(event, std::move(value))); }
    void operator()(HoldEnded value) const { record.holds_ended.push_back(entry(event, value)); }
    void operator()(IntakeNoted value) const { record.intake.push_back(entry(event, std::move(value))); }
    void operator()(SymptomsNoted value) const { record.symptoms.push_back(entry(event, std::move(value))); }
    void operator()(CheckIn value) const { record.check_ins.push_back(entry(event, std::move(value))); }
    void operator()(ScaleAnswers value) const { record.scales.push_back(entry(event, std::move(value))); }
    void operator()(SupplyCounted value) const { record.supply.push_back(entry(event, std::move(value))); }
    void operator()(PaperIssued value) const { record.papers.push_back(entry(event, std::move(value))); }
    void operator()(NoteAdded value) const { record.notes.push_back(entry(event, std::move(value))); }
    void operator()(RuleOverridden value) const {
        record.overrides.push_back(entry(event, std::move(value)));
    }
    void operator()(ContactAttempted value) const {
        record.attempts.push_back(entry(event, std::move(value)));
    }
    void operator()(WhereaboutsNoted value) const {
        record.whereabouts.push_back(entry(event, std::move(value)));
    }
    void operator()(DangerTold value) const { record.told.push_back(entry(event, std::move(value))); }
    void operator()(ReasonSnoozed value) const { record.snoozed.push_back(entry(event, std::move(value))); }
    void operator()(DrugTestNoted value) const {
        record.drug_tests.push_back(entry(event, std::move(value)));
    }
    void operator()(MonitoringChecked value) const {
        record.monitoring.push_back(entry(event, std::move(value)));
    }
    void operator()(LifeEvent value) const { record.life_events.push_back(entry(event, std::move(value))); }
    void operator()(TabletsReturned value) const {
        record.returned.push_back(entry(event, std::move(value)));
    }
    void operator()(StandingChanged value) const { record.standing = entry(event, std::move(value)); }
    void operator()(CareTeamSet value) const { record.team = entry(event, std::move(value)); }
    template <class T>
    void operator()(T) const {}  // amendments are folded beforehand; a clinic's changes are no patient's
};

struct ClinicFold {
    ClinicRecord& record;
    const StoredEvent& event;

    void operator()(Clinic value) const { record.clinic = entry(event, std::move(value)); }
    void operator()(ProductListed value) const { record.listed.push_back(entry(event, std::move(value))); }
    void operator()(ProductWithdrawn value) const {
        record.withdrawn.push_back(entry(event, std::move(value)));
    }
    void operator()(RuleChanged value) const { record.rules.push_back(entry(event, std::move(value))); }
    void operator()(EquivalenceChosen value) const {
        record.equivalences.push_back(entry(event, std::move(value)));
    }
    void operator()(PriceSet value) const { record.prices.push_back(entry(event, std::move(value))); }
    void operator()(CurrencySet value) const { record.currency = entry(event, std::move(value)); }
    template <class T>
    void operator()(T) const {}
};

/// What amendments that count took back.
std::set<EventId> amended_ids(std::span<const StoredEvent> events) {
    std::set<EventId> amended;
    for (const StoredEvent& event : events) {
        if (event.event.kind != "entry-amended" || !event.void_reason.empty()) continue;
        const auto change = read_change(event.event);
        if (change) amended.insert(std::get<EntryAmended>(*change).event);
    }
    return amended;
}

template <class Fold, class Record>
void fold_one(Record& record, const StoredEvent& event, Standing standing) {
    HistoryLine line{event.event.id, event.stamp, event.event.kind, standing, {}};
    auto change = read_change(event.event);
    if (!change) {
        if (change.faults().front().id != "event-unknown-kind" && standing == Standing::counts)
            line.standing = Standing::unreadable;
    } else {
        if (const auto* amendment = std::get_if<EntryAmended>(&*change)) line.reason = amendment->reason;
        if (standing == Standing::counts) std::visit(Fold{record, event}, std::move(*change));
    }
    record.lines.push_back(std::move(line));
}

template <class Fold, class Record>
void fold_all(Record& record, std::span<const StoredEvent> events) {
    const std::set<EventId> amended = amended_ids(events);
    for (const StoredEvent& event : events) {
        Standing standing = Standing::counts;
        if (!event.void_reason.empty())
            standing = Standing::without_right;
        else if (amended.contains(event.event.id))
            standing = Standing::amended;
        fold_one<Fold>(record, event, standing);
    }
}

}  // namespace

PatientRecord fold_patient(PatientId id, std::span<const StoredEvent> events) {
    PatientRecord record;
    record.id = std::move(id);
    fold_all<PatientFold>(record, events);
    return record;
}

ClinicRecord fold_clinic(std::span<const StoredEvent> events) {
    ClinicRecord record;
    fold_all<ClinicFold>(record, events);
    return record;
}

std::optional<PatientRecord> apply(PatientRecord record, const StoredEvent& event) {
    if (event.event.kind == "entry-amended") return std::nullopt;
    const Standing standing = event.void_reason.empty() ? Standing::counts : Standing::without_right;
    if (!record.lines.empty() && fold_key(event.stamp) < fold_key(record.lines.back().stamp))
        return std::nullopt;
    fold_one<PatientFold>(record, event, standing);
    return record;
}

Diary diary_of(const PatientRecord& record) {
    Diary diary;
    if (!record.regimens.empty()) diary.use = record.regimens.back().value.use;
    for (const auto& noted : record.intake) {
        diary.intake.insert(diary.intake.end(), noted.value.entries.begin(), noted.value.entries.end());
        diary.kept_empty.insert(diary.kept_empty.end(), noted.value.kept_empty.begin(),
                                noted.value.kept_empty.end());
    }
    for (const auto& noted : record.symptoms)
        diary.ratings.insert(diary.ratings.end(), noted.value.entries.begin(), noted.value.entries.end());
    std::ranges::stable_sort(diary.intake, {}, &Intake::taken_at);
    std::ranges::stable_sort(diary.ratings, {}, &Rating::rated_at);
    std::ranges::sort(diary.kept_empty);
    return diary;
}

}  // namespace evenfall
