// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/users.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace evenfall {

namespace {

const UserId kFounder(32, 'a');
const UserId kNurse(32, 'b');
const UserId kOther(32, 'c');
const UserId kPrinted(32, 'd');

UserGrant grant_for(const UserId& id, Role role, bool recovery = false) {
    return {id, "name of " + id.substr(0, 1), role, "", "key of " + id.substr(0, 1), "box", recovery};
}

/// A little clinic: writes events in order and folds the grants among them.
class Users : public testing::Test {
  protected:
    Users() : grants("key of a") { granted(kFounder, grant_for(kFounder, Role::prescriber)); }

    StoredEvent event(const UserId& author, std::string_view kind,
                      nlohmann::json body = nlohmann::json::object()) {
        ++clock;
        return {{"log", clock, clock, author, {}},
                {std::to_string(clock), "", std::string(kind), 1, Body(std::move(body))},
                {}};
    }
    StoredEvent granted(const UserId& by, const UserGrant& grant) {
        StoredEvent made = event(by, kUserGranted, grant);
        grants.apply(made);
        return made;
    }
    StoredEvent closed(const UserId& by, const UserId& whom, std::int64_t last) {
        StoredEvent made = event(by, kUserClosed, UserClosing{whom, {{"log", last}}, clock + 1, ""});
        grants.apply(made);
        return made;
    }

    std::int64_t clock = 0;
    Grants grants;
};

}  // namespace

TEST_F(Users, CountOnlyWhenTheirGrantLeadsBackToTheFoundingKey) {
    granted(kFounder, grant_for(kNurse, Role::nurse));
    EXPECT_NE(grants.find(kNurse), nullptr);
    granted(kOther, grant_for(kOther, Role::prescriber));
    EXPECT_EQ(grants.find(kOther), nullptr) << "nobody grants themselves";
    granted(kNurse, grant_for(kOther, Role::prescriber));
    EXPECT_EQ(grants.find(kOther), nullptr) << "a nurse grants nobody";
}

TEST(UsersFounding, NeedsTheFoundingKey) {
    Grants grants("another key");
    grants.apply(
        {{"log", 1, 1, kFounder, {}},
         {"1", "", std::string(kUserGranted), 1, Body(nlohmann::json(grant_for(kFounder, Role::prescriber)))},
         {}});
    EXPECT_TRUE(grants.all().empty());
}

TEST_F(Users, AreVoidBeforeTheirGrantAndBeyondTheirRole) {
    const StoredEvent early = event(kNurse, "note-added");
    granted(kFounder, grant_for(kNurse, Role::nurse));
    EXPECT_EQ(grants.void_reason(early), "void-unknown-author");
    EXPECT_EQ(grants.void_reason(event(kNurse, "note-added")), "");
    EXPECT_EQ(grants.void_reason(event(kNurse, "plan-committed")), "void-beyond-role");
    EXPECT_EQ(grants.void_reason(event(kFounder, "plan-committed")), "");
    EXPECT_EQ(grants.void_reason(event(kOther, "note-added")), "void-unknown-author");
}

TEST_F(Users, KeepWhatTheyWroteBeforeTheyWereClosed) {
    granted(kFounder, grant_for(kNurse, Role::nurse));
    const StoredEvent before = event(kNurse, "note-added");
    const StoredEvent closing = closed(kFounder, kNurse, before.stamp.sequence);
    EXPECT_EQ(grants.void_reason(closing), "");
    EXPECT_EQ(grants.void_reason(before), "");
    EXPECT_EQ(grants.void_reason(event(kNurse, "note-added")), "void-author-closed");
    StoredEvent backdated = event(kNurse, "note-added");
    backdated.stamp.clock = before.stamp.clock;
    EXPECT_EQ(grants.void_reason(backdated), "void-author-closed") << "a clock set back does not help";
    StoredEvent elsewhere = before;
    elsewhere.stamp.log = "another log";
    EXPECT_EQ(grants.void_reason(elsewhere), "void-author-closed") << "nor does another log";
    EXPECT_FALSE(grants.find(kNurse)->open());
    EXPECT_EQ(grants.find_name("name of b"), nullptr);
}

TEST_F(Users, LetTheRecoveryKeyGrantAPrescriberOnly) {
    granted(kFounder, grant_for(kPrinted, Role::prescriber, true));
    EXPECT_EQ(grants.void_reason(event(kPrinted, "note-added")), "void-beyond-role");
    EXPECT_EQ(grants.void_reason(event(kPrinted, kUserGranted, grant_for(kOther, Role::nurse))),
              "void-beyond-role");
    EXPECT_EQ(grants.void_reason(event(kPrinted, kUserGranted, grant_for(kOther, Role::prescriber, true))),
              "void-beyond-role");
    granted(kPrinted, grant_for(kOther, Role::prescriber));
    ASSERT_NE(grants.find(kOther), nullptr);
    EXPECT_EQ(grants.void_reason(event(kOther, "plan-committed")), "");
    EXPECT_EQ(grants.find_name("name of d"), nullptr) << "the printed key is nobody's name";
}

TEST_F(Users, PassOverGrantsThatCannotBeRead) {
    for (
        const char* body :
        {"null", "[]", "{}", R"({"id": 7})",
         R"({"id":"x","name":"x","role":"owner","licence":"","public_key":"","box_key":"","recovery":false})"}) {
        const StoredEvent bad = event(kFounder, kUserGranted, nlohmann::json::parse(body));
        grants.apply(bad);
        EXPECT_EQ(grants.void_reason(bad), "void-unreadable-grant") << body;
    }
    EXPECT_EQ(grants.all().size(), 1U);
}

TEST_F(Users, MayNotTakeBackWhatTheyMayNotWrite) {
    granted(kFounder, grant_for(kNurse, Role::nurse));
    std::vector<StoredEvent> events{event(kFounder, "plan-committed"), event(kNurse, "note-added")};
    for (const std::size_t target : {0U, 1U})
        events.push_back(event(kNurse, kEntryAmended, {{"event", events[target].event.id}, {"reason", "x"}}));
    events.push_back(event(kFounder, kEntryAmended, {{"event", events[0].event.id}, {"reason", "x"}}));
    grants.mark_void(events);
    EXPECT_EQ(events[2].void_reason, "void-beyond-role");
    EXPECT_EQ(events[3].void_reason, "");
    EXPECT_EQ(events[4].void_reason, "");
}

TEST_F(Users, HaveGrantsAndClosingsThatAreReadAsTheyWereWritten) {
    const UserGrant grant = grant_for(kNurse, Role::nurse, true);
    EXPECT_EQ(nlohmann::json(grant).get<UserGrant>(), grant);
    const UserClosing closing{kNurse, {{"log", 7}, {"other", 9}}, 12, "ab"};
    EXPECT_EQ(nlohmann::json(closing).get<UserClosing>(), closing);
}

TEST_F(Users, AreListedInTheOrderOfTheirGrants) {
    granted(kFounder, grant_for(kOther, Role::nurse));
    granted(kFounder, grant_for(kNurse, Role::nurse));
    granted(kFounder, grant_for(kNurse, Role::prescriber));
    const std::vector<User> all = grants.all();
    ASSERT_EQ(all.size(), 3U);
    EXPECT_EQ(all[0].grant.id, kFounder);
    EXPECT_EQ(all[1].grant.id, kOther);
    EXPECT_EQ(all[2].grant.role, Role::nurse) << "a second grant of one key changes nothing";
}

}  // namespace evenfall
