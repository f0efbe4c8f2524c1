// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "fuzz/support.h"
#include "store/plain_json.h"
#include "store/row.h"

using namespace evenfall;

/// The text under a seal is what another laptop of the clinic wrote: it may be anything. What is read as an
/// event reads the same when it is written again.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto whole = fuzz::text_of(data, size);
    fuzz::promise(!is_plain_json(whole) || nlohmann::json::accept(whole));
    const auto event = read_event(whole);
    // The short way must not take what the long way refuses, nor read it otherwise.
    if (const auto own = event ? read_own_event(whole) : std::nullopt)
        fuzz::promise(own == read_any_event(whole));
    if (!event) return 0;
    const auto text = event_text(*event);
    if (!text) return 0;  // longer once it is written in our way
    const auto again = read_event(*text);
    fuzz::promise(again && *again == *event);
    return 0;
}
