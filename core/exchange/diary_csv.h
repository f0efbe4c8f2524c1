// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>
#include <vector>

#include "formulary/formulary.h"
#include "model/diary.h"
#include "units/zone.h"

namespace evenfall {

/// What a diary file held: everything, or nothing and the faults.
template <class T>
struct DiaryRows {
    std::vector<T> entries;
    std::vector<std::size_t> lines;  ///< of the file, one for each entry
    std::vector<Message> notes;      ///< times that came twice

    bool operator==(const DiaryRows&) const = default;
};

/// One row of a diary file, for a preview: its entry, or what is wrong with it.
template <class T>
struct DiaryRowRead {
    std::size_t line = 0;  ///< of the file
    T entry;               ///< meaningless where there are faults
    Faults faults;

    bool operator==(const DiaryRowRead&) const = default;
};

/// The same readings, row by row, good and faulty rows beside each other. Faults: those of the file as a
/// whole (its text, its columns).
Result<std::vector<DiaryRowRead<Intake>>> read_intake_rows(std::string_view text, std::string_view file_name,
                                                           const Formulary& formulary, const Zone& zone);
Result<std::vector<DiaryRowRead<Rating>>> read_rating_rows(std::string_view text, std::string_view file_name,
                                                           const Zone& zone);

/// Reads "taken_at,drug,amount_mg[,why][,note]". Faults name row and column: those of CSV and of `units`,
/// `csv-column-missing`, `csv-column-unknown`, `case-drug-unknown`, `amount-zero`, `csv-why-unknown`,
/// `case-time-skipped`.
Result<DiaryRows<Intake>> read_intake_csv(std::string_view text, std::string_view file_name,
                                          const Formulary& formulary, const Zone& zone);

/// Reads "rated_at,item,severity". Faults besides: `score-out-of-range`, `item-missing`.
Result<DiaryRows<Rating>> read_ratings_csv(std::string_view text, std::string_view file_name,
                                           const Zone& zone);

/// Writes what the readers read.
std::string write_intake_csv(const std::vector<Intake>& entries);
std::string write_ratings_csv(const std::vector<Rating>& entries);

}  // namespace evenfall
