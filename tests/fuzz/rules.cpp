// SPDX-License-Identifier: GPL-3.0-or-later
#include "rules/rules.h"

#include "fuzz/support.h"

/// Every sentence of rules that were accepted can be told.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto read = evenfall::Rules::parse(evenfall::fuzz::text_of(data, size), "rules.json");
    if (!read) return 0;
    for (const auto& [id, rule] : read->all()) {
        evenfall::Flag flag;
        flag.rule = id;
        const bool told = read->sentence(flag).size() < (std::size_t{1} << 24);
        evenfall::fuzz::promise(told && read->source(id) == rule.source);
    }
    return 0;
}
