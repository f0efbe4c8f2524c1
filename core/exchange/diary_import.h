// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "formulary/formulary.h"
#include "model/diary.h"
#include "units/zone.h"

// What reading a diary file into a record would do, row by row. Pure: nothing is written here.

namespace evenfall {

/// What becomes of a row of the file.
enum class ImportStanding {
    added,      ///< it is new
    duplicate,  ///< the record, or an earlier row of the file, holds the same
    faulty
};

struct ImportRow {
    std::size_t line = 0;  ///< of the file; 0: the file as a whole
    ImportStanding standing = ImportStanding::added;
    std::string entry;          ///< "2026-12-01T08:05 lorazepam 1 mg"; empty for a faulty row
    std::string column;         ///< of what is said, where it is known
    std::vector<Message> says;  ///< the reasons of a faulty row; what to look at in a good one

    bool operator==(const ImportRow&) const = default;
};

/// A file held against a record's diary: one of the two lists is filled, by what the file holds.
struct DiaryImport {
    std::vector<ImportRow> rows;
    std::vector<Intake> intake;   ///< what would be added
    std::vector<Rating> ratings;  ///< what would be added
    std::size_t duplicates = 0, faulty = 0;

    /// All or nothing: nothing is faulty, and there is something to add.
    bool can_be_imported() const { return faulty == 0 && !(intake.empty() && ratings.empty()); }
    bool operator==(const DiaryImport&) const = default;
};

/// What a file is held against.
struct ImportGround {
    const Diary& diary;  ///< of the record
    const Formulary& formulary;
    const Zone& zone;
    LocalTime now{};          ///< a later entry is faulty
    std::optional<Day> born;  ///< an entry before this day is faulty
};

/// Whether two entries say the same: time, agent and amount; time, item and severity.
bool same_entry(const Intake& a, const Intake& b);
bool same_entry(const Rating& a, const Rating& b);

/// Reads a file of doses or of symptoms (told apart by its header) and says what importing it would do. Every
/// fault stands in a row with its line, column and reason; a file that cannot be read at all is one faulty
/// row.
DiaryImport preview_diary_csv(std::string_view text, std::string_view file_name, const ImportGround& ground);

/// Whether pieces of the listed products can make an amount. True where no product of the agent is listed.
bool pieces_can_make(const Formulary& formulary, const std::string& drug, Dose amount);

}  // namespace evenfall
