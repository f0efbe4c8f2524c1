// SPDX-License-Identifier: GPL-3.0-or-later
#include "formulary/medicine_name.h"

#include <gtest/gtest.h>

namespace evenfall {
namespace {

TEST(MedicineName, IsFoundHoweverItWasTyped) {
    for (const char* typed : {"oxycodone", "Oxycodone, 5 mg", "oxycodone 5 mg", "5 mg OXYCODONE at night",
                              "oxycodone/naloxone", "(oxycodone)", "oxycodone.", "retard-oxycodone; twice"})
        EXPECT_TRUE(names_medicine(typed, "oxycodone")) << typed;
    EXPECT_TRUE(
        names_medicine("C\xC3\xB3"
                       "digo: code\xC3\xADna, 30 mg",
                       "code\xC3\xADna"));
    EXPECT_TRUE(names_medicine("valproic  acid valproic acid", "valproic acid"));
}

TEST(MedicineName, IsNotFoundInsideAnotherWord) {
    EXPECT_FALSE(names_medicine("oxymorphone", "morphine"));
    EXPECT_FALSE(names_medicine("methadone5", "methadone"));
    EXPECT_FALSE(names_medicine("apomorphine", "morphine"));
    EXPECT_FALSE(names_medicine("morphine\xC3\xA9", "morphine"));
    EXPECT_FALSE(names_medicine("", "morphine"));
    EXPECT_FALSE(names_medicine("morphine", ""));
}

}  // namespace
}  // namespace evenfall
