// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/row.h"

#include "fixture.h"

// An event's text is read in two ways, and both must say the same.

namespace evenfall {

TEST(RowText, ATextOfOurOwnIsReadTheShortWay) {
    Event event = note("river-17", "half a tablet, 0.25 mg \u00b7 \"quoted\"");
    (*event.body)["deep"] = {{"a", {1, 2.5, nullptr, true}}, {"b", nlohmann::json::object()}};
    const Bytes text = *event_text(event);
    ASSERT_TRUE(read_own_event(text).has_value());
    EXPECT_EQ(*read_own_event(text), event);
    EXPECT_EQ(*read_any_event(text), event);
}

TEST(RowText, WhatTheShortWayTakesTheLongWayReadsAlike) {
    const std::string front = R"({"patient":"p","kind":"k","version":)";
    for (const char* rest : {R"(1,"body":{}})", R"(0,"body":[]})", R"(12,"body": 1 })",
                             R"(999999999,"body":"x"})", R"(1,"body":{"a":{"b":[1,2]}}})"}) {
        const std::string text = front + rest;
        ASSERT_TRUE(read_own_event(text).has_value()) << rest;
        EXPECT_EQ(read_own_event(text), read_any_event(text)) << rest;
    }
}

TEST(RowText, TheShortWayLeavesEverythingElseToTheLongWay) {
    const std::string front = R"({"patient":"p","kind":"k","version":)";
    for (const char* rest :
         {R"(01,"body":{}})", R"(-1,"body":{}})", R"(1.0,"body":{}})", R"(1e0,"body":{}})",
          R"(9999999999,"body":{}})", R"(,"body":{}})", R"(1,"body":})", R"(1,"body":{})", R"(1,"body":{}}})",
          R"(1,"body":{}} x)", R"(1,"body":1,"body":2})", R"(1,"body":{},"more":1})",
          "1,\"body\":\xEF\xBB\xBF{}}", "1,\"body\":\"\xFF\"}", R"(1,)", ""})
        EXPECT_FALSE(read_own_event(front + rest).has_value()) << rest;
    for (const char* text : {R"({"patient":"\u0070","kind":"k","version":1,"body":{}})",
                             R"({"patient":"é","kind":"k","version":1,"body":{}})",
                             R"({"kind":"k","patient":"p","version":1,"body":{}})",
                             R"( {"patient":"p","kind":"k","version":1,"body":{}})"}) {
        EXPECT_FALSE(read_own_event(text).has_value()) << text;
        EXPECT_TRUE(read_event(text).has_value()) << text;
    }
    EXPECT_FALSE(read_event("{\"patient\":\"\x01\",\"kind\":\"k\",\"version\":1,\"body\":{}}").has_value());
}

TEST(RowText, NothingHidesBehindANul) {
    using namespace std::string_literals;
    for (const std::string& text : {R"({"patient":"p","kind":"k","version":1,"body":[])"s + "\0 hidden}"s,
                                    R"({"patient":"p","kind":"k","version":1,"body":[]})"s + "\0 hidden"s,
                                    R"({"patient":"p","kind":"k","version":1,"body":[]})"s + "\0"s})
        EXPECT_FALSE(read_event(text).has_value()) << text;
}

/// Rows enough that half of them are proved on another thread.
TEST_F(StoreTest, ReadsManyRowsAsFewAndNamesTheOneThatIsDamaged) {
    constexpr int kMany = 700;
    {
        Store store = made();
        std::vector<Event> events;
        for (int i = 0; i < kMany; ++i) events.push_back(note("p1", std::to_string(i)));
        ASSERT_TRUE(store.append(events).ok());
        const auto read = store.read("p1");
        ASSERT_EQ(fault_id(read), "");
        for (int i = 0; i < kMany; ++i)
            ASSERT_EQ((*read)[static_cast<std::size_t>(i)].event.body->at("text"), std::to_string(i));
        EXPECT_EQ(store.read("p2")->size(), 0U) << "nothing of the patient before";
    }
    meddle("UPDATE events SET sealed=zeroblob(90) WHERE number=600");
    auto store = opened();
    const auto left = store->read_what_is_left("p1");
    EXPECT_EQ(left->events.size(), static_cast<std::size_t>(kMany - 1));
    ASSERT_EQ(left->damage.size(), 1U);
    EXPECT_EQ(left->damage.front().id, "row-changed");
    EXPECT_EQ(fault_id(store->read("p1")), "row-changed");
}

}  // namespace evenfall
