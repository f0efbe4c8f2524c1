// SPDX-License-Identifier: GPL-3.0-or-later
#include "rules/rules.h"

#include <stdexcept>

#include <gtest/gtest.h>

#include "rules/texts.h"

namespace evenfall {
namespace {

constexpr const char* kOne = R"({"version": 1, "rules": [
    {"id": "cut-over-cap", "group": "planning", "values": {"percent": "10", "days": "14", "weight": "0.0001"},
     "sentence": {"en": "{percent} % is over {rule.percent} %.", "es": "{percent} % supera {rule.percent} %."},
     "source": "a guideline", "how": "looked up"},
    {"id": "fixed", "group": "planning", "values": {"n": "1"}, "sentence": {"en": "Only English."},
     "source": "a book", "how": "memory", "can_be_changed": false}]})";

Rules one() {
    return Rules::parse(kOne, "rules.json").value();
}

std::vector<std::string> said(const std::string& text) {
    std::vector<std::string> said;
    const auto parsed = Rules::parse(text, "rules.json");
    if (!parsed)
        for (const Fault& fault : parsed.faults()) said.push_back(fault.id + " at " + fault.place);
    return said;
}

TEST(Rules, GiveTheirValues) {
    EXPECT_EQ(one().percent("cut-over-cap", "percent"), Share::percent(10));
    EXPECT_EQ(one().whole("cut-over-cap", "days"), 14);
    EXPECT_DOUBLE_EQ(one().number("cut-over-cap", "weight"), 0.0001);
}

TEST(Rules, ThrowWhereACallerNamesWhatDoesNotExist) {
    EXPECT_THROW(one().number("no-such-rule", "percent"), std::out_of_range);
    EXPECT_THROW(one().number("cut-over-cap", "no such name"), std::out_of_range);
    EXPECT_THROW(one().whole("cut-over-cap", "weight"), std::out_of_range);
}

TEST(Rules, SayAFlagInTheReadersLanguage) {
    const Flag flag{"cut-over-cap", {{"percent", "12.5"}}, {}};
    EXPECT_EQ(one().sentence(flag), "12.5 % is over 10 %.");
    EXPECT_EQ(one().sentence(flag, "es"), "12.5 % supera 10 %.");
    EXPECT_EQ(one().sentence(flag, "xx"), "12.5 % is over 10 %.");
    EXPECT_EQ(one().sentence({"fixed", {}, {}}, "es"), "Only English.");
    EXPECT_EQ(one().sentence({"no-such-rule", {}, {}}), "[no-such-rule]");
}

TEST(Rules, NeverFillAFlagsValueWithTheThreshold) {
    EXPECT_EQ(one().sentence({"cut-over-cap", {}, {}}), "{percent} % is over 10 %.");
}

TEST(Rules, SayWhenASourceIsFromMemory) {
    EXPECT_EQ(one().source("cut-over-cap"), "a guideline");
    EXPECT_EQ(one().source("fixed"), "a book (from memory)");
    EXPECT_EQ(one().source("no-such-rule"), "");
}

TEST(Rules, TakeAClinicsOwnValueAndSayThatItIs) {
    const Rules own = one().with("cut-over-cap", "percent", "7.5").value();
    EXPECT_EQ(own.percent("cut-over-cap", "percent"), Share::of(75, 1000));
    EXPECT_EQ(own.find("cut-over-cap")->how, "clinic's choice");
    EXPECT_EQ(own.source("cut-over-cap"), "clinic's choice; shipped with percent 10 after: a guideline");
    EXPECT_EQ(one().percent("cut-over-cap", "percent"), Share::percent(10));
}

TEST(Rules, KeepTheirSourceWhereAClinicSetsTheSameValue) {
    EXPECT_EQ(one().with("cut-over-cap", "percent", "10").value().source("cut-over-cap"), "a guideline");
}

TEST(Rules, RefuseAClinicsValueThatCannotBe) {
    const auto id = [](std::string_view rule, std::string_view name, std::string_view value) {
        return one().with(rule, name, value).faults().front().id;
    };
    EXPECT_EQ(id("no-such-rule", "percent", "1"), "rule-unknown");
    EXPECT_EQ(id("cut-over-cap", "no such name", "1"), "rule-unknown");
    EXPECT_EQ(id("fixed", "n", "2"), "rule-fixed");
    for (const char* value : {"", "-1", "1,5", "1e3", "nan", ".5", "5.", "1.2.3", "1234567890123456"})
        EXPECT_EQ(id("cut-over-cap", "percent", value), "rule-value") << value;
    EXPECT_EQ(id("cut-over-cap", "percent", "0"), "rule-not-a-share");
}

/// Code that counts whole days would not survive a fraction.
TEST(Rules, KeepAWholeNumberWhole) {
    const Rules shipped = Rules::load(resources_folder() / "rules.json").value();
    EXPECT_EQ(shipped.with("hold-ends", "days", "1.5").faults().front().id, "rule-not-whole");
    EXPECT_EQ(shipped.with("hold-ends", "days", "12345678901").faults().front().id, "rule-not-whole");
    EXPECT_EQ(shipped.with("hold-ends", "days", "5").value().whole("hold-ends", "days"), 5);
}

TEST(Rules, ReportAllFaultsOfAFile) {
    EXPECT_EQ(said(R"({"version": 2, "rules": [
        {"id": "Bad Id", "group": "g", "values": {"a": "1e3", "b": 4}, "sentence": {"es": "x"}, "source": "s", "how": "guess"},
        {"id": "x", "group": "g", "sentense": {"en": "x"}, "source": "s", "how": "memory"},
        {"id": "x", "group": "g", "sentence": {"en": 1}, "source": "s", "how": "memory"}]})"),
              (std::vector<std::string>{
                  "rules-version at version", "rule-id at rules[0].id", "rule-value at rules[0].values.a",
                  "rule-value at rules[0].values.b", "rule-no-english at rules[0].sentence",
                  "rule-how at rules[0].how", "json-missing at rules[1].sentence",
                  "json-key-unknown at rules[1].sentense", "json-not-text at rules[2].sentence.en",
                  "rule-no-english at rules[2].sentence", "rule-id-twice at rules[2]"}));
}

TEST(Rules, RefuseTextsThatAreNoRules) {
    EXPECT_EQ(said(""), std::vector<std::string>{"json-broken at rules.json"});
    EXPECT_EQ(said("[]"), std::vector<std::string>{"json-not-an-object at "});
    EXPECT_EQ(Rules::load("/no/such/rules.json").faults().front().id, "file-unreadable");
}

}  // namespace
}  // namespace evenfall
