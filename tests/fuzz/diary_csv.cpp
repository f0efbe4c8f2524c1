// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/diary_csv.h"

#include "fuzz/support.h"

using namespace evenfall;

namespace {

/// What is written out is read again, entry for entry. A cell that a spreadsheet would run comes back behind
/// an apostrophe, once: from then on nothing changes any more.
template <class Read, class Write>
void promise_round_trip(std::string_view text, Read read, Write write) {
    const auto first = read(text);
    if (!first) return;
    const std::string once = write(first->entries);
    const auto second = read(once);
    fuzz::promise(second.ok() && second->entries.size() == first->entries.size());
    const std::string twice = write(second->entries);
    const auto third = read(twice);
    fuzz::promise(third.ok() && third->entries == second->entries);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const auto formulary = load_formulary(fuzz::resources() / "formulary.json");
    static const Zone zone = Zone::of_machine();
    const std::string_view text = fuzz::text_of(data, size);
    const auto read_intake = [](std::string_view from) {
        return read_intake_csv(from, "diary.csv", *formulary, zone);
    };
    const auto read_ratings = [](std::string_view from) { return read_ratings_csv(from, "diary.csv", zone); };
    promise_round_trip(text, read_intake, write_intake_csv);
    promise_round_trip(text, read_ratings, write_ratings_csv);
    static_cast<void>(read_intake_rows(text, "diary.csv", *formulary, zone));
    static_cast<void>(read_rating_rows(text, "diary.csv", zone));
    return 0;
}
