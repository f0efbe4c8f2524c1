// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/body.h"

#include <string_view>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

// A body whose text nobody has looked at yet is the same as one that was built from the tree.

namespace evenfall {
namespace {

using nlohmann::json;

Body unread(std::string_view text) {
    return Body(json::binary({text.begin(), text.end()}));
}

TEST(BodyText, ReadsAsTheTreeThatItSays) {
    for (const char* text : {R"({"text":"slept","at":[1,2.5,null]})", "[]", "true", "null", "\"\"", "7"}) {
        EXPECT_EQ(*unread(text), json::parse(text)) << text;
        EXPECT_EQ(unread(text), Body(json::parse(text))) << text;
    }
}

TEST(BodyText, IsReadThroughEveryWayIn) {
    const Body body = unread(R"({"text":"slept"})");
    EXPECT_EQ(body->at("text"), "slept");
    Body changed = unread(R"({"text":"slept"})");
    (*changed)["text"] = "woke";
    EXPECT_EQ(changed->at("text"), "woke");
    EXPECT_EQ(body->at("text"), "slept");
}

TEST(BodyText, IsCopiedAndMovedUnread) {
    Body body = unread("[1]");
    const Body copy = body;
    const Body moved = std::move(body);
    EXPECT_EQ(*copy, json::parse("[1]"));
    EXPECT_EQ(*moved, json::parse("[1]"));
}

}  // namespace
}  // namespace evenfall
