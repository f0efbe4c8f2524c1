// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "units/result.h"

namespace evenfall {

/// A table read from CSV (RFC 4180): the header's names and the rows, each as long as the header.
struct CsvTable {
    struct Row {
        std::size_t line = 0;  ///< of the file, from 1, where the row begins
        std::vector<std::string> cells;
    };
    std::vector<std::string> header;
    std::vector<Row> rows;
};

/// Reads CSV text: UTF-8 with or without a byte-order mark, LF or CRLF, quoted commas. Faults, each with file
/// and row: `csv-empty`, `csv-not-utf8`, `csv-nul`, `csv-quote`, `csv-columns`, `csv-too-large` (32 MiB),
/// `csv-too-many-rows` (200 000).
Result<CsvTable> read_csv(std::string_view text, std::string_view file_name);

/// One cell, quoted where it has to be; one that a spreadsheet would take for a formula is put in quotes
/// behind an apostrophe.
std::string csv_cell(std::string_view text);

}  // namespace evenfall
