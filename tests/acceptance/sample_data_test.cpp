// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <fstream>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "casework/desk.h"
#include "exchange/case_file.h"
#include "exchange/compute.h"
#include "rules/texts.h"
#include "sample_data/caseload.h"

namespace evenfall {
namespace {

using std::chrono::days;

const std::filesystem::path kSampleData = std::filesystem::path(EVENFALL_SOURCE_DIR) / "sample_data";

std::string text_of(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

const Rules& rules() {
    static const Rules loaded = Rules::load(resources_folder() / "rules.json").value();
    return loaded;
}

const CaseloadFile& shipped() {
    static const CaseloadFile read =
        read_caseload(text_of(kSampleData / "caseload.json"), "caseload.json").value();
    return read;
}

Desk desk_on(const CaseloadFile& caseload) {
    const Instant loaded(caseload.as_of.time_since_epoch());
    auto log = log_in_memory("reader", [loaded] { return loaded; });
    EXPECT_TRUE(log->append(caseload.events).ok());
    return Desk::open(std::move(log), formulary(), rules(), {"reader", "Reader", Role::prescriber, "L-1"})
        .value();
}

std::vector<PatientRecord> records_of(Desk& desk) {
    std::vector<PatientRecord> records;
    for (const PatientId& patient : desk.patients()) records.push_back(*desk.record(patient).value());
    return records;
}

std::vector<CaseloadLine> morning(Desk& desk, LocalTime as_of) {
    Faults faults;
    auto lines = desk.caseload(as_of, faults);
    EXPECT_TRUE(faults.empty());
    return lines;
}

TEST(SampleData, IsWhatTheGeneratorMakes) {
    const auto invented = sample::invent_caseload(formulary(), rules());
    for (const auto& refused : invented.refused) ADD_FAILURE() << refused;
    EXPECT_TRUE(write_caseload(invented.caseload) == text_of(kSampleData / "caseload.json"))
        << "write it again: evenfall_sample_data sample_data/caseload.json";
}

TEST(SampleData, LoadsIntoADeskWithEveryEntryCounting) {
    Desk desk = desk_on(shipped());
    EXPECT_GE(desk.patients().size(), 18u);
    EXPECT_EQ(desk.clinic().name, "Harbour Lane Clinic");
    for (const PatientRecord& record : records_of(desk))
        for (const HistoryLine& line : record.lines)
            EXPECT_EQ(line.standing, Standing::counts) << record.person->value.name << " " << line.kind;
}

TEST(SampleData, EveryEventHasAnIdOfItsOwn) {
    std::set<EventId> ids;
    for (const Event& event : shipped().events) {
        EXPECT_EQ(event.id.size(), 32u);
        EXPECT_TRUE(ids.insert(event.id).second) << event.id;
    }
}

TEST(SampleData, NoTwoPeopleShareANameOrAReference) {
    Desk desk = desk_on(shipped());
    std::set<std::string> names, references;
    for (const PatientRecord& record : records_of(desk)) {
        ASSERT_TRUE(record.person);
        EXPECT_TRUE(names.insert(record.person->value.name).second) << record.person->value.name;
        EXPECT_TRUE(references.insert(record.person->value.reference).second)
            << record.person->value.reference;
        if (const auto born = record.person->value.born) {
            EXPECT_GE(age_on(*born, day_of(shipped().as_of)), 24);
            EXPECT_LE(age_on(*born, day_of(shipped().as_of)), 81);
        }
    }
}

TEST(SampleData, ThePlantedDangersComeFirst) {
    Desk desk = desk_on(shipped());
    const auto lines = morning(desk, shipped().as_of);
    ASSERT_GE(lines.size(), 3u);
    const auto presses = [](const CaseloadLine& line, const std::string& rule) {
        return std::ranges::any_of(line.reasons,
                                   [&](const Reason& reason) { return reason.flag.rule == rule; });
    };
    EXPECT_TRUE(presses(lines[0], "red-flag-seizure") || presses(lines[1], "red-flag-seizure"));
    EXPECT_TRUE(presses(lines[0], "red-flag-suicidal-thoughts") ||
                presses(lines[1], "red-flag-suicidal-thoughts"));
    EXPECT_TRUE(presses(lines[2], "supply-ends-tomorrow"))
        << lines[2].name << " " << lines[2].reasons.front().flag.rule;
    for (std::size_t i = 2; i < lines.size(); ++i)
        EXPECT_NE(lines[i].reasons.front().urgency, Urgency::red_flag) << lines[i].name;
}

TEST(SampleData, EveryKindOfMorningHasSomeone) {
    Desk desk = desk_on(shipped());
    std::set<std::string> rules_met;
    for (const CaseloadLine& line : morning(desk, shipped().as_of))
        for (const Reason& reason : line.reasons) rules_met.insert(reason.flag.rule);
    for (const char* rule :
         {"step-due-unsigned", "contact-overdue", "hold-ends", "at-the-floor", "steady-off", "steady-step",
          "steady-maintenance", "intake-open", "suitability-open", "plan-open"})
        EXPECT_TRUE(rules_met.contains(rule)) << rule;
}

TEST(SampleData, EveryCommittedPlansPiecesAddUp) {
    Desk desk = desk_on(shipped());
    int plans = 0;
    for (const PatientRecord& record : records_of(desk))
        for (const auto& entry : record.plans) {
            ++plans;
            const Plan& plan = entry.value.plan;
            for (const Step& step : plan.steps) {
                Dose daily;
                for (const PlannedDose& dose : step.doses) {
                    if (dose.drug != plan.request.drug) continue;
                    EXPECT_EQ(amount_of(dose.pieces), dose.amount);
                    daily += dose.amount;
                }
                EXPECT_EQ(daily, step.daily) << record.person->value.name << ", step " << step.number;
            }
        }
    EXPECT_GE(plans, 20);
}

TEST(SampleData, EachCommitmentNamesTheOneBeforeItAndKeepsItsSteps) {
    Desk desk = desk_on(shipped());
    for (const PatientRecord& record : records_of(desk))
        for (std::size_t i = 0; i < record.plans.size(); ++i) {
            EXPECT_EQ(record.plans[i].value.replaces, i == 0 ? EventId() : record.plans[i - 1].id);
            if (i == 0) continue;
            const auto& before = record.plans[i - 1].value.plan.steps;
            const auto& after = record.plans[i].value.plan.steps;
            for (std::size_t s = 0; s < before.size() && before[s].status == StepStatus::committed; ++s)
                EXPECT_EQ(before[s].doses, after.at(s).doses) << record.person->value.name;
        }
}

TEST(SampleData, EachViewHasSomethingToShow) {
    Desk desk = desk_on(shipped());
    std::size_t longest = 0, ratings = 0, calls = 0, counts = 0, scales = 0, papers = 0;
    for (const PatientRecord& record : records_of(desk)) {
        longest = std::max(longest, desk.course(record.id, shipped().as_of).value().taken.size());
        for (const auto& noted : record.symptoms) ratings += noted.value.entries.size();
        calls = std::max(calls, record.check_ins.size());
        counts += record.supply.size();
        scales += record.scales.size();
        papers += record.papers.size();
    }
    EXPECT_GE(longest, 60u);
    EXPECT_GE(ratings, 1000u);
    EXPECT_GE(calls, 10u);
    EXPECT_GE(counts, 10u);
    EXPECT_GE(scales, 40u);
    EXPECT_GE(papers, 20u);
}

TEST(SampleData, ToldAsOfAnotherDayKeepsItsDangers) {
    const LocalTime later = shipped().as_of + days(430);
    const CaseloadFile told = told_as_of(shipped(), later);
    EXPECT_EQ(told.as_of, later);
    ASSERT_EQ(told.events.size(), shipped().events.size());
    for (std::size_t i = 0; i < told.events.size(); ++i) {
        const auto before = read_change(shipped().events[i]), after = read_change(told.events[i]);
        ASSERT_TRUE(before.ok() && after.ok());
        if (const auto* check_in = std::get_if<CheckIn>(&*before)) {
            const Day moved = day_of(std::get<CheckIn>(*after).at);
            EXPECT_EQ(moved - day_of(check_in->at), days(430));
        }
    }
    Desk desk = desk_on(told), original = desk_on(shipped());
    const auto lines = morning(desk, later), as_shipped = morning(original, shipped().as_of);
    ASSERT_EQ(lines.size(), as_shipped.size());
    for (std::size_t i = 0; i < lines.size(); ++i) EXPECT_EQ(lines[i].name, as_shipped[i].name);
}

struct CaseKinds {
    std::string file;
    std::vector<Kind> kinds;
};

class SampleCase : public testing::TestWithParam<CaseKinds> {};

TEST_P(SampleCase, LoadsAndComputes) {
    const auto folder = kSampleData / "cases";
    const auto given =
        read_case(text_of(folder / GetParam().file), GetParam().file, folder, formulary(), LocalTime{});
    ASSERT_TRUE(given.ok()) << given.faults().front().id << " " << given.faults().front().place;
    for (const Kind kind : GetParam().kinds) {
        const auto answer = compute(kind, {*given, formulary(), rules()});
        EXPECT_TRUE(answer.ok()) << word(kind) << ": " << (answer.ok() ? "" : answer.faults().front().id);
    }
}

INSTANTIATE_TEST_SUITE_P(
    SampleData, SampleCase,
    testing::Values(CaseKinds{"worked-clonazepam.json", {Kind::equivalence, Kind::taper}},
                    CaseKinds{"erratic-lorazepam.json", {Kind::equivalence, Kind::stabilization}},
                    CaseKinds{"diazepam-liquid.json", {Kind::taper, Kind::supply, Kind::levels}}));

TEST(SampleData, TheErraticCaseIsJudgedErratic) {
    const auto folder = kSampleData / "cases";
    const std::string file = "erratic-lorazepam.json";
    const auto given = read_case(text_of(folder / file), file, folder, formulary(), LocalTime{});
    ASSERT_TRUE(given.ok());
    const auto answer = compute(Kind::stabilization, {*given, formulary(), rules()});
    ASSERT_TRUE(answer.ok());
    EXPECT_EQ(answer->at("verdict"), "erratic");
}

}  // namespace
}  // namespace evenfall
