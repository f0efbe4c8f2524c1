// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/schedule_text.h"

#include "fuzz/support.h"

using namespace evenfall;

/// What is read and written out again reads the same.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const auto formulary = load_formulary(fuzz::resources() / "formulary.json");
    const auto read = read_schedule_text(fuzz::text_of(data, size), *formulary);
    if (!read) return 0;
    const auto again = read_schedule_text(write_schedule_text(*read), *formulary);
    fuzz::promise(again.ok() && again->size() == read->size());
    return 0;
}
