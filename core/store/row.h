// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "record/event.h"
#include "store/bytes.h"
#include "store/secret.h"
#include "store/sqlite.h"

namespace evenfall {

/// The length of an event's text at most; longer ones are refused before they are written.
inline constexpr std::size_t kEventLimit = 4 << 20;
/// How deep an event's body may be nested.
inline constexpr int kDepthLimit = 64;

/// One row of a log as the file holds it. All numbers and ids are bound to the sealed text (they are its
/// associated data) and to the row's hash, which the next row of the log and the author's signature take up.
struct Row {
    Bytes patient;  ///< 16 bytes: keyed hash of the patient's id
    std::int64_t clock = 0;
    Bytes log;                  ///< 16 bytes
    std::int64_t sequence = 0;  ///< from 1 within the log
    std::int64_t number = 0;  ///< from 1 within the log and patient, so that a missing row is seen on reading
    std::int64_t at = 0;      ///< seconds since 1970 by the machine's clock
    Bytes event;              ///< 16 bytes
    Bytes author;             ///< 16 bytes
    std::int64_t epoch = 1;   ///< which data key sealed it
    Bytes previous;           ///< 32 bytes: hash of the row before in its log, zeros for the first
    Bytes hash;               ///< 32 bytes: BLAKE2b of all the above and the sealed text
    /// 64 bytes, or empty where a later row of the same append carries it (hashes chain, so it covers both).
    /// Whether it is empty is hashed too; its bytes cannot be, since they are made of the hash.
    Bytes signature;
    Bytes sealed;
};

/// What the columns are called, in the order in which `read_row` and `write_row` take them.
inline constexpr std::string_view kRowColumns =
    "patient, clock, log, sequence, number, at, event, author, epoch, previous, hash, signature, sealed";

/// The bytes that the seal is bound to. The row's hash is that of these and the sealed text.
Bytes associated_data(const Row& row, std::string_view clinic);
/// The same into bytes that are there already, whose memory is used again.
void associated_data_into(Bytes& data, const Row& row, std::string_view clinic);
/// The bytes that an author signs.
Bytes signed_bytes(std::string_view row_hash);

Row read_row(const sql::Statement& statement);
/// The same into a row that is there already, whose memory is used again.
void read_row_into(Row& row, const sql::Statement& statement);
void write_row(sql::Statement& insert, const Row& row);

/// The text of an event as it is sealed. Faults: `event-not-text` (bytes that are not UTF-8),
/// `event-too-long`, `event-too-deep`.
Result<Bytes> event_text(const Event& event);
/// The event of a text; nothing if the text is not one.
std::optional<Event> read_event(std::string_view text);
/// Its two ways, which must agree: the one for a text laid out as `event_text` lays it out, which builds no
/// tree of the whole (nothing for any other text), and the one for any text. Size, depth and NULs are
/// checked before them.
std::optional<Event> read_own_event(std::string_view text);
std::optional<Event> read_any_event(std::string_view text);

/// The stamp that a row gives its event.
Stamp stamp_of(const Row& row);

}  // namespace evenfall
