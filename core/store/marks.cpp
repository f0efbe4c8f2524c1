// SPDX-License-Identifier: GPL-3.0-or-later
#include <charconv>

#include "store/logs.h"

namespace evenfall {

namespace {

constexpr std::size_t kLogDigits = 8;
constexpr std::size_t kHashDigits = 16;

bool is_hex(std::string_view text, std::size_t length) {
    return text.size() == length && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

/// Whether a row of the file is what a mark says.
bool has_row(sql::Database& db, const Mark& mark) {
    for (const Bytes& log : logs_of(db)) {
        if (!to_hex(log).starts_with(mark.log)) continue;
        const bool reaches = mark.sequence >= 1 && mark.sequence <= last_sequence(db, log);
        if (reaches && to_hex(tail_at(db, log, mark.sequence).hash).starts_with(mark.hash)) return true;
    }
    return false;
}

}  // namespace

std::string print_mark(const LogId& log, const Head& head) {
    return log.substr(0, kLogDigits) + "-" + std::to_string(head.sequence) + "-" +
           head.hash.substr(0, kHashDigits);
}

Result<Mark> read_mark(std::string_view typed) {
    const Fault fault{"mark-shape", "mark", {{"text", std::string(typed.substr(0, 80))}}};
    const auto first = typed.find('-');
    const auto second = typed.find('-', first == std::string_view::npos ? first : first + 1);
    if (second == std::string_view::npos) return fault;
    Mark mark{std::string(typed.substr(0, first)), 0, std::string(typed.substr(second + 1))};
    const std::string_view number = typed.substr(first + 1, second - first - 1);
    const auto read = std::from_chars(number.data(), number.data() + number.size(), mark.sequence);
    const bool whole =
        read.ec == std::errc() && read.ptr == number.data() + number.size() && mark.sequence > 0;
    if (!whole || !is_hex(mark.log, kLogDigits) || !is_hex(mark.hash, kHashDigits)) return fault;
    return mark;
}

Faults Store::missing(const std::vector<Mark>& marks) {
    Faults faults;
    const auto looked = guarded<Done>([&]() -> Result<Done> {
        for (const Mark& mark : marks)
            if (!has_row(state_->db, mark))
                faults.push_back({"head-missing",
                                  mark.log + " " + std::to_string(mark.sequence),
                                  {{"log", mark.log}, {"row", std::to_string(mark.sequence)}}});
        return Done{};
    });
    if (!looked) return looked.faults();
    return faults;
}

Result<Heads> Store::heads_of_file(const std::filesystem::path& other) {
    return guarded<Heads>([&]() -> Result<Heads> {
        sql::Database theirs = open_file_of_clinic(*state_, other);
        return heads_of(theirs);
    });
}

}  // namespace evenfall
