// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/course.h"

#include <algorithm>
#include <map>

#include "planning/by_hand.h"
#include "units/zone.h"

namespace evenfall {
namespace {

using std::chrono::days;

/// Something that sets what is taken from a day on: a regimen as taken, the steps of a commitment, or a hold.
struct Setting {
    Day from{};
    const Entry<RegimenRecorded>* regimen = nullptr;
    const Entry<PlanCommitted>* plan = nullptr;
    const Entry<HoldStarted>* hold = nullptr;
    bool ended = false;          ///< the plan is no longer followed: its dose goes on, its later steps do not
    std::optional<Day> until{};  ///< of a hold that a later signature ended: its next step begins then
};

Day start_of(const Entry<PlanCommitted>& plan) {
    return plan.value.plan.steps.front().starts;
}

/// Whether a commitment that was signed later begins no later: then this one was replaced before it began.
bool replaced_before_it_began(const std::vector<Entry<PlanCommitted>>& plans, std::size_t at) {
    for (std::size_t later = at + 1; later < plans.size(); ++later)
        if (!plans[later].value.plan.steps.empty() && start_of(plans[later]) <= start_of(plans[at]))
            return true;
    return false;
}

/// A hold lasts until a plan is signed after it: then it ends where that plan's next step begins. Empty while
/// none is signed.
std::optional<Day> end_of_hold(const Entry<HoldStarted>& hold, const PatientRecord& record) {
    if (record.plans.empty()) return std::nullopt;
    const Entry<PlanCommitted>& last = record.plans.back();
    if (last.stamp.clock <= hold.stamp.clock) return std::nullopt;
    for (const Step& step : last.value.plan.steps)
        if (step.starts >= hold.value.from) return step.starts;
    return hold.value.from;
}

/// Whether a hold that was written later begins no later than the plan: then no step of it begins. What
/// follows is in the plan that ended the hold.
bool kept_back_whole(const Entry<PlanCommitted>& plan, const PatientRecord& record) {
    return std::ranges::any_of(record.holds, [&](const Entry<HoldStarted>& hold) {
        return hold.stamp.clock > plan.stamp.clock && hold.value.from <= start_of(plan);
    });
}

std::vector<Setting> settings_of(const PatientRecord& record) {
    std::vector<Setting> settings;
    for (const auto& regimen : record.regimens)
        settings.push_back({regimen.value.regimen.from, &regimen, nullptr, nullptr});
    for (std::size_t i = 0; i < record.plans.size(); ++i)
        if (const auto& plan = record.plans[i]; !plan.value.plan.steps.empty() &&
                                                !replaced_before_it_began(record.plans, i) &&
                                                !kept_back_whole(plan, record))
            settings.push_back({start_of(plan), nullptr, &plan, nullptr});
    for (const auto& hold : record.holds)
        if (const auto until = end_of_hold(hold, record); !until || *until > hold.value.from)
            settings.push_back({hold.value.from, nullptr, nullptr, &hold, false, until});
    if (record.plan_ended) settings.push_back({record.plan_ended->value.on, nullptr, nullptr, nullptr, true});
    std::ranges::stable_sort(settings, {}, &Setting::from);
    return settings;
}

std::vector<PlannedDose> without_pieces(const Regimen& regimen) {
    std::vector<PlannedDose> doses;
    for (const DoseTime& dose : regimen.doses) doses.push_back({dose.at, dose.drug, dose.amount, {}});
    return doses;
}

Dose daily_of(const std::vector<PlannedDose>& doses, const std::string& drug) {
    Dose total;
    for (const PlannedDose& dose : doses)
        if (dose.drug == drug) total += dose.amount;
    return total;
}

/// Cuts the stretches off at `day`: nothing of what was set before reaches beyond it.
void cut_at(std::vector<Stretch>& stretches, Day day) {
    std::erase_if(stretches, [&](const Stretch& stretch) { return stretch.from >= day; });
    if (!stretches.empty() && (!stretches.back().to || *stretches.back().to > day)) stretches.back().to = day;
}

bool is_agreed(const Step& step) {
    return step.status == StepStatus::committed;
}

/// A step of a plan as a stretch; `drug` is whose daily amount it tells.
Stretch stretch_of(const Step& step, const std::string& drug, bool of_the_plan) {
    Stretch stretch;
    stretch.kind = step.daily.is_zero()                   ? Stretch::Kind::off
                   : step.status == StepStatus::committed ? Stretch::Kind::committed
                                                          : Stretch::Kind::outlook;
    stretch.step = step.number;
    stretch.from = step.starts;
    if (step.days) stretch.to = step.starts + days(*step.days);
    stretch.daily = of_the_plan ? step.daily : daily_of(step.doses, drug);
    stretch.doses = step.doses;
    stretch.flags = step.flags;
    stretch.percent_of_last = step.percent_of_last;
    stretch.agreed = is_agreed(step);
    return stretch;
}

/// The steps of a commitment. A step that was not signed never begins by itself: where the outlook is
/// overdue, the last signed dose goes on and the outlook is shown from tomorrow.
void append_plan(std::vector<Stretch>& stretches, const Plan& plan, const std::string& drug, Day today) {
    const auto first_open = std::ranges::find_if_not(plan.steps, is_agreed);
    days late(0);
    if (first_open != plan.steps.end() && first_open->starts <= today)
        late = today + days(1) - first_open->starts;
    for (auto step = plan.steps.begin(); step != plan.steps.end(); ++step) {
        Stretch stretch = stretch_of(*step, drug, drug == plan.request.drug);
        if (!is_agreed(*step)) {
            stretch.from += late;
            if (stretch.to) *stretch.to += late;
        }
        if (!stretches.empty()) stretches.back().to = stretch.from;
        stretches.push_back(std::move(stretch));
    }
    if (!stretches.empty() && first_open == plan.steps.end()) stretches.back().to.reset();
}

/// From a day on the dose stays: in a hold, or for good after a plan has ended.
void keep_dose(std::vector<Stretch>& stretches, Day from, Stretch::Kind kind) {
    if (stretches.empty()) return;
    Stretch held = stretches.back();
    cut_at(stretches, from);
    const bool off = held.kind == Stretch::Kind::off || held.doses.empty();
    held.kind = off ? Stretch::Kind::off : kind;
    held.from = from;
    held.to.reset();
    held.flags.clear();
    held.percent_of_last = {};
    stretches.push_back(std::move(held));
}

/// A hold keeps back the step of its own day; the end of a plan keeps the dose of its day. Neither lets an
/// outlook begin; what was recorded as taken from that day on stays.
bool is_kept_back(const Stretch& stretch, const Setting& setting) {
    const bool begins_then = stretch.step > 0 && stretch.from == setting.from;
    return !stretch.agreed || stretch.from > setting.from || (setting.hold && begins_then);
}

std::vector<Stretch> stretches_of(const PatientRecord& record, const std::string& drug, Day today) {
    std::vector<Stretch> stretches;
    for (const Setting& setting : settings_of(record)) {
        if (setting.hold || setting.ended) {
            std::vector<Stretch> until = stretches;
            std::erase_if(until, [&](const Stretch& s) { return is_kept_back(s, setting); });
            if (until.empty()) continue;
            std::vector<Stretch> after;
            if (setting.until)
                std::ranges::copy_if(stretches, std::back_inserter(after),
                                     [&](const Stretch& s) { return s.from >= *setting.until; });
            stretches = std::move(until);
            keep_dose(stretches, setting.from, setting.hold ? Stretch::Kind::hold : Stretch::Kind::before);
            if (after.empty()) continue;
            stretches.back().to = setting.until;
            stretches.insert(stretches.end(), after.begin(), after.end());
            continue;
        }
        cut_at(stretches, setting.from);
        if (setting.plan) {
            append_plan(stretches, setting.plan->value.plan, drug, today);
            continue;
        }
        Stretch stretch;
        stretch.from = setting.from;
        stretch.doses = without_pieces(setting.regimen->value.regimen.regimen);
        stretch.daily = daily_of(stretch.doses, drug);
        stretches.push_back(std::move(stretch));
    }
    return stretches;
}

DiazepamRange diazepam_of(const std::vector<PlannedDose>& doses, const Formulary& formulary) {
    DiazepamRange total;
    std::map<std::string, Dose> by_drug;
    for (const PlannedDose& dose : doses) by_drug[dose.drug] += dose.amount;
    for (const auto& [drug, amount] : by_drug) {
        const Drug* known = formulary.find(drug);
        if (known && known->equivalence) total = total + as_diazepam(amount, *known->equivalence);
    }
    return total;
}

void name_kinds(Course& course, Day today) {
    for (std::size_t i = 0; i < course.stretches.size(); ++i) {
        Stretch& stretch = course.stretches[i];
        const bool now = stretch.from <= today && (!stretch.to || today < *stretch.to);
        if (now) course.current = i;
        if (stretch.kind != Stretch::Kind::committed) continue;
        if (now)
            stretch.kind = Stretch::Kind::today;
        else if (stretch.to && *stretch.to <= today)
            stretch.kind = Stretch::Kind::past;
    }
}

void describe_today(Course& course, Day today) {
    if (!course.current) return;
    const Stretch& now = course.stretches[*course.current];
    Regimen regimen;
    for (const PlannedDose& dose : now.doses)
        regimen.doses.push_back({dose.at, dose.drug, dose.amount, {}, {}});
    course.today = std::move(regimen);
    course.daily_today = now.daily;
    course.diazepam_today = now.diazepam;
    course.on_hold = now.kind == Stretch::Kind::hold && !now.to;
    if (now.step == 0 && now.kind != Stretch::Kind::hold) return;
    course.day_of_step = static_cast<int>((today - now.from).count()) + 1;
    if (now.to) course.days_of_step = static_cast<int>((*now.to - now.from).count());
}

std::optional<Day> signed_through(const PatientRecord& record) {
    const auto* plan = plan_in_force(record);
    if (!plan) return std::nullopt;
    std::optional<Day> last;
    for (const Step& step : plan->value.plan.steps)
        if (is_agreed(step) && step.days) last = step.starts + days(*step.days - 1);
    return last;
}

std::vector<TakenDay> taken_days(const PatientRecord& record, const Course& course,
                                 std::chrono::hours day_begins) {
    std::map<Day, Dose> totals;
    const Diary diary = diary_of(record);
    for (const Day& day : diary.kept_empty) totals[day];
    for (const Intake& intake : diary.intake)
        if (intake.drug == course.drug) totals[day_of(intake.taken_at - day_begins)] += intake.amount;
    std::vector<TakenDay> taken;
    for (const auto& [day, total] : totals) {
        TakenDay one{day, total, std::nullopt};
        for (const Stretch& stretch : course.stretches)
            if (stretch.from <= day && (!stretch.to || day < *stretch.to)) one.planned = stretch.daily;
        taken.push_back(one);
    }
    return taken;
}

/// The civil day on which something was written, where this machine stands.
Day written_on(const Stamp& stamp) {
    static const Zone here = Zone::of_machine();
    return day_of(here.to_local(stamp.at));
}

std::vector<ContactMark> contacts_of(const PatientRecord& record) {
    using Kind = ContactMark::Kind;
    std::vector<ContactMark> marks;
    const auto add = [&](Kind kind, Day on, std::string id, Args args, const EventId& event) {
        marks.push_back({kind, on, {std::move(id), std::move(args)}, event});
    };
    for (const auto& e : record.check_ins)
        add(Kind::check_in, day_of(e.value.at), "contact-check-in", {}, e.id);
    for (const auto& e : record.papers)
        add(Kind::paper, e.value.on, "contact-paper", {{"paper", e.value.paper}, {"code", e.value.code}},
            e.id);
    for (const auto& e : record.plans)
        add(Kind::signature, written_on(e.stamp), "contact-signature",
            {{"steps", std::to_string(std::ranges::count_if(e.value.plan.steps, is_agreed))}}, e.id);
    for (const auto& e : record.supply) add(Kind::supply, e.value.on, "contact-supply", {}, e.id);
    for (const auto& e : record.notes)
        add(Kind::note, written_on(e.stamp), "contact-note", {{"text", e.value.text}}, e.id);
    for (const auto& e : record.regimens)
        add(Kind::regimen, e.value.regimen.from, "contact-regimen", {}, e.id);
    if (record.next_contact)
        add(Kind::planned, record.next_contact->value.on, "contact-planned",
            {{"how", record.next_contact->value.how}}, record.next_contact->id);
    std::ranges::stable_sort(marks, {}, &ContactMark::on);
    return marks;
}

std::string drug_of(const PatientRecord& record) {
    if (const auto* plan = plan_in_force(record)) return plan->value.plan.request.drug;
    if (!record.plans.empty()) return record.plans.back().value.plan.request.drug;
    if (!record.regimens.empty()) {
        const auto agents = agents_of(record.regimens.back().value.regimen.regimen);
        if (!agents.empty()) return agents.front();
    }
    return {};
}

/// The agent that is taken while the plan's own has not begun: a crossover is signed and starts next week, or
/// was held before its first stage. Empty where the plan's agent is taken, or was and is OFF.
std::string agent_before_the_plans(const Course& course, const PatientRecord& record) {
    if (!course.current) return {};
    const Stretch& now = course.stretches[*course.current];
    if (now.kind == Stretch::Kind::off || !now.daily.is_zero()) return {};
    // Of several the one that the plan takes down: another goes on beside it.
    const auto* plan = plan_in_force(record);
    const int stages = plan ? crossover_stages(plan->value.plan) : 0;
    std::string first;
    for (const PlannedDose& dose : now.doses) {
        if (dose.amount.is_zero()) continue;
        if (first.empty()) first = dose.drug;
        if (stages == 0) break;
        const Step& last = plan->value.plan.steps[static_cast<std::size_t>(stages) - 1];
        if (daily_of(last.doses, dose.drug) < daily_of(now.doses, dose.drug)) return dose.drug;
    }
    return first;
}

void take_stretches(Course& course, const PatientRecord& record, const Formulary& formulary, Day today) {
    course.current.reset();
    course.stretches = stretches_of(record, course.drug, today);
    for (Stretch& stretch : course.stretches) stretch.diazepam = diazepam_of(stretch.doses, formulary);
    name_kinds(course, today);
}

}  // namespace

bool is_kept_back(const Step& step, const std::optional<HoldStarted>& hold) {
    return hold && step.starts >= hold->from;
}

const Stretch* kept_by_hold(const Course& course, Day from) {
    const Stretch* kept = nullptr;
    for (const Stretch& stretch : course.stretches)
        if (stretch.agreed && (stretch.from < from || (stretch.from == from && stretch.step == 0)))
            kept = &stretch;
    return kept;
}

bool nothing_is_taken(const Course& course) {
    return course.today && std::ranges::all_of(course.today->doses,
                                               [](const DoseTime& dose) { return dose.amount.is_zero(); });
}

HoldStarted joined_hold(const std::optional<HoldStarted>& open, const HoldStarted& next) {
    HoldStarted joined = next;
    if (open) {
        joined.from = std::min(joined.from, open->from);
        joined.review_on = std::max(joined.review_on, open->review_on);
    }
    return joined;
}

std::optional<HoldStarted> open_hold(const PatientRecord& record) {
    std::optional<HoldStarted> open;
    if (record.plan_ended) return open;
    for (const auto& hold : record.holds) {
        if (!record.plans.empty() && record.plans.back().stamp.clock > hold.stamp.clock) continue;
        open = joined_hold(open, hold.value);
    }
    return open;
}

const Entry<PlanCommitted>* plan_in_force(const PatientRecord& record) {
    if (record.plans.empty() || record.plan_ended) return nullptr;
    return &record.plans.back();
}

const Entry<RegimenRecorded>* regimen_in_force(const PatientRecord& record, Day on) {
    const Entry<RegimenRecorded>* found = nullptr;
    for (const auto& regimen : record.regimens)
        if (regimen.value.regimen.from <= on &&
            (!found || regimen.value.regimen.from >= found->value.regimen.from))
            found = &regimen;
    return found;
}

Course derive_course(const PatientRecord& record, const Formulary& formulary, const Rules& rules,
                     LocalTime as_of) {
    const Day today = day_of(as_of);
    Course course;
    course.drug = drug_of(record);
    take_stretches(course, record, formulary, today);
    if (std::string taken = agent_before_the_plans(course, record); !taken.empty()) {
        course.drug = std::move(taken);
        take_stretches(course, record, formulary, today);
    }
    describe_today(course, today);
    if (!course.on_hold) course.signed_through = signed_through(record);
    course.taken = taken_days(record, course, std::chrono::hours(rules.whole("diary-day", "begins_h")));
    course.contacts = contacts_of(record);
    if (record.next_contact) course.next_contact = record.next_contact->value;
    if (const auto* plan = plan_in_force(record)) course.flags = plan->value.plan.flags;
    return course;
}

}  // namespace evenfall
