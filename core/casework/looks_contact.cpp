// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "casework/dangers.h"
#include "casework/looking.h"

namespace evenfall::casework {

using std::chrono::days;

Day Looking::days_ago(std::string_view rule, std::string_view name) const {
    return today() - days(rules().whole(rule, name));
}

std::optional<Day> Looking::last_call() const {
    std::optional<Day> last;
    for (const auto& call : record.check_ins)
        if (call.value.at <= as_of && (!last || *last < day_of(call.value.at))) last = day_of(call.value.at);
    return last;
}

bool Looking::contact_is_planned() const {
    if (!record.next_contact) return false;
    const Day on = record.next_contact->value.on;
    return on > today() || std::ranges::none_of(record.check_ins, [&](const auto& call) {
               return day_of(call.value.at) >= on;
           });
}

void Looking::add(Urgency urgency, std::string rule, Args args) {
    found.push_back({urgency, rank, {std::move(rule), std::move(args), {}}});
}

std::string in_days(Day from, Day to) {
    return std::to_string((to - from).count());
}

/// One that nobody has been told of comes before one that is in hand; a question left blank is asked today.
void look_at_dangers(Looking& looking) {
    const auto dangers =
        standing_dangers(looking.record, looking.rules(), looking.ground.scales, looking.as_of);
    const int first = looking.rank;
    bool untold = false;
    for (const Danger& danger : dangers) {
        if (danger.level == DangerLevel::to_be_asked) continue;
        looking.rank = first + (danger.told ? 4 : 0) + static_cast<int>(danger.level);
        looking.found.push_back({Urgency::red_flag, looking.rank, danger.flag});
        untold = untold || !danger.told;
    }
    looking.rank = first + 3;
    if (untold) looking.add(Urgency::red_flag, "danger-untold");
    looking.rank = first + 7;
}

void look_at_forms(Looking& looking) {
    for (const Danger& danger :
         standing_dangers(looking.record, looking.rules(), looking.ground.scales, looking.as_of))
        if (danger.level == DangerLevel::to_be_asked)
            looking.found.push_back({Urgency::today, looking.rank, danger.flag});
}

/// Calls that reached nobody since the last one that did: each is tried again, and many of them escalate.
void look_at_attempts(Looking& looking) {
    const auto last = looking.last_call();
    int count = 0;
    Day since = looking.today(), latest{};
    for (const auto& attempt : looking.record.attempts) {
        const Day on = day_of(attempt.value.at);
        if (attempt.value.at > looking.as_of || (last && on < *last)) continue;
        const bool met = std::ranges::any_of(looking.record.check_ins, [&](const auto& call) {
            return call.value.at >= attempt.value.at && call.value.at <= looking.as_of;
        });
        if (met) continue;
        ++count;
        since = std::min(since, on);
        latest = std::max(latest, on);
    }
    if (count == 0) return;
    const Args args = {
        {"count", std::to_string(count)}, {"since", print_day(since)}, {"on", print_day(latest)}};
    const bool many = count >= looking.rules().whole("call-attempts-escalate", "attempts") ||
                      since <= looking.days_ago("call-attempts-escalate", "days");
    looking.add(Urgency::today, many ? "call-attempts-escalate" : "call-unanswered", args);
}

/// A planned contact is met by a check-in on that day or later. Where none is planned, one is due after the
/// rule's days.
void look_at_contact(Looking& looking) {
    if (looking.contact_is_planned()) {
        const ContactPlanned& planned = looking.record.next_contact->value;
        const Args args = {{"on", print_day(planned.on)},
                           {"how", planned.how},
                           {"days", in_days(planned.on, looking.today())}};
        if (planned.on < looking.today())
            looking.add(Urgency::today, "contact-overdue", args);
        else if (planned.on == looking.today())
            looking.add(Urgency::today, "contact-today", args);
        return;
    }
    if (!plan_in_force(looking.record) || looking.is_off()) return;
    const auto last = looking.last_call();
    if (last && *last <= looking.days_ago("check-in-due", "days"))
        looking.add(Urgency::today, "check-in-due",
                    {{"on", print_day(*last)}, {"since_days", in_days(*last, looking.today())}});
}

void look_at_silence(Looking& looking) {
    if (!looking.course.current || looking.is_off()) return;
    Day heard = looking.last_call().value_or(Day::min());
    if (!looking.course.taken.empty()) heard = std::max(heard, looking.course.taken.back().day);
    if (heard == Day::min() || heard >= looking.days_ago("nothing-heard", "days")) return;
    looking.add(Urgency::this_week, "nothing-heard",
                {{"heard_days", in_days(heard, looking.today())}, {"on", print_day(heard)}});
}

/// Two people wrote down one call: both entries stand until one is taken back.
void look_at_double_entries(Looking& looking) {
    const auto apart = std::chrono::minutes(looking.rules().whole("call-twice", "minutes"));
    const Day from = looking.days_ago("call-twice", "days");
    const auto& calls = looking.record.check_ins;
    for (std::size_t i = 0; i < calls.size(); ++i)
        for (std::size_t j = i + 1; j < calls.size(); ++j) {
            // One person may write down two calls in a row, but not on two laptops at one time.
            const bool in_a_row =
                calls[i].stamp.author == calls[j].stamp.author && calls[i].stamp.log == calls[j].stamp.log;
            if (day_of(calls[j].value.at) < from || in_a_row) continue;
            if (std::chrono::abs(calls[i].value.at - calls[j].value.at) > apart) continue;
            return looking.add(Urgency::this_week, "call-twice",
                               {{"on", print_day(day_of(calls[j].value.at))},
                                {"at", print_clock(clock_of(calls[i].value.at))},
                                {"other_at", print_clock(clock_of(calls[j].value.at))}});
        }
}

/// When the days without a dose that run now began: somebody may come off a second time.
static Day off_since(const Looking& looking) {
    Day off = looking.today();
    const auto& stretches = looking.course.stretches;
    for (auto each = stretches.rbegin(); each != stretches.rend(); ++each) {
        if (each->from > looking.today()) continue;
        if (!each->daily.is_zero()) break;
        off = each->from;
    }
    return off;
}

/// The months after the last dose: calls go on, an old dose can now kill, and what is left over is brought
/// back.
void look_after_off(Looking& looking) {
    if (!looking.is_off()) return;
    const Day off = off_since(looking);
    const Args args = {{"on", print_day(off)}, {"off_days", in_days(off, looking.today())}};
    if (off < looking.days_ago("after-off-call", "for_days")) return;
    const Day heard = std::max(looking.last_call().value_or(off), off);
    if (!looking.contact_is_planned() && heard <= looking.days_ago("after-off-call", "every_days"))
        looking.add(Urgency::today, "after-off-call", args);
    const bool returned = std::ranges::any_of(looking.record.returned,
                                              [off](const auto& each) { return each.value.on >= off; });
    if (!returned && off < looking.days_ago("leftovers-open", "after_days"))
        looking.add(Urgency::this_week, "leftovers-open", args);
}

void look_at_team(Looking& looking) {
    const auto& team = looking.record.team;
    if (team && team->value.clinician.empty() && plan_in_force(looking.record))
        looking.add(Urgency::today, "clinician-missing");
}

}  // namespace evenfall::casework
