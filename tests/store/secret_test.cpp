// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/secret.h"

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <random>
#include <sstream>
#include <vector>

#include <gtest/gtest.h>
#include <sys/resource.h>

#include "store/crypto.h"

// Key material in memory: locked against swapping, left out of dumps, wiped when it is let go.

namespace evenfall {

namespace {

/// A random pattern that is kept masked, so that this test holds no copy of what it looks for.
class Masked {
  public:
    Masked() {
        std::mt19937 random(std::random_device{}());
        for (unsigned char& each : bytes_) each = static_cast<unsigned char>(random());
    }
    void write_to(SecretBytes& secret) const {
        for (std::size_t i = 0; i < bytes_.size(); ++i) secret.data()[i] = bytes_[i] ^ kMask;
    }
    bool stands_at(const unsigned char* at) const {
        for (std::size_t i = 0; i < bytes_.size(); ++i)
            if (at[i] != (bytes_[i] ^ kMask)) return false;
        return true;
    }
    std::size_t size() const { return bytes_.size(); }

  private:
    static constexpr unsigned char kMask = 0x5A;
    std::vector<unsigned char> bytes_ = std::vector<unsigned char>(32);
};

/// How often a pattern stands in the writable memory of this process.
int times_in_memory(const Masked& pattern) {
    std::ifstream maps("/proc/self/maps");
    std::FILE* memory = std::fopen("/proc/self/mem", "rb");
    std::vector<unsigned char> part;
    int found = 0;
    for (std::string line; std::getline(maps, line);) {
        unsigned long from = 0, to = 0;
        char rights[5] = {};
        if (std::sscanf(line.c_str(), "%lx-%lx %4s", &from, &to, rights) != 3 || rights[1] != 'w') continue;
        constexpr unsigned long most = 64UL << 20;
        if (to - from > most) continue;  // a sanitizer's shadow
        part.resize(to - from);
        if (std::fseek(memory, static_cast<long>(from), SEEK_SET) != 0) continue;
        const std::size_t count = std::fread(part.data(), 1, part.size(), memory);
        for (std::size_t at = 0; at + pattern.size() <= count; ++at)
            found += pattern.stands_at(part.data() + at) ? 1 : 0;
        std::fill(part.begin(), part.end(), static_cast<unsigned char>(0));
    }
    std::fclose(memory);
    return found;
}

/// The flags of the mapping that an address lies in, as the kernel names them.
std::string flags_at(const void* address) {
    std::ifstream maps("/proc/self/smaps");
    const auto wanted = reinterpret_cast<unsigned long>(address);
    bool here = false;
    for (std::string line; std::getline(maps, line);) {
        unsigned long from = 0, to = 0;
        if (std::sscanf(line.c_str(), "%lx-%lx ", &from, &to) == 2) here = from <= wanted && wanted < to;
        if (here && line.starts_with("VmFlags:")) return line + " ";
    }
    return {};
}

/// The address sanitizer makes mlock do nothing, and keeps what left the stack for its reports.
#ifdef __SANITIZE_ADDRESS__
constexpr bool kSanitized = true;
#else
constexpr bool kSanitized = false;
#endif

}  // namespace

TEST(Secret, IsLockedAndLeftOutOfDumps) {
    crypto::ready();
    rlimit locked{};
    getrlimit(RLIMIT_MEMLOCK, &locked);
    const SecretBytes secret(32);
    const std::string flags = flags_at(secret.data());
    ASSERT_FALSE(flags.empty());
    EXPECT_NE(flags.find(" dd "), std::string::npos) << flags;
    const bool may_lock = locked.rlim_cur > (64U << 10);
    EXPECT_TRUE(kSanitized || !may_lock || flags.find(" lo ") != std::string::npos) << flags;
}

TEST(Secret, StandsInMemoryOnceAndIsWipedWhenItIsLetGo) {
    crypto::ready();
    const Masked pattern;
    {
        SecretBytes secret(pattern.size());
        pattern.write_to(secret);
        EXPECT_EQ(times_in_memory(pattern), 1);
        const SecretBytes moved = std::move(secret);
        EXPECT_EQ(times_in_memory(pattern), 1) << "moving copies nothing";
        const SecretBytes copy = moved.copy();
        EXPECT_EQ(times_in_memory(pattern), 2);
    }
    EXPECT_EQ(times_in_memory(pattern), 0);
}

#ifndef __SANITIZE_ADDRESS__  // it keeps copies of its own: the release suite shows it
TEST(Secret, AKeyThatWasSealedAndOpenedLeavesNoCopy) {
    crypto::ready();
    const Masked pattern;
    {
        SecretBytes key(pattern.size());
        pattern.write_to(key);
        const SecretBytes with = crypto::random_secret(crypto::kKeyBytes);
        const Bytes sealed = crypto::seal(key.view(), "", with);
        const auto opened = crypto::open_secret(sealed, "", with);
        ASSERT_TRUE(opened.has_value());
        EXPECT_EQ(times_in_memory(pattern), 2) << "the key, and what was opened";
        const SecretBytes holder = crypto::random_secret(32);
        const auto boxed = crypto::box_seal(key, crypto::box_public(holder));
        ASSERT_TRUE(crypto::box_open(*boxed, holder).has_value());
    }
    EXPECT_EQ(times_in_memory(pattern), 0);
}
#endif

TEST(SecretDeathTest, CannotBeReadOnceItIsLetGo) {
    crypto::ready();
    const volatile unsigned char* gone = nullptr;
    {
        SecretBytes secret(32);
        gone = secret.data();
    }
    EXPECT_DEATH(static_cast<void>(*gone), "");
}

}  // namespace evenfall
