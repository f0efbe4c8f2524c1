// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/person.h"
#include "record/event.h"

namespace evenfall {

/// Kinds of the events that say who may write what.
inline constexpr std::string_view kUserGranted = "user-granted";
inline constexpr std::string_view kUserClosed = "user-closed";
/// The kind that takes an earlier entry back. Who may not write an entry may not take it back either.
inline constexpr std::string_view kEntryAmended = "entry-amended";

/// Whether a role may write events of a kind. A nurse may write all but what only a prescriber answers for:
/// the table in users.cpp names those kinds.
bool may(Role role, std::string_view kind);

/// The entry that an "entry-amended" event takes back; empty for any other event.
EventId amended_entry(const Event& event);

/// The body of "user-granted": who may write from then on, and the keys by which that is known.
struct UserGrant {
    UserId id;
    std::string name;
    Role role = Role::nurse;
    std::string licence;
    std::string public_key;  ///< Ed25519, hexadecimal
    std::string box_key;     ///< X25519, hexadecimal: new data keys are sealed to it
    bool recovery = false;   ///< the printed key: it may grant a prescriber and nothing else

    bool operator==(const UserGrant&) const = default;
};

/// The body of "user-closed": the last row accepted from the user in each log; later ones are void. With it a
/// new data key begins, of which the event keeps a hash, so that no other key can be put in its place.
struct UserClosing {
    UserId id;
    std::map<LogId, std::int64_t> last_accepted;
    std::int64_t epoch = 1;
    std::string key_hash;  ///< hexadecimal

    bool operator==(const UserClosing&) const = default;
};

void to_json(nlohmann::json& j, const UserGrant& value);
void from_json(const nlohmann::json& j, UserGrant& value);
void to_json(nlohmann::json& j, const UserClosing& value);
void from_json(const nlohmann::json& j, UserClosing& value);

/// A user as the grants have them.
struct User {
    UserGrant grant;
    Stamp granted;
    std::optional<UserClosing> closing;

    bool open() const { return !closing.has_value(); }
    bool operator==(const User&) const = default;
};

/// Who may write, folded from the grants in the record's order. Every grant leads back to the founding key:
/// the first one is the founder's own, the others are by prescribers who were granted before, or by the
/// recovery key.
class Grants {
  public:
    Grants() = default;
    explicit Grants(std::string founding_key) : founding_key_(std::move(founding_key)) {}

    /// Takes up a "user-granted" or "user-closed" event, if its author may write it; others are passed over.
    /// Events must come in the fold's order.
    void apply(const StoredEvent& event);

    /// Why an event is void: `void-unknown-author`, `void-beyond-role`, `void-author-closed`,
    /// `void-unreadable-grant`; empty if it counts.
    std::string void_reason(const StoredEvent& event) const;

    /// Judges all events of one patient, or of the clinic, and writes the reasons into them.
    void mark_void(std::vector<StoredEvent>& events) const;

    const User* find(std::string_view id) const;
    /// The open user of that name, if any; the recovery key has none.
    const User* find_name(std::string_view name) const;
    /// All users, in the order in which they were granted, closed ones too.
    std::vector<User> all() const;
    /// The newest data key's epoch and hash, where a closing began one.
    const UserClosing* newest_closing() const;

  private:
    std::string reason_of_author(const StoredEvent& event) const;
    bool founds(const StoredEvent& event, const UserGrant& grant) const;
    void grant(const StoredEvent& event);
    void close(const StoredEvent& event);

    std::string founding_key_;
    std::map<UserId, User, std::less<>> users_;
};

/// Whether `a` comes before `b` in the fold's order: clock, log, sequence.
bool comes_before(const Stamp& a, const Stamp& b);

}  // namespace evenfall
