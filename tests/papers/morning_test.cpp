// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/morning.h"

#include <gtest/gtest.h>

#include "papers/sample.h"

namespace evenfall::papers {
namespace {

MorningList two_people() {
    MorningList list;
    list.clinic = person_without_plan().clinic;
    list.day = day_at(2027, 1, 4);
    list.lines = {{"river-17",
                   "Ana Example",
                   {"Thoughts of suicide: call now", "Supply ends tomorrow"},
                   "clonazepam 2.375 mg a day",
                   "555-0171",
                   "after 17:00",
                   true},
                  {"0417", "Jonas Example", {"Contact 5 days late"}, "", "", "", false}};
    return list;
}

TEST(MorningList, SaysWhoWhyAtWhichDoseAndWhenItIsSafeToPhone) {
    const Document document = make_morning(two_people(), shipped_texts("en")).value();
    const std::string all = plain_text(document);
    for (const char* text : {"Monday 4 January 2027", "Ana Example", "river-17", "Supply ends tomorrow",
                             "clonazepam 2.375 mg a day", "555-0171", "after 17:00", "Call first: 1",
                             "Then: 1", "no dose recorded", "no telephone recorded",
                             "no safe times recorded: ask first", "Stays in the clinic"})
        EXPECT_NE(all.find(text), std::string::npos) << text;
    EXPECT_LT(all.find("Ana Example"), all.find("Jonas Example"));
    EXPECT_EQ(document.footer.mark, std::nullopt);
}

TEST(MorningList, SaysWhomItCannotName) {
    MorningList list = two_people();
    EXPECT_EQ(plain_text(make_morning(list, shipped_texts("en")).value()).find("cannot be read"),
              std::string::npos);
    list.unreadable = 2;
    EXPECT_NE(
        plain_text(make_morning(list, shipped_texts("en")).value()).find("the record cannot be read: 2."),
        std::string::npos);
}

TEST(MorningList, SpeaksEveryLanguageWithoutAGap) {
    MorningList list = two_people();
    list.unreadable = 1;
    for (const char* language : {"en", "es"})
        for_each_text(make_morning(list, shipped_texts(language)).value(),
                      [](Role role, const std::string& text) {
                          EXPECT_EQ(text.find('['), std::string::npos) << text;
                          EXPECT_TRUE(role == Role::foot || text.find('{') == std::string::npos) << text;
                      });
}

TEST(MorningList, IsRefusedWithNobodyOnItAndWithATextThatFitsNoPage) {
    MorningList list = two_people();
    list.lines.front().name = std::string(10'000, 'x');
    EXPECT_EQ(make_morning(list, shipped_texts("en")).faults().front().id, "paper-text-long");
    list.lines.clear();
    EXPECT_EQ(make_morning(list, shipped_texts("en")).faults().front().id, "paper-no-lines");
}

}  // namespace
}  // namespace evenfall::papers
