// SPDX-License-Identifier: GPL-3.0-or-later
#include "model/strict_json.h"

#include <gtest/gtest.h>

#include "model/product.h"
#include "model/strict_object.h"
#include "units/day.h"

namespace evenfall {
namespace {

using nlohmann::json;

Fault fault_of(std::string_view text, const JsonLimits& limits = {}) {
    const auto parsed = parse_strict_json(text, "case.json", limits);
    return parsed ? Fault{"none", "", {}} : parsed.faults().front();
}

TEST(StrictJson, ReadsSoundTexts) {
    EXPECT_EQ(parse_strict_json(R"({"a": [1, 2.5, "x", null, true], "b": {"a": 1}})", "f").value()["b"]["a"],
              1);
    EXPECT_EQ(parse_strict_json("[]", "f").value(), json::array());
}

TEST(StrictJson, SaysTheLineAndColumnWhereATextBreaks) {
    const Fault fault = fault_of("{\n  \"a\": 1,\n  \"b\" 2\n}");
    EXPECT_EQ(fault.id, "json-broken");
    EXPECT_EQ(fault.args.at("line"), "3");
    EXPECT_EQ(fault.args.at("column"), "7");
}

TEST(StrictJson, RefusesDepthBeforeAnythingIsBuilt) {
    EXPECT_EQ(fault_of(std::string(64, '[') + std::string(64, ']')).id, "none");
    EXPECT_EQ(fault_of(std::string(65, '[') + std::string(65, ']')).id, "json-too-deep");
    std::string objects;
    for (int i = 0; i < 100'000; ++i) objects += "{\"a\":";
    EXPECT_EQ(fault_of(objects).id, "json-too-deep");
}

TEST(StrictJson, RefusesSize) {
    EXPECT_EQ(fault_of("[1,2]", {4, 64}).id, "json-too-large");
    EXPECT_EQ(fault_of("[1,2]", {5, 64}).id, "none");
}

TEST(StrictJson, FindsEveryKeyThatIsGivenTwice) {
    const auto parsed = parse_strict_json(R"({"a": 1, "b": [{"c": 1}, {"c": 1, "c": 2}], "a": 3})", "f");
    ASSERT_FALSE(parsed.ok());
    ASSERT_EQ(parsed.faults().size(), 2U);
    EXPECT_EQ(parsed.faults()[0].place, "f.b[1].c");
    EXPECT_EQ(parsed.faults()[1].place, "f.a");
}

TEST(StrictJson, RefusesWhatJsonDoesNotHave) {
    for (const char* text :
         {"{\"a\": NaN}", "{\"a\": Infinity}", "{\"a\": 1e400}", "{\"a\": 01}", "{'a': 1}", "{\"a\": 1} x",
          "// no\n{}", "{\"a\": \"\x01\"}", "{\"a\": \"\xc3\"}", "", " ", "{\"a\": 1,}"})
        EXPECT_EQ(fault_of(text).id, "json-broken") << text;
    EXPECT_EQ(fault_of(std::string_view("{}\0", 3)).id, "json-broken");
    EXPECT_EQ(fault_of(std::string_view("{}\0 no", 6)).args.at("column"), "3");
}

TEST(StrictObject, ReadsEachKindOfValue) {
    const json value = {{"text", "x"},       {"yes", true},         {"number", 2.5},
                        {"whole", 3},        {"mg", "0.125"},       {"ml", 0.1},
                        {"form", "capsule"}, {"day", "2027-01-04"}, {"names", {"a", "b"}}};
    Faults faults;
    std::string text;
    bool yes = false;
    double number = 0;
    int whole = 0;
    Dose amount;
    Volume volume;
    Form form = Form::tablet;
    Day day{};
    std::vector<std::string> names;
    {
        StrictObject object(value, "at", faults);
        EXPECT_TRUE(object.text("text", text));
        EXPECT_TRUE(object.yes_or_no("yes", yes));
        EXPECT_TRUE(object.number("number", number, kAboveZero));
        EXPECT_TRUE(object.whole("whole", whole, 0, 3));
        EXPECT_TRUE(object.amount_mg("mg", amount));
        EXPECT_TRUE(object.volume_ml("ml", volume));
        EXPECT_TRUE(object.word("form", form));
        EXPECT_TRUE(object.parsed("day", day, parse_day));
        EXPECT_TRUE(object.texts("names", names));
        EXPECT_FALSE(object.text("absent", text, Need::may));
    }
    EXPECT_EQ(faults, Faults{});
    EXPECT_EQ(text, "x");
    EXPECT_TRUE(yes);
    EXPECT_EQ(number, 2.5);
    EXPECT_EQ(whole, 3);
    EXPECT_EQ(amount, Dose::micrograms(125));
    EXPECT_EQ(volume, Volume::nanolitres(100'000));
    EXPECT_EQ(form, Form::capsule);
    EXPECT_EQ(day, day_at(2027, 1, 4));
    EXPECT_EQ(names, (std::vector<std::string>{"a", "b"}));
}

TEST(StrictObject, TakesANumberForAnAmountOnlyWhereItIsExact) {
    const auto id = [](const json& amount) {
        Faults faults;
        Dose read;
        const json value = {{"mg", amount}};
        StrictObject(value, "", faults).amount_mg("mg", read);
        return faults.empty() ? "accepted" : faults.front().id;
    };
    for (const json& exact : {json(2), json(0.1), json(0.031250), json(1e-6), json(2.675)})
        EXPECT_EQ(id(exact), "accepted");
    EXPECT_EQ(id(1e-7), "amount-too-fine");
    EXPECT_EQ(id(0.1 + 0.2), "amount-too-fine");
    EXPECT_EQ(id(-1), "amount-sign");
    EXPECT_EQ(id(1e300), "amount-enormous");
    EXPECT_EQ(id(true), "json-not-an-amount");
}

TEST(StrictObject, NamesTheNearestKnownKeyOfAnUnknownOne) {
    Faults faults;
    std::string text;
    const json value = {{"strenght_mg", "1"}};
    {
        StrictObject object(value, "products[0]", faults);
        object.text("form", text, Need::may);
        object.text("strength_mg", text, Need::may);
    }
    ASSERT_EQ(faults.size(), 1U);
    EXPECT_EQ(faults[0], (Fault{"json-key-unknown",
                                "products[0].strenght_mg",
                                {{"key", "strenght_mg"}, {"nearest", "strength_mg"}}}));
}

TEST(StrictObject, ReportsOneFaultForWhatIsNoObject) {
    Faults faults;
    std::string text;
    const json value = 3;
    {
        StrictObject object(value, "at", faults);
        object.text("a", text);
        object.text("b", text);
    }
    EXPECT_EQ(faults, (Faults{{"json-not-an-object", "at", {}}}));
}

TEST(StrictObject, KeepsHostileKeysShort) {
    Faults faults;
    const json value = {{std::string(10'000, 'k'), 1}};
    { const StrictObject object(value, "", faults); }
    ASSERT_EQ(faults.size(), 1U);
    EXPECT_LE(faults[0].place.size(), 60U);
    EXPECT_LE(faults[0].args.at("key").size(), 60U);
}

TEST(NearestWord, CountsSingleLetterChanges) {
    EXPECT_EQ(nearest_word("kitten", {"mitten", "sitting"}), "mitten");
    EXPECT_EQ(nearest_word("", {"ab", "c"}), "c");
    EXPECT_EQ(nearest_word("x", {}), "");
}

}  // namespace
}  // namespace evenfall
