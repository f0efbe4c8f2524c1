// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/safekeeping.h"

#include <algorithm>
#include <chrono>

#include <date/date.h>
#include <nlohmann/json.hpp>

namespace evenfall {

namespace {

constexpr const char* kDraft = "safekeeping";
constexpr const char* kEnd = ".evenfall-backup";
constexpr const char* kExchangeEnd = ".evenfall-exchange";
constexpr std::size_t kStampLength = 15;

std::int64_t days_between(Instant from, Instant to) {
    return std::chrono::floor<std::chrono::days>(to - from).count();
}

bool is_never(Instant at) {
    return at == Instant{};
}

std::string name_begin(const Store& store) {
    return "evenfall-" + store.clinic_id().substr(0, 8) + "-";
}

/// Whether a file's name is one that `backup_name` gives.
bool is_backup_name(const std::string& name, const std::string& begin) {
    return name.size() == begin.size() + kStampLength + std::string_view(kEnd).size() &&
           name.starts_with(begin) && name.ends_with(kEnd) &&
           name.substr(begin.size(), kStampLength).find_first_not_of("0123456789-") == std::string::npos;
}

/// Back-ups of the clinic in a folder, the oldest first.
std::vector<std::filesystem::path> backups_in(const Store& store, const std::filesystem::path& folder,
                                              std::error_code& error) {
    std::vector<std::filesystem::path> found;
    const std::string begin = name_begin(store);
    for (auto each = std::filesystem::directory_iterator(folder, error);
         !error && each != std::filesystem::directory_iterator(); each.increment(error)) {
        const bool ours = is_backup_name(each->path().filename().string(), begin);
        if (ours && each->symlink_status().type() == std::filesystem::file_type::regular)
            found.push_back(each->path());
    }
    std::ranges::sort(found);
    return found;
}

}  // namespace

Result<Safekeeping> read_safekeeping(Store& store) {
    auto text = store.draft(kDraft);
    if (!text) return text.faults();
    Safekeeping kept;
    if (!*text) return kept;
    const auto json = nlohmann::json::parse(**text, nullptr, false);
    if (!json.is_object()) return kept;
    kept.folder = json.value("folder", "");
    kept.last_file = json.value("last_file", "");
    kept.last_backup = Instant(std::chrono::seconds(json.value("last_backup", std::int64_t{0})));
    kept.last_proof = Instant(std::chrono::seconds(json.value("last_proof", std::int64_t{0})));
    kept.proof_whole = json.value("proof_whole", false);
    kept.last_failure = Instant(std::chrono::seconds(json.value("last_failure", std::int64_t{0})));
    kept.failure = json.value("failure", "");
    return kept;
}

Result<Done> write_safekeeping(Store& store, const Safekeeping& kept) {
    const nlohmann::json json{{"folder", kept.folder},
                              {"last_file", kept.last_file},
                              {"last_backup", kept.last_backup.time_since_epoch().count()},
                              {"last_proof", kept.last_proof.time_since_epoch().count()},
                              {"proof_whole", kept.proof_whole},
                              {"last_failure", kept.last_failure.time_since_epoch().count()},
                              {"failure", kept.failure}};
    return store.put_draft(kDraft, json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace));
}

std::vector<Flag> safekeeping_flags(const Safekeeping& kept, const Rules& rules, Instant now) {
    std::vector<Flag> flags;
    if (!is_never(kept.last_failure))
        flags.push_back({"backup-failed", {{"on", print_instant(kept.last_failure).substr(0, 10)}}, {}});
    const std::int64_t backup_days = days_between(kept.last_backup, now);
    if (is_never(kept.last_backup))
        flags.push_back({"backup-none", {}, {}});
    else if (backup_days > rules.whole("backup-old", "days"))
        flags.push_back({"backup-old", {{"days", std::to_string(backup_days)}}, {}});
    const std::int64_t proof_days = days_between(kept.last_proof, now);
    if (!is_never(kept.last_proof) && proof_days > rules.whole("proof-old", "days"))
        flags.push_back({"proof-old", {{"days", std::to_string(proof_days)}}, {}});
    return flags;
}

bool backup_due(const Safekeeping& kept, const Rules& rules, Instant now) {
    if (kept.folder.empty()) return false;
    const std::chrono::hours every(rules.whole("backup-rotation", "every_hours"));
    return is_never(kept.last_backup) || now - kept.last_backup >= every || now < kept.last_backup;
}

std::string file_stamp(Instant now) {
    return date::format("%Y%m%d-%H%M%S", std::chrono::floor<std::chrono::seconds>(now));
}

std::string backup_name(const Store& store, Instant now) {
    return name_begin(store) + file_stamp(now) + kEnd;
}

std::string exchange_name(const Store& store, Instant now) {
    return name_begin(store) + file_stamp(now) + kExchangeEnd;
}

std::optional<std::filesystem::path> newest_backup(const Store& store, const std::filesystem::path& folder) {
    std::error_code error;
    auto found = backups_in(store, folder, error);
    if (error || found.empty()) return std::nullopt;
    return found.back();
}

Result<std::vector<std::filesystem::path>> rotate_backups(const Store& store,
                                                          const std::filesystem::path& folder,
                                                          std::size_t keep) {
    std::error_code error;
    auto found = backups_in(store, folder, error);
    std::vector<std::filesystem::path> removed;
    for (std::size_t i = 0; !error && i + std::max<std::size_t>(keep, 1) < found.size(); ++i) {
        std::filesystem::remove(found[i], error);
        if (!error) removed.push_back(found[i]);
    }
    if (error) return Fault{"file-unreadable", folder.string(), {{"file", folder.string()}}};
    return removed;
}

StoreOptions store_options(const Rules& rules) {
    StoreOptions options;
    options.delays = {rules.whole("unlock-delay", "free"), rules.whole("unlock-delay", "first_seconds"),
                      rules.whole("unlock-delay", "most_seconds")};
    return options;
}

}  // namespace evenfall
