// SPDX-License-Identifier: GPL-3.0-or-later
#include "formulary/formulary.h"

#include "fuzz/support.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto read = evenfall::parse_formulary(evenfall::fuzz::text_of(data, size), "formulary.json");
    evenfall::fuzz::promise(read.ok() || !read.faults().empty());
    return 0;
}
