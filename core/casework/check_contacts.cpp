// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/check_contacts.h"

#include <algorithm>

#include "casework/caseload.h"
#include "casework/checks.h"
#include "record/patient_record.h"

namespace evenfall {
namespace {

using std::chrono::days;

constexpr std::size_t kShortText = 200;
constexpr std::size_t kMostAnswers = 200;
constexpr int kMostScore = 1000;
constexpr int kBlank = -1;

Fault fault(std::string id, std::string_view place, Args args = {}) {
    return {std::move(id), std::string(place), std::move(args)};
}

void not_ahead(Day day, Day today, std::string_view place, Faults& faults) {
    if (day > today) faults.push_back(fault("day-in-future", place));
}

void not_far_ahead(Day day, Day today, std::string_view place, Faults& faults) {
    if (day > today + days(366)) faults.push_back(fault("day-too-far", place));
}

void in_order(const std::optional<Day>& first, const std::optional<Day>& second, std::string_view place,
              Faults& faults) {
    if (first && second && *second < *first) faults.push_back(fault("days-out-of-order", place));
}

void check_counts(const std::vector<OnHand>& counts, std::string_view place, Faults& faults) {
    if (counts.empty()) faults.push_back(fault("counted-nothing", place));
    for (const OnHand& each : counts)
        if (each.quarters < 0 || each.volume < Volume())
            faults.push_back(fault("count-negative", product_name(each.product)));
}

/// What the record makes impossible, kind by kind.
class AgainstRecord {
  public:
    AgainstRecord(const PatientRecord& record, const Rules& rules, Day today, Faults& faults)
        : record_(record), rules_(rules), today_(today), faults_(faults) {}

    void operator()(const CheckIn& check_in) {
        if (record_.regimens.empty()) return;
        const auto first =
            std::ranges::min(record_.regimens, {}, [](const auto& each) { return each.value.regimen.from; });
        if (day_of(check_in.at) < first.value.regimen.from)
            faults_.push_back(
                fault("check-in-before-record", "check-in", {{"from", print_day(first.value.regimen.from)}}));
    }
    void operator()(const WhereaboutsNoted& noted) { known(noted.danger); }
    void operator()(const DangerTold& told) { known(told.danger); }
    void operator()(const DrugTestNoted& test) {
        const auto continues = [&](const auto& each) { return each.id == test.continues; };
        if (!test.continues.empty() && std::ranges::none_of(record_.drug_tests, continues))
            faults_.push_back(fault("entry-unknown", test.continues));
    }
    void operator()(const ReasonSnoozed& snoozed) {
        if (is_never_put_off(snoozed.rule, rules_)) faults_.push_back(fault("snooze-danger", snoozed.rule));
        const int most = rules_.whole("snooze", "most_days");
        if (snoozed.until > today_ + days(most))
            faults_.push_back(fault("snooze-too-long", "until", {{"most", std::to_string(most)}}));
    }
    template <class T>
    void operator()(const T&) {}

  private:
    void known(const EventId& id) {
        if (id.empty()) return;  // said already
        const bool counts = std::ranges::any_of(record_.lines, [&](const HistoryLine& line) {
            return line.id == id && line.standing == Standing::counts;
        });
        if (!counts) faults_.push_back(fault("entry-unknown", id));
    }

    const PatientRecord& record_;
    const Rules& rules_;
    Day today_;
    Faults& faults_;
};

}  // namespace

void check_contact(const CheckIn& value, Day today, Faults& faults) {
    not_ahead(day_of(value.at), today, "check-in", faults);
    if (value.answers.size() > kMostAnswers)
        faults.push_back(fault("check-in-too-many", "answers", {{"most", std::to_string(kMostAnswers)}}));
    for (const auto& [question, answer] : value.answers) {
        check_text(question, "question", faults, kShortText);
        check_text(answer, question.substr(0, kShortText), faults);
    }
    check_text(value.own_words, "own words", faults);
}

void check_contact(const ScaleAnswers& value, Day today, Faults& faults) {
    not_ahead(value.on, today, "scale", faults);
    if (value.scale.empty()) faults.push_back(fault("scale-unnamed", "scale"));
    check_text(value.scale, "scale", faults, kShortText);
    for (const int item : value.items)
        if (item < kBlank || item > kMostScore)
            faults.push_back(fault("scale-item-absurd", value.scale, {{"text", std::to_string(item)}}));
}

void check_contact(const SupplyCounted& value, Day today, Faults& faults) {
    not_ahead(value.on, today, "supply", faults);
    check_counts(value.on_hand, "supply", faults);
}

void check_contact(const ContactPlanned& value, Day today, Faults& faults) {
    not_far_ahead(value.on, today, "next contact", faults);
    check_text(value.how, "how", faults, kShortText);
}

void check_contact(const ContactAttempted& value, Day today, Faults& faults) {
    not_ahead(day_of(value.at), today, "attempt", faults);
    check_text(value.number, "number", faults, kShortText);
    check_text(value.note, "note", faults);
}

void check_contact(const WhereaboutsNoted& value, Day today, Faults& faults) {
    not_ahead(day_of(value.at), today, "whereabouts", faults);
    if (value.danger.empty()) faults.push_back(fault("danger-unnamed", "danger"));
    if (value.where.empty() && value.with_whom.empty() && value.call_back.empty())
        faults.push_back(fault("whereabouts-empty", "where"));
    check_text(value.where, "where", faults, kShortText);
    check_text(value.with_whom, "who is there", faults, kShortText);
    check_text(value.call_back, "number to call back", faults, kShortText);
}

void check_contact(const DangerTold& value, Day today, Faults& faults) {
    not_ahead(day_of(value.at), today, "told", faults);
    if (value.danger.empty()) faults.push_back(fault("danger-unnamed", "danger"));
    if (value.who.empty()) faults.push_back(fault("told-nobody", "who"));
    if (value.answer.empty()) faults.push_back(fault("told-without-answer", "answer"));
    check_text(value.who, "who", faults, kShortText);
    check_text(value.number, "number", faults, kShortText);
    check_text(value.answer, "answer", faults);
}

void check_contact(const ReasonSnoozed& value, Day today, Faults& faults) {
    if (value.reason.empty()) faults.push_back(fault("reason-missing", "reason"));
    if (value.until <= today) faults.push_back(fault("snooze-not-ahead", "until"));
    check_text(value.rule, "rule", faults, kShortText);
    check_text(value.reason, "reason", faults);
}

void check_contact(const StandingChanged& value, Day today, Faults& faults) {
    not_ahead(value.on, today, "standing", faults);
    check_text(value.note, "note", faults);
}

void check_contact(const CareTeamSet& value, Day /*today*/, Faults& faults) {
    check_text(value.clinician, "clinician", faults, kShortText);
    check_text(value.nurse, "nurse", faults, kShortText);
}

void check_contact(const DrugTestNoted& value, Day today, Faults& faults) {
    for (const auto& day : {value.explained_on, value.ordered_on, value.result_on})
        if (day) not_ahead(*day, today, "drug test", faults);
    if (!value.explained_on && !value.ordered_on && !value.result_on)
        faults.push_back(fault("test-empty", "drug test"));
    if (!value.result_on && (!value.result.empty() || value.agrees != TestAgrees::not_known))
        faults.push_back(fault("test-result-undated", "result"));
    in_order(value.explained_on, value.ordered_on, "ordered", faults);
    in_order(value.ordered_on, value.result_on, "result", faults);
    for (const auto* text : {&value.assay, &value.result, &value.note})
        check_text(*text, "drug test", faults);
}

void check_contact(const MonitoringChecked& value, Day today, Faults& faults) {
    not_ahead(value.on, today, "monitoring", faults);
    in_order(value.on, value.next_due, "next due", faults);
    if (value.next_due) not_far_ahead(*value.next_due, today, "next due", faults);
    check_text(value.found, "found", faults);
}

void check_contact(const LifeEvent& value, Day today, Faults& faults) {
    not_far_ahead(value.from, today, "from", faults);
    in_order(value.from, value.to, "to", faults);
    if (value.to) not_far_ahead(*value.to, today, "to", faults);
    check_text(value.note, "note", faults);
}

void check_contact(const TabletsReturned& value, Day today, Faults& faults) {
    not_ahead(value.on, today, "returned", faults);
    check_counts(value.returned, "returned", faults);
    check_text(value.to_whom, "to whom", faults, kShortText);
}

Faults check_against_record(const Change& change, const PatientRecord& record, const Rules& rules,
                            Day today) {
    Faults faults;
    std::visit(AgainstRecord(record, rules, today, faults), change);
    return faults;
}

}  // namespace evenfall
