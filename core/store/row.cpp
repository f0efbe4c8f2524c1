// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/row.h"

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <limits>

#include <nlohmann/json.hpp>

#include "store/crypto.h"
#include "store/plain_json.h"

namespace evenfall {

using nlohmann::json;

namespace {

/// How deep brackets nest outside strings, found without building anything: a tree of a hostile depth would
/// be dangerous to print or copy.
int depth_of(std::string_view text) {
    int opening = 0;
    for (const char sign : {'[', '{'})
        for (auto at = text.find(sign); at != std::string_view::npos && opening <= kDepthLimit;
             at = text.find(sign, at + 1))
            ++opening;
    if (opening <= kDepthLimit) return opening;  // it cannot nest deeper than that
    int depth = 0;
    int deepest = 0;
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char each = text[i];
        if (quoted) {
            if (each == '\\') ++i;
            if (each == '"') quoted = false;
        } else if (each == '"') {
            quoted = true;
        } else if (each == '{' || each == '[') {
            deepest = std::max(deepest, ++depth);
        } else if (each == '}' || each == ']') {
            --depth;
        }
    }
    return deepest;
}

/// A whole number that an event's version can be. Any other kind of number would be cut to one that nobody
/// wrote.
std::optional<int> version_of(const json& value) {
    if (!value.is_number_integer()) return std::nullopt;
    const auto most = static_cast<std::uint64_t>(std::numeric_limits<int>::max());
    if (value.is_number_unsigned())
        return value.get<std::uint64_t>() <= most ? std::optional(value.get<int>()) : std::nullopt;
    const auto number = value.get<std::int64_t>();
    if (number < std::numeric_limits<int>::min() || number > std::numeric_limits<int>::max())
        return std::nullopt;
    return static_cast<int>(number);
}

Fault event_fault(const char* id, const Event& event) {
    return {id, event.kind, {{"limit", std::to_string(kEventLimit)}, {"depth", std::to_string(kDepthLimit)}}};
}

}  // namespace

void associated_data_into(Bytes& data, const Row& row, std::string_view clinic) {
    data = "evenfall-row-1";
    data.reserve(192);
    data.append(clinic).append(row.log);
    append_number(data, row.sequence);
    data.append(row.event).append(row.patient);
    append_number(data, row.number);
    append_number(data, row.clock);
    append_number(data, row.at);
    data.append(row.author);
    append_number(data, row.epoch);
    data.push_back(row.signature.empty() ? '\0' : '\1');
    data.append(row.previous);
}

Bytes associated_data(const Row& row, std::string_view clinic) {
    Bytes data;
    associated_data_into(data, row, clinic);
    return data;
}

Bytes signed_bytes(std::string_view row_hash) {
    return Bytes("evenfall-signature-1").append(row_hash);
}

void read_row_into(Row& row, const sql::Statement& statement) {
    row.patient = statement.bytes(0);
    row.clock = statement.integer(1);
    row.log = statement.bytes(2);
    row.sequence = statement.integer(3);
    row.number = statement.integer(4);
    row.at = statement.integer(5);
    row.event = statement.bytes(6);
    row.author = statement.bytes(7);
    row.epoch = statement.integer(8);
    row.previous = statement.bytes(9);
    row.hash = statement.bytes(10);
    row.signature = statement.bytes(11);
    row.sealed = statement.bytes(12);
}

Row read_row(const sql::Statement& statement) {
    Row row;
    read_row_into(row, statement);
    return row;
}

void write_row(sql::Statement& insert, const Row& row) {
    insert.bind_blob(1, row.patient).bind(2, row.clock).bind_blob(3, row.log).bind(4, row.sequence);
    insert.bind(5, row.number).bind(6, row.at).bind_blob(7, row.event).bind_blob(8, row.author);
    insert.bind(9, row.epoch)
        .bind_blob(10, row.previous)
        .bind_blob(11, row.hash)
        .bind_blob(12, row.signature);
    insert.bind_blob(13, row.sealed).step();
}

Result<Bytes> event_text(const Event& event) {
    try {
        // Put together from its parts: a tree of the whole would copy the body.
        Bytes text = R"({"patient":)" + json(event.patient).dump() + R"(,"kind":)" + json(event.kind).dump() +
                     R"(,"version":)" + std::to_string(event.version) + R"(,"body":)" + event.body->dump() +
                     "}";
        if (text.size() > kEventLimit) return event_fault("event-too-long", event);
        if (depth_of(text) > kDepthLimit) return event_fault("event-too-deep", event);
        return text;
    } catch (const json::exception&) {
        return event_fault("event-not-text", event);
    }
}

namespace {

/// Takes `expected` off the front of a text; whether it stood there.
bool take_front(std::string_view& text, std::string_view expected) {
    if (!text.starts_with(expected)) return false;
    text.remove_prefix(expected.size());
    return true;
}

/// Takes a quoted string of plain signs, without any that is written otherwise than it reads.
std::optional<std::string_view> take_plain(std::string_view& text) {
    if (!take_front(text, "\"")) return std::nullopt;
    std::size_t length = 0;
    while (length < text.size() && text[length] >= ' ' && text[length] <= '~' && text[length] != '"' &&
           text[length] != '\\')
        ++length;
    if (length == text.size() || text[length] != '"') return std::nullopt;
    const std::string_view plain = text.substr(0, length);
    text.remove_prefix(length + 1);
    return plain;
}

/// Its tree is built when somebody looks at it.
Body unread_body(std::string_view text) {
    return Body(json::binary({text.begin(), text.end()}));
}

}  // namespace

std::optional<Event> read_own_event(std::string_view text) {
    if (!take_front(text, R"({"patient":)")) return std::nullopt;
    const auto patient = take_plain(text);
    if (!patient || !take_front(text, R"(,"kind":)")) return std::nullopt;
    const auto kind = take_plain(text);
    if (!kind || !take_front(text, R"(,"version":)")) return std::nullopt;
    const std::size_t digits = std::min(text.find_first_not_of("0123456789"), text.size());
    constexpr std::size_t most_digits = 9;  // any such number is an int
    if (digits == 0 || digits > most_digits || (digits > 1 && text.front() == '0')) return std::nullopt;
    int version = 0;
    std::from_chars(text.data(), text.data() + digits, version);
    text.remove_prefix(digits);
    if (!take_front(text, R"(,"body":)") || !text.ends_with('}')) return std::nullopt;
    text.remove_suffix(1);
    if (text.starts_with('\xEF')) return std::nullopt;  // a byte order mark would be passed over
    if (!is_plain_json(text) && !json::accept(text)) return std::nullopt;
    return Event{{}, PatientId(*patient), std::string(*kind), version, unread_body(text)};
}

std::optional<Event> read_any_event(std::string_view text) {
    try {
        json whole = json::parse(text);
        Event event;
        event.patient = std::move(whole.at("patient").get_ref<std::string&>());
        event.kind = std::move(whole.at("kind").get_ref<std::string&>());
        const auto version = version_of(whole.at("version"));
        if (!version) return std::nullopt;
        event.version = *version;
        event.body = Body(std::move(whole.at("body")));
        return event;
    } catch (const json::exception&) {
        return std::nullopt;
    }
}

std::optional<Event> read_event(std::string_view text) {
    if (text.size() > kEventLimit || depth_of(text) > kDepthLimit) return std::nullopt;
    // The parser takes a NUL for the end of the text and would pass over whatever follows it.
    if (text.find('\0') != std::string_view::npos) return std::nullopt;
    if (auto event = read_own_event(text)) return event;
    return read_any_event(text);
}

Stamp stamp_of(const Row& row) {
    return {to_hex(row.log), row.sequence, row.clock, to_hex(row.author),
            Instant(std::chrono::seconds(row.at))};
}

}  // namespace evenfall
