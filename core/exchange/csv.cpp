// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/csv.h"

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

/// Whether the text is well-formed UTF-8 (RFC 3629), and the line on which it is not.
bool is_utf8(std::string_view text, std::size_t& line) {
    line = 1;
    for (std::size_t at = 0; at < text.size();) {
        const auto lead = static_cast<unsigned char>(text[at]);
        if (lead == '\n') ++line;
        const std::size_t length = lead < 0x80   ? 1
                                   : lead < 0xC2 ? 0
                                   : lead < 0xE0 ? 2
                                   : lead < 0xF0 ? 3
                                   : lead < 0xF5 ? 4
                                                 : 0;
        if (length == 0 || at + length > text.size()) return false;
        for (std::size_t i = 1; i < length; ++i)
            if ((static_cast<unsigned char>(text[at + i]) & 0xC0) != 0x80) return false;
        const auto second = length > 1 ? static_cast<unsigned char>(text[at + 1]) : 0;
        if ((lead == 0xE0 && second < 0xA0) || (lead == 0xED && second > 0x9F) ||
            (lead == 0xF0 && second < 0x90) || (lead == 0xF4 && second > 0x8F))
            return false;
        at += length;
    }
    return true;
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
    if (text.find('\0') != std::string_view::npos) return fault("csv-nul", file_name);
    std::size_t line = 0;
    if (!is_utf8(text, line)) return fault("csv-not-utf8", file_name, line);

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
