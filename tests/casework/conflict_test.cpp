// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <gtest/gtest.h>

#include "casework/looking.h"
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

}  // namespace evenfall
