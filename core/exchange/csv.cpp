// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/csv.h"

#include <algorithm>
#include <memory>

#include <csv.h>

namespace evenfall {
namespace {

constexpr std::size_t kMostBytes = 32u << 20;
constexpr std::size_t kMostRows = 200'000;

Fault fault(std::string id, std::string_view file, std::size_t line = 0, Args args = {}) {
    std::string place(file);
    if (line > 0) place += ", row " + std::to_string(line);
    return {std::move(id), std::move(place), std::move(args)};
}

/// The first byte at which the text is not well-formed UTF-8 (RFC 3629), or its size.
std::size_t first_not_utf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const auto lead = static_cast<unsigned char>(text[at]);
        const std::size_t length = lead < 0x80   ? 1
                                   : lead < 0xC2 ? 0
                                   : lead < 0xE0 ? 2
                                   : lead < 0xF0 ? 3
                                   : lead < 0xF5 ? 4
                                                 : 0;
        if (length == 0 || at + length > text.size()) return at;
        for (std::size_t i = 1; i < length; ++i)
            if ((static_cast<unsigned char>(text[at + i]) & 0xC0) != 0x80) return at;
        const auto second = length > 1 ? static_cast<unsigned char>(text[at + 1]) : 0;
        if ((lead == 0xE0 && second < 0xA0) || (lead == 0xED && second > 0x9F) ||
            (lead == 0xF0 && second < 0x90) || (lead == 0xF4 && second > 0x8F))
            return at;
        at += length;
    }
    return text.size();
}

/// The name that the header has for a cell, its number from 1 where that cannot be read.
std::string column_name(std::string_view text, std::size_t cell) {
    std::string_view header = text.substr(0, text.find_first_of("\r\n"));
    for (std::size_t skipped = 0; skipped < cell && !header.empty(); ++skipped)
        header.remove_prefix(std::min(header.size(), header.find(',') + 1));
    const std::string_view name = header.substr(0, header.find(','));
    const bool plain =
        !name.empty() && name.find_first_not_of("abcdefghijklmnopqrstuvwxyz_") == std::string_view::npos;
    return plain ? std::string(name) : std::to_string(cell + 1);
}

/// A fault at one byte of the text, with the row (by the line on which it begins) and the column.
Fault fault_at(std::string id, std::string_view file, std::string_view text, std::size_t at) {
    std::size_t line = 1, row = 1, cell = 0;
    bool quoted = false;
    for (const char c : text.substr(0, at)) {
        if (c == '"') quoted = !quoted;
        if (c == '\n') ++line;
        if (quoted) continue;
        if (c == ',') ++cell;
        if (c == '\n') cell = 0, row = line;
    }
    Fault found = fault(std::move(id), file, row);
    found.place += ", column " + column_name(text, cell);
    return found;
}

/// What libcsv's callbacks fill.
struct Reading {
    CsvTable table;
    std::vector<std::string> cells;
    std::size_t line = 1;  ///< on which the row being read began
    std::size_t next_line = 1;
    std::string_view file;
    Faults faults;
};

void end_cell(void* bytes, std::size_t size, void* context) {
    auto& reading = *static_cast<Reading*>(context);
    reading.cells.emplace_back(bytes ? std::string(static_cast<const char*>(bytes), size) : std::string());
    for (const char c : reading.cells.back()) reading.next_line += c == '\n';
}

/// Called for every line end outside quotes, for both signs of CRLF, and once at the end of the text.
void end_row(int sign, void* context) {
    auto& reading = *static_cast<Reading*>(context);
    std::vector<std::string> cells = std::move(reading.cells);
    reading.cells.clear();
    const std::size_t line = reading.line;
    if (sign == '\n') ++reading.next_line;
    if (sign != '\r') reading.line = reading.next_line;
    if (cells.empty()) return;  // an empty line, or the second sign of CRLF
    if (reading.table.header.empty()) {
        reading.table.header = std::move(cells);
    } else if (cells.size() != reading.table.header.size()) {
        reading.faults.push_back(fault("csv-columns", reading.file, line,
                                       {{"found", std::to_string(cells.size())},
                                        {"expected", std::to_string(reading.table.header.size())}}));
    } else {
        reading.table.rows.push_back({line, std::move(cells)});
    }
}

}  // namespace

Result<CsvTable> read_csv(std::string_view text, std::string_view file_name) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
    if (text.empty()) return fault("csv-empty", file_name);
    if (text.size() > kMostBytes) return fault("csv-too-large", file_name);
    if (const auto at = text.find('\0'); at != std::string_view::npos)
        return fault_at("csv-nul", file_name, text, at);
    if (const auto at = first_not_utf8(text); at < text.size())
        return fault_at("csv-not-utf8", file_name, text, at);

    csv_parser parser;
    if (csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI | CSV_APPEND_NULL | CSV_REPALL_NL) != 0)
        return fault("csv-too-large", file_name);
    const std::unique_ptr<csv_parser, decltype(&csv_free)> owner(&parser, &csv_free);
    Reading reading;
    reading.file = file_name;
    const std::size_t read = csv_parse(&parser, text.data(), text.size(), end_cell, end_row, &reading);
    if (read != text.size() || csv_fini(&parser, end_cell, end_row, &reading) != 0)
        reading.faults.push_back(fault("csv-quote", file_name, reading.line));
    if (reading.table.rows.size() > kMostRows) return fault("csv-too-many-rows", file_name);
    if (!reading.faults.empty()) return reading.faults;
    if (reading.table.header.empty()) return fault("csv-empty", file_name);
    return std::move(reading.table);
}

std::string csv_cell(std::string_view text) {
    std::string safe(text);
    if (!safe.empty() && std::string_view("=+-@\t\r").find(safe.front()) != std::string_view::npos &&
        safe.find_first_not_of("0123456789.-+eE") != std::string::npos)
        safe.insert(safe.begin(), '\'');
    if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
    std::string quoted(csv_write2(nullptr, 0, safe.data(), safe.size(), '"'), '\0');
    csv_write2(quoted.data(), quoted.size(), safe.data(), safe.size(), '"');
    return quoted;
}

}  // namespace evenfall
