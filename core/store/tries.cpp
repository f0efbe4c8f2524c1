// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/tries.h"

#include <algorithm>
#include <array>

#include <fcntl.h>
#include <nlohmann/json.hpp>
#include <unistd.h>

#include "store/crypto.h"

namespace evenfall {

namespace {

constexpr std::int64_t kSecond = 1'000'000;
constexpr std::size_t kMostBytes = 64 << 10;

/// A user as the side file names them.
std::string key_of(const std::string& user) {
    return to_hex(crypto::hash("tries " + user, 16));
}

std::string read_all(const std::filesystem::path& file) {
    const int descriptor = ::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
    if (descriptor < 0) return {};
    std::string text(kMostBytes, '\0');
    const ssize_t count = ::read(descriptor, text.data(), text.size());
    ::close(descriptor);
    text.resize(count > 0 ? static_cast<std::size_t>(count) : 0);
    return text;
}

/// Puts a new file in the place of the old, whole or not at all. Where it fails the old count stands: the
/// store itself then says what is wrong with the disk.
void replace_with(const std::filesystem::path& file, const std::string& text) {
    const std::filesystem::path fresh = file.string() + ".new";
    ::unlink(fresh.c_str());
    const int descriptor = ::open(fresh.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0600);
    if (descriptor < 0) return;
    const bool written = ::write(descriptor, text.data(), text.size()) == static_cast<ssize_t>(text.size()) &&
                         ::fsync(descriptor) == 0;
    ::close(descriptor);
    if (!written || ::rename(fresh.c_str(), file.c_str()) != 0) ::unlink(fresh.c_str());
}

}  // namespace

std::int64_t TryDelays::seconds_after(std::int64_t wrong) const {
    if (most_seconds <= 0 || wrong < free) return 0;
    std::int64_t seconds = first_seconds;
    for (std::int64_t i = free; i < wrong && seconds < most_seconds; ++i) seconds *= 2;
    return std::min<std::int64_t>(seconds, most_seconds);
}

Tries::Tries(std::filesystem::path store, std::function<std::int64_t()> now, TryDelays delays)
    : file_(std::move(store)), now_(std::move(now)), delays_(delays) {
    file_ += ".tries";
}

bool Tries::is_wrong(const Faults& faults) {
    return std::ranges::any_of(faults, [](const Fault& each) {
        return each.id == "store-wrong-passphrase" || each.id == "store-wrong-recovery-key";
    });
}

std::map<std::string, Tries::Count> Tries::read() const {
    const auto text = nlohmann::json::parse(read_all(file_), nullptr, false);
    std::map<std::string, Count> counts;
    if (!text.is_object()) return counts;
    for (const auto& [key, each] : text.items()) {
        const bool shaped =
            each.is_array() && each.size() == 2 && each[0].is_number_integer() && each[1].is_number_integer();
        if (shaped) counts[key] = {each[0].get<std::int64_t>(), each[1].get<std::int64_t>()};
    }
    return counts;
}

std::int64_t Tries::wrong_tries(const std::string& user) const {
    const auto counts = read();
    const auto found = counts.find(key_of(user));
    return found == counts.end() ? 0 : std::max<std::int64_t>(found->second.wrong, 0);
}

void Tries::keep(const std::string& user, std::int64_t wrong) const {
    auto counts = read();
    if (wrong == 0)
        counts.erase(key_of(user));
    else
        counts[key_of(user)] = {wrong, now_()};
    nlohmann::json text = nlohmann::json::object();
    for (const auto& [key, count] : counts) text[key] = {count.wrong, count.last};
    replace_with(file_, text.dump());
}

std::optional<Fault> Tries::must_wait(const std::string& user) const {
    const auto counts = read();
    const auto found = counts.find(key_of(user));
    if (found == counts.end()) return std::nullopt;
    const std::int64_t delay = delays_.seconds_after(found->second.wrong) * kSecond;
    // A clock that was set back must neither shorten nor lengthen the wait.
    const std::int64_t since = std::max<std::int64_t>(now_() - found->second.last, 0);
    if (since >= delay) return std::nullopt;
    const std::int64_t seconds = (delay - since + kSecond - 1) / kSecond;
    return Fault{"store-wait",
                 file_.string(),
                 {{"seconds", std::to_string(seconds)}, {"tries", std::to_string(found->second.wrong)}}};
}

}  // namespace evenfall
