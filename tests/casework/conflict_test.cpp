// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <gtest/gtest.h>

#include "casework/conflicts.h"
#include "casework/looking.h"
#include "casework/store_log.h"
#include "rules/texts.h"

namespace evenfall {
namespace {

const LocalTime kNow = at_clock(day_at(2026, 12, 21), {9 * 60});

/// Plans that are written directly into a record, each from a laptop at an hour.
class PlanConflict : public testing::Test {
  protected:
    static Stamp stamp(const LogId& log, std::int64_t hour) {
        const Instant at(std::chrono::seconds(1'797'000'000 + hour * 3600));
        return {log, hour, hour * 3'600'000'000, "ada", at};
    }
    void sign(const EventId& id, const LogId& log, std::int64_t hour, const EventId& replaces) {
        record.plans.push_back({id, stamp(log, hour), PlanCommitted{{}, replaces, {}}});
    }
    bool shown() const {
        const Ground ground{*formulary, *rules, *scales};
        const Course course{};
        casework::Looking looking{record, course, ground, kNow};
        casework::look_at_plan_conflict(looking);
        return !looking.found.empty();
    }
    PatientRecord record;
    Result<Formulary> formulary = load_formulary(resources_folder() / "formulary.json");
    Result<Rules> rules = Rules::load(resources_folder() / "rules.json");
    Result<Scales> scales = load_scales(resources_folder() / "scales.json");
};

}  // namespace

TEST_F(PlanConflict, TwoLaptopsThatReplaceOnePlanAreShown) {
    sign("a", "desk", 1, "");
    EXPECT_FALSE(shown());
    sign("b", "desk", 2, "a");
    EXPECT_FALSE(shown()) << "one after the other";
    sign("c", "laptop", 3, "a");
    EXPECT_TRUE(shown());
    sign("d", "desk", 4, "c");
    EXPECT_FALSE(shown()) << "a plan signed after both settles it";
}

TEST_F(PlanConflict, TwoFirstPlansAreShownUnlessOneEndedBefore) {
    sign("a", "desk", 1, "");
    sign("b", "laptop", 5, "");
    EXPECT_TRUE(shown());
    record.lines.push_back({"e", stamp("desk", 3), "plan-ended", Standing::counts, ""});
    EXPECT_FALSE(shown());
}

/// A desk whose log is written past it, as taking in an exchange file does.
class DeskConflicts : public testing::Test {
  protected:
    DeskConflicts() {
        auto log = std::make_unique<StoreLog>(
            Store::in_memory("Hill Street", {"Ada", Role::prescriber, ""}, StoreOptions{}));
        store = &log->store();
        const Worker worker = worker_of(*store);
        auto formulary = load_formulary(resources_folder() / "formulary.json");
        auto rules = Rules::load(resources_folder() / "rules.json");
        auto opened = Desk::open(std::move(log), *formulary, *rules, worker);
        if (!opened) throw std::runtime_error("no desk");
        desk.emplace(std::move(*opened));
    }
    void write(const PatientId& patient, const Change& change) {
        ASSERT_TRUE(store->append({write_change({}, patient, change)}).ok());
    }
    static Person person(const std::string& reference) {
        Person made;
        made.name = "Ana Example";
        made.reference = reference;
        return made;
    }
    std::vector<Conflict> conflicts() {
        Faults faults;
        auto found = conflicts_of(desk->caseload(kNow, faults));
        EXPECT_TRUE(faults.empty());
        return found;
    }

    Store* store = nullptr;
    std::optional<Desk> desk;
};

TEST_F(DeskConflicts, ADeskTakesUpWhatWasWrittenPastIt) {
    ASSERT_TRUE(desk->add_person(person("HL-1"), day_of(kNow)).ok());
    const PatientId known = desk->patients().front();
    ASSERT_TRUE(desk->record(known).ok());
    write("p2", person("HL-2"));
    Person renamed = person("HL-9");
    write(known, renamed);
    EXPECT_FALSE(desk->record("p2").ok()) << "not before it is told";
    ASSERT_TRUE(desk->take_up({known, "p2"}).ok());
    EXPECT_EQ((*desk->record("p2"))->person->value.reference, "HL-2");
    EXPECT_EQ((*desk->record(known))->person->value.reference, "HL-9");
    EXPECT_EQ(desk->patients().size(), 2U);
}

TEST_F(DeskConflicts, AReferenceThatTwoPeopleBearIsShownUntilOneIsGivenAnother) {
    write("p1", person("HL-1"));
    write("p2", person("HL-1"));
    ASSERT_TRUE(desk->take_up({"p1", "p2"}).ok());
    ASSERT_EQ(conflicts().size(), 1U);
    EXPECT_EQ(conflicts().front().flag.rule, "reference-twice");
    EXPECT_EQ(conflicts().front().reference, "HL-1");
    write("p2", person("HL-2"));
    ASSERT_TRUE(desk->take_up({"p2"}).ok());
    EXPECT_TRUE(conflicts().empty());
}

}  // namespace evenfall
