// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/recovery_key.h"

#include <algorithm>
#include <cctype>

#include <gtest/gtest.h>

#include "store/crypto.h"

namespace evenfall {

namespace {

class RecoveryKey : public testing::Test {
  protected:
    RecoveryKey() {
        crypto::ready();
        key = make_recovery_key();
    }
    std::string key;
};

}  // namespace

TEST_F(RecoveryKey, IsSevenGroupsOfFiveSigns) {
    EXPECT_EQ(key.size(), 41U);
    for (std::size_t i = 5; i < key.size(); i += 6) EXPECT_EQ(key[i], '-');
    EXPECT_EQ(read_recovery_key(key)->size(), 28U);
    EXPECT_NE(make_recovery_key(), key);
}

TEST_F(RecoveryKey, ReadsWhatAPersonTypes) {
    std::string typed;
    for (const char each : key) {
        if (each == '-') continue;
        typed.push_back(each == '0' ? 'o' : each == '1' ? 'l' : static_cast<char>(std::tolower(each)));
        typed.push_back(' ');
    }
    EXPECT_EQ(*read_recovery_key(typed), *read_recovery_key(key));
}

TEST_F(RecoveryKey, TellsTheGroupOfAnyOneWrongSign) {
    for (std::size_t at = 0; at < key.size(); ++at) {
        if (key[at] == '-') continue;
        std::string slipped = key;
        slipped[at] = slipped[at] == 'Z' ? 'Y' : 'Z';
        const auto read = read_recovery_key(slipped);
        ASSERT_FALSE(read.ok()) << slipped;
        EXPECT_EQ(read.faults().front().id, "recovery-key-slip");
        EXPECT_EQ(read.faults().front().args.at("group"), std::to_string(at / 6 + 1));
    }
}

TEST_F(RecoveryKey, TellsGroupsThatChangedPlace) {
    std::string swapped = key;
    std::swap_ranges(swapped.begin(), swapped.begin() + 5, swapped.begin() + 6);
    EXPECT_EQ(read_recovery_key(swapped).ok(), swapped == key);
}

TEST_F(RecoveryKey, TellsMissingAndStrangeSigns) {
    EXPECT_EQ(read_recovery_key(key.substr(0, 40)).faults().front().id, "recovery-key-length");
    EXPECT_EQ(read_recovery_key("").faults().front().id, "recovery-key-length");
    std::string strange = key;
    strange[0] = 'U';
    EXPECT_EQ(read_recovery_key(strange).faults().front().id, "recovery-key-sign");
}

}  // namespace evenfall
