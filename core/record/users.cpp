// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/users.h"

#include <algorithm>
#include <array>
#include <tuple>

#include <nlohmann/json.hpp>

#include "record/access.h"

namespace evenfall {

using nlohmann::json;

namespace {

/// What only a prescriber answers for: signing or changing what is committed, the gate before a plan,
/// overriding a rule, the products, rules and equivalences that plans are made of, and who may write at all.
constexpr std::array<std::string_view, 15> kPrescriberOnly{
    "suitability-signed", "plan-committed", "plan-ended",        "hold-ended",   "rule-overridden",
    "plan-override",      "product-listed", "product-withdrawn", "rule-changed", "equivalence-chosen",
    "clinic-set",         "price-set",      "currency-set",      kUserGranted,   kUserClosed};

template <class T>
std::optional<T> body_of(const StoredEvent& event) {
    try {
        return event.event.body->get<T>();
    } catch (const json::exception&) {
        return std::nullopt;
    } catch (const std::invalid_argument&) {
        return std::nullopt;
    }
}

}  // namespace

bool may(Role role, std::string_view kind) {
    if (role == Role::prescriber) return true;
    return std::find(kPrescriberOnly.begin(), kPrescriberOnly.end(), kind) == kPrescriberOnly.end();
}

EventId amended_entry(const Event& event) {
    if (event.kind != kEntryAmended || !event.body->is_object()) return {};
    const auto target = event.body->find("event");
    return target != event.body->end() && target->is_string() ? target->get<EventId>() : EventId();
}

void to_json(json& j, const UserGrant& value) {
    j = {{"id", value.id},
         {"name", value.name},
         {"role", word(value.role)},
         {"licence", value.licence},
         {"public_key", value.public_key},
         {"box_key", value.box_key},
         {"recovery", value.recovery}};
}

void from_json(const json& j, UserGrant& value) {
    j.at("id").get_to(value.id);
    j.at("name").get_to(value.name);
    const auto role = from_word<Role>(j.at("role").get_ref<const std::string&>());
    if (!role) throw std::invalid_argument("unknown role");
    value.role = *role;
    j.at("licence").get_to(value.licence);
    j.at("public_key").get_to(value.public_key);
    j.at("box_key").get_to(value.box_key);
    j.at("recovery").get_to(value.recovery);
}

void to_json(json& j, const UserClosing& value) {
    j = {{"id", value.id},
         {"last_accepted", value.last_accepted},
         {"epoch", value.epoch},
         {"key_hash", value.key_hash}};
}

void from_json(const json& j, UserClosing& value) {
    j.at("id").get_to(value.id);
    j.at("last_accepted").get_to(value.last_accepted);
    j.at("epoch").get_to(value.epoch);
    j.at("key_hash").get_to(value.key_hash);
}

bool comes_before(const Stamp& a, const Stamp& b) {
    return std::tie(a.clock, a.log, a.sequence) < std::tie(b.clock, b.log, b.sequence);
}

bool Grants::founds(const StoredEvent& event, const UserGrant& grant) const {
    return users_.empty() && grant.public_key == founding_key_ && grant.id == event.stamp.author &&
           grant.role == Role::prescriber && !grant.recovery;
}

std::string Grants::reason_of_author(const StoredEvent& event) const {
    const User* author = find(event.stamp.author);
    if (author == nullptr || comes_before(event.stamp, author->granted)) return "void-unknown-author";
    if (!author->closing) return {};
    const auto last = author->closing->last_accepted.find(event.stamp.log);
    const bool accepted =
        last != author->closing->last_accepted.end() && event.stamp.sequence <= last->second;
    return accepted ? std::string() : "void-author-closed";
}

std::string Grants::void_reason(const StoredEvent& event) const {
    const User* author = find(event.stamp.author);
    if (author != nullptr && event.stamp == author->granted) return {};  // the founder's own grant
    if (std::string reason = reason_of_author(event); !reason.empty()) return reason;
    if (event.event.kind == kUserGranted) {
        const auto grant = body_of<UserGrant>(event);
        if (!grant) return "void-unreadable-grant";
        if (author->grant.recovery && grant->role == Role::prescriber && !grant->recovery) return {};
    }
    if (event.event.kind == kUserClosed && !body_of<UserClosing>(event)) return "void-unreadable-grant";
    if (author->grant.recovery && event.event.kind == kRecordOpened) return {};
    if (author->grant.recovery || !may(author->grant.role, event.event.kind)) return "void-beyond-role";
    return {};
}

void Grants::mark_void(std::vector<StoredEvent>& events) const {
    std::vector<StoredEvent*> amendments;
    for (StoredEvent& each : events) {
        each.void_reason = void_reason(each);
        if (each.event.kind == kEntryAmended && each.void_reason.empty()) amendments.push_back(&each);
    }
    if (amendments.empty()) return;
    std::map<std::string_view, std::string_view> kinds;
    for (const StoredEvent& each : events) kinds.emplace(each.event.id, each.event.kind);
    for (StoredEvent* each : amendments) {
        const auto target = kinds.find(amended_entry(each->event));
        if (target != kinds.end() && !may(find(each->stamp.author)->grant.role, target->second))
            each->void_reason = "void-beyond-role";
    }
}

void Grants::apply(const StoredEvent& event) {
    if (event.event.kind == kUserGranted) grant(event);
    if (event.event.kind == kUserClosed) close(event);
}

void Grants::grant(const StoredEvent& event) {
    const auto grant = body_of<UserGrant>(event);
    if (!grant) return;
    if (!founds(event, *grant) && !void_reason(event).empty()) return;
    users_.try_emplace(grant->id,
                       User{*grant, event.stamp, {}});  // a second grant of one key changes nothing
}

void Grants::close(const StoredEvent& event) {
    const auto closing = body_of<UserClosing>(event);
    if (!closing || !void_reason(event).empty()) return;
    const auto user = users_.find(closing->id);
    if (user != users_.end() && !user->second.closing) user->second.closing = *closing;
}

const User* Grants::find(std::string_view id) const {
    const auto found = users_.find(id);
    return found == users_.end() ? nullptr : &found->second;
}

const User* Grants::find_name(std::string_view name) const {
    for (const auto& [id, user] : users_)
        if (user.open() && !user.grant.recovery && user.grant.name == name) return &user;
    return nullptr;
}

std::vector<User> Grants::all() const {
    std::vector<User> users;
    for (const auto& [id, user] : users_) users.push_back(user);
    std::sort(users.begin(), users.end(),
              [](const User& a, const User& b) { return comes_before(a.granted, b.granted); });
    return users;
}

const UserClosing* Grants::newest_closing() const {
    const UserClosing* newest = nullptr;
    for (const auto& [id, user] : users_)
        if (user.closing && (newest == nullptr || user.closing->epoch > newest->epoch))
            newest = &*user.closing;
    return newest;
}

}  // namespace evenfall
