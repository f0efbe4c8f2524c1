// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_data/story.h"

namespace evenfall::sample {

/// Calls every `every` days from `from`, the last on `last` at the latest: all danger questions answered no.
void call(Story& story, Day from, Day last, int every, Draws& draws);

/// One call with these questions answered yes.
void call_with_danger(Story& story, Day on, const std::vector<std::string>& yes,
                      const std::string& own_words);

/// Scale answers every four weeks up to the day before the day told; `low` and `mood` are usual answers in
/// tenths. The question about suicide is answered 0 but for the last time, where `last_thoughts` is given.
void score(Story& story, Day from, int mood_tenths, int worry_tenths, int last_thoughts, Draws& draws);

/// Counts on `on` so much at home that the plan can be made through `last`, and no longer.
void count_supply(Story& story, Day on, const Plan& plan, Day last);

/// The dose stays from a day on: what was to come after it is no longer meant.
void hold(Story& story, Day from, Day review_on, const std::string& reason);

/// Written in the week before the day told.
void plan_contact(Story& story, Day on, const std::string& how);

}  // namespace evenfall::sample
