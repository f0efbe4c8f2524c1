// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <map>

#include "casework/interactions.h"
#include "casework/looking.h"
#include "planning/stock.h"
#include "units/dose_text.h"
#include "units/letters.h"

namespace evenfall::casework {
namespace {

using std::chrono::days;

constexpr int kQuarters = 4;

/// The tests as far as they have come: each by its first entry.
std::vector<DrugTestNoted> tests_of(const PatientRecord& record) {
    std::vector<std::pair<EventId, DrugTestNoted>> tests;
    for (const auto& entry : record.drug_tests) {
        const auto known =
            std::ranges::find(tests, entry.value.continues, &std::pair<EventId, DrugTestNoted>::first);
        if (known == tests.end())
            tests.emplace_back(entry.id, entry.value);
        else
            known->second = entry.value;
    }
    std::vector<DrugTestNoted> result;
    result.reserve(tests.size());
    for (auto& [id, test] : tests) result.push_back(std::move(test));
    return result;
}

void look_at_test(Looking& looking, const DrugTestNoted& test) {
    if (test.ordered_on && !test.explained_on)
        looking.add(Urgency::this_week, "drug-test-unexplained", {{"on", print_day(*test.ordered_on)}});
    if (test.ordered_on && !test.result_on && *test.ordered_on <= looking.days_ago("drug-test-open", "days"))
        looking.add(Urgency::this_week, "drug-test-open", {{"on", print_day(*test.ordered_on)}});
    if (!test.result_on || test.agrees != TestAgrees::not_expected) return;
    const auto last = looking.last_call();
    if (!last || *last <= *test.result_on)
        looking.add(Urgency::today, "drug-test-not-expected", {{"on", print_day(*test.result_on)}});
}

/// Quarters of each solid product by the day on which they were counted. Of two counts of one day the later
/// entry stands: it puts the first one right. A count is entered late at times, so days order them, not
/// entries.
using Counts = std::map<Product, std::map<Day, int>>;

Counts counts_of(const PatientRecord& record) {
    Counts counts;
    for (const auto& entry : record.supply)
        for (const OnHand& each : entry.value.on_hand)
            if (!is_liquid(each.product.form)) counts[each.product][entry.value.on] = each.quarters;
    return counts;
}

/// Quarters of a product that would be left of a count if everything went as planned until a day.
int left_of(const OnHand& counted, Day on, Day until, const Course& course) {
    Stock stock({counted});
    for (Day day = on; day < until; day += days(1))
        for (const Stretch& stretch : course.stretches)
            if (stretch.from <= day && (!stretch.to || day < *stretch.to)) {
                stock.take(stretch.doses);
                break;
            }
    for (const OnHand& each : stock.on_hand())
        if (each.product == counted.product) return each.quarters;
    return 0;
}

/// Quarters that so many days at today's dose take of a product.
int need_of(const Product& product, int for_days, const Course& course) {
    if (!course.current) return 0;
    int quarters = 0;
    for (const PlannedDose& dose : course.stretches[*course.current].doses)
        for (const Piece& piece : dose.pieces)
            if (piece.product == product)
                quarters += piece.count * (piece.cut == Cut::whole  ? kQuarters
                                           : piece.cut == Cut::half ? 2
                                                                    : 1);
    return quarters * for_days;
}

}  // namespace

bool monitoring_is_a_note(const PatientRecord& record, const Rules& rules) {
    return !record.plans.empty() && rules.whole("monitoring-never", "presses_with_plan") == 0;
}

void look_at_tests(Looking& looking) {
    for (const DrugTestNoted& test : tests_of(looking.record)) look_at_test(looking, test);
    if (looking.record.monitoring.empty()) {
        if (!monitoring_is_a_note(looking.record, looking.rules()) && !looking.is_off())
            looking.add(Urgency::this_week, "monitoring-never");
        return;
    }
    const auto& last =
        std::ranges::max(looking.record.monitoring, {}, [](const auto& each) { return each.value.on; }).value;
    if (last.next_due && *last.next_due <= looking.today() && !looking.is_off())
        looking.add(Urgency::this_week, "monitoring-due",
                    {{"on", print_day(*last.next_due)}, {"last", print_day(last.on)}});
}

/// Medicines that were recorded lately and act on the agent, or add to what it does.
void look_at_interactions(Looking& looking) {
    const auto& others = looking.record.other_medicines;
    if (!others || looking.is_off()) return;
    const auto written = std::chrono::floor<days>(others->stamp.at.time_since_epoch());
    if (Day(written) < looking.days_ago("interaction-new", "days")) return;
    for (const Met& met :
         interactions_of(looking.record, looking.course, looking.ground.formulary, looking.rules()))
        looking.add(met.opioid && !others->value.naloxone_at_home ? Urgency::today : Urgency::this_week,
                    met.opioid ? "interaction-opioid" : "interaction-new",
                    {{"medicine", met.medicine}, {"drug", met.agent}, {"effect", met.effect}});
}

/// The newest count, where it does not fit what the one before would leave: to be asked about. A product is
/// held against the last day before on which it was counted.
void look_at_counts(Looking& looking) {
    const Counts counts = counts_of(looking.record);
    Day newest = Day::min();
    for (const auto& [product, by_day] : counts) newest = std::max(newest, by_day.rbegin()->first);
    if (counts.empty() || newest < looking.days_ago("count-apart", "for_days")) return;
    const int least = kQuarters * looking.rules().whole("count-apart", "units");
    for (const auto& [product, by_day] : counts) {
        const auto now = std::prev(by_day.end());
        if (now == by_day.begin() || now->first != newest) continue;
        const auto before = std::prev(now);
        const int apart =
            now->second - left_of({product, before->second, {}}, before->first, newest, looking.course);
        const int fill = need_of(product, looking.rules().whole("count-apart", "fill_days"), looking.course);
        if (std::abs(apart) < least || (fill > 0 && apart >= fill)) continue;
        looking.add(Urgency::this_week, apart > 0 ? "count-more" : "count-fewer",
                    {{"on", print_day(newest)},
                     {"units", std::to_string(std::abs(apart) / kQuarters)},
                     {"product", product_name(product)}});
    }
}

/// What happens in a life, while it lasts and for some days after.
void look_at_life(Looking& looking) {
    for (const auto& entry : looking.record.life_events) {
        const LifeEvent& event = entry.value;
        const Day ends =
            event.to.value_or(event.from) + days(looking.rules().whole("life-event", "days_after"));
        const Day begins = event.from - days(looking.rules().whole("life-event", "days_before"));
        if (looking.today() < begins || looking.today() > ends) continue;
        const std::string rule = "life-" + with_dashes(word(event.what));
        const Rule* levels = looking.rules().find("life-today");
        const bool now = levels && levels->values.contains(rule) && looking.today() >= event.from;
        looking.add(now ? Urgency::today : Urgency::this_week, rule, {{"on", print_day(event.from)}});
    }
}

}  // namespace evenfall::casework
