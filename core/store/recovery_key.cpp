// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/recovery_key.h"

#include <cctype>

#include <sodium.h>

namespace evenfall {

namespace {

constexpr std::string_view kSigns = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
constexpr std::size_t kGroups = 7;
constexpr std::size_t kCarrying = 4;
constexpr std::size_t kGroupLength = kCarrying + 1;

/// Odd weights, so that any single wrong sign changes the sum; the group's number, so that groups cannot
/// change place.
char check_sign(std::string_view four, std::size_t group) {
    std::size_t sum = group;
    for (std::size_t i = 0; i < kCarrying; ++i) sum += kSigns.find(four[i]) * (2 * i + 3);
    return kSigns[sum % kSigns.size()];
}

char read_sign(char typed) {
    const char upper = static_cast<char>(std::toupper(static_cast<unsigned char>(typed)));
    if (upper == 'O') return '0';
    if (upper == 'I' || upper == 'L') return '1';
    return upper;
}

std::string typed_signs(std::string_view typed) {
    std::string signs;
    for (const char each : typed)
        if (each != '-' && std::isspace(static_cast<unsigned char>(each)) == 0)
            signs.push_back(read_sign(each));
    return signs;
}

Fault at_group(const char* id, std::size_t group) {
    return {id, "", {{"group", std::to_string(group + 1)}, {"groups", std::to_string(kGroups)}}};
}

}  // namespace

std::string make_recovery_key() {
    std::string key;
    for (std::size_t group = 0; group < kGroups; ++group) {
        std::string four;
        for (std::size_t i = 0; i < kCarrying; ++i)
            four.push_back(kSigns[randombytes_uniform(static_cast<std::uint32_t>(kSigns.size()))]);
        if (group > 0) key.push_back('-');
        key += four + check_sign(four, group);
    }
    return key;
}

Result<std::string> read_recovery_key(std::string_view typed) {
    const std::string signs = typed_signs(typed);
    Faults faults;
    std::string counting;
    for (std::size_t at = 0, group = 0; at < signs.size(); at += kGroupLength, ++group) {
        const std::string five = signs.substr(at, kGroupLength);
        if (five.find_first_not_of(kSigns) != std::string::npos)
            faults.push_back(at_group("recovery-key-sign", group));
        else if (five.size() == kGroupLength && check_sign(five, group) != five.back())
            faults.push_back(at_group("recovery-key-slip", group));
        counting += five.substr(0, kCarrying);
    }
    if (signs.size() != kGroups * kGroupLength)
        faults.push_back({"recovery-key-length",
                          "",
                          {{"found", std::to_string(signs.size())},
                           {"expected", std::to_string(kGroups * kGroupLength)}}});
    if (!faults.empty()) return faults;
    return counting;
}

}  // namespace evenfall
