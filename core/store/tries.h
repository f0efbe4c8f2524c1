// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <string>

#include "units/result.h"

namespace evenfall {

/// How wrong passphrases slow the next try. The rule `unlock-delay` holds the values; with `most_seconds` 0
/// nothing is slowed.
struct TryDelays {
    int free = 0;           ///< wrong tries in a row before the first delay
    int first_seconds = 0;  ///< doubles with each further one …
    int most_seconds = 0;   ///< … up to this

    /// Seconds to wait after so many wrong tries in a row.
    std::int64_t seconds_after(std::int64_t wrong) const;
    bool operator==(const TryDelays&) const = default;
};

/// Counts wrong passphrases of each user in a side file (`<store>.tries`), so that a restart forgets none. It
/// slows whoever guesses through the program; whoever has the file can guess without it, against the cost of
/// the passphrase's key alone. A side file that cannot be read counts as none.
class Tries {
  public:
    Tries(std::filesystem::path store, std::function<std::int64_t()> now, TryDelays delays);

    /// Runs `attempt`, unless the user must wait. Faults: `store-wait` (args seconds), and what `attempt`
    /// returns; a wrong passphrase is counted before it is tried, and followed by `store-wait` where the next
    /// try must wait.
    template <class T>
    Result<T> attempt(const std::string& user, const std::function<Result<T>()>& attempt) {
        if (delays_.most_seconds <= 0) return attempt();
        if (auto fault = must_wait(user)) return *fault;
        const std::int64_t before = wrong_tries(user);
        keep(user, before + 1);
        Result<T> result = attempt();
        const bool wrong = !result && is_wrong(result.faults());
        if (!wrong) keep(user, result ? 0 : before);
        if (!wrong) return result;
        Faults faults = result.faults();
        if (auto fault = must_wait(user)) faults.push_back(*fault);
        return faults;
    }

  private:
    struct Count {
        std::int64_t wrong = 0;
        std::int64_t last = 0;  ///< microseconds since 1970
    };
    static bool is_wrong(const Faults& faults);
    std::optional<Fault> must_wait(const std::string& user) const;
    std::int64_t wrong_tries(const std::string& user) const;
    std::map<std::string, Count> read() const;
    void keep(const std::string& user, std::int64_t wrong) const;

    std::filesystem::path file_;
    std::function<std::int64_t()> now_;
    TryDelays delays_;
};

}  // namespace evenfall
