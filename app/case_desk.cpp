// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/case_desk.h"

#include <QCryptographicHash>

#include <nlohmann/json.hpp>

#include "exchange/answers.h"
#include "exchange/case_record.h"

namespace evenfall::app {
namespace {

/// Names what a case holds by what it says, so that its papers bear the same code whenever they are made.
void name_by_content(std::vector<Event>& events) {
    QCryptographicHash hash(QCryptographicHash::Sha256);
    constexpr int kDigits = 32;
    for (Event& event : events) {
        hash.addData(QByteArray::fromStdString(event.kind + event.body->dump()));
        event.id = hash.result().toHex().left(kDigits).toStdString();
    }
}

}  // namespace

Result<CaseDesk> desk_of_case(const CaseSource& source, const Resources& resources) {
    const Formulary formulary = with_case(resources.formulary, source.given);
    std::optional<Plan> plan;
    if (source.given.plan) {
        auto made = answers::plan_of({source.given, formulary, resources.rules});
        if (!made) return faults_in(source.file, made.faults());
        plan = std::move(*made);
    }
    const Instant now = source.given.zone.to_instant(source.given.as_of).instant;
    auto log = log_in_memory("case", [now] { return now; });
    const PatientId patient = log->new_id();
    std::vector<Event> events;
    for (const Change& change : changes_of(source.given, plan, source.name))
        events.push_back(write_change(log->new_id(), patient, change));
    if (source.given.clinic) {
        Clinic clinic = *source.given.clinic;
        if (source.given.supply) {  // the papers count fills as `compute supply` does
            clinic.days_per_fill = source.given.supply->days_per_fill;
            clinic.reserve_days = source.given.supply->reserve_days;
        }
        events.push_back(write_change(log->new_id(), {}, clinic));
    }
    name_by_content(events);
    const Prescriber prescriber = source.given.prescriber.value_or(Prescriber{});
    if (auto written = log->append(std::move(events)); !written) return written.faults();
    auto desk = Desk::open(std::move(log), formulary, resources.rules,
                           {"case", prescriber.name, Role::prescriber, prescriber.licence});
    if (!desk) return desk.faults();
    return CaseDesk{std::move(*desk), patient};
}

}  // namespace evenfall::app
