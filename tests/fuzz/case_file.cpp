// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/case_file.h"

#include "fuzz/support.h"

using namespace evenfall;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const auto formulary = load_formulary(fuzz::resources() / "formulary.json");
    fuzz::promise(formulary.ok());
    const auto read = read_case(fuzz::text_of(data, size), "case.json", "/nowhere", *formulary,
                                at_clock(day_at(2026, 12, 20), {9 * 60}));
    fuzz::promise(read.ok() || !read.faults().empty());
    return 0;
}
