// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "model/diary.h"
#include "model/regimen.h"
#include "units/zone.h"

namespace evenfall::kinetics {

/// A dose taken `time_h` real hours after some origin; before it where negative. A difference of two dosings
/// may be expressed with negative amounts: the model is linear.
struct TimedDose {
    double time_h = 0;
    double mg = 0;

    friend auto operator<=>(const TimedDose&, const TimedDose&) = default;
};

/// A dose taken every day at `at_h` hours after the day's start, 0 up to 24.
struct DailyDose {
    double at_h = 0;
    double mg = 0;

    friend auto operator<=>(const DailyDose&, const DailyDose&) = default;
};

/// Milligrams a day.
double daily_mg(const std::vector<DailyDose>& doses);

/// The doses of one agent of a regimen, in order of time.
std::vector<DailyDose> daily_doses(const Regimen& regimen, const std::string& drug);

/// Real hours from `origin` to `time`: over a clock change a civil day has 23 or 25 of them.
double hours_between(LocalTime origin, LocalTime time, const Zone& zone);

/// Every dose of `drug` from the start of the civil day `from` to the end of the day before `until`, as the
/// regimens say: each is in force from its day until the next one's; of two that begin on one day the later
/// in the list counts; before the first there is nothing. A dose time that the clock skips is taken as many
/// real hours after the dose before it as ever; one that comes twice is taken the first time. In order of
/// time, then amount.
std::vector<TimedDose> timed_doses(const std::vector<DatedRegimen>& regimens, const std::string& drug,
                                   Day from, Day until, LocalTime origin, const Zone& zone);

/// The doses of `drug` that were taken, in any order before; afterwards in order of time, then amount.
std::vector<TimedDose> timed_doses(const std::vector<Intake>& intake, const std::string& drug,
                                   LocalTime origin, const Zone& zone);

}  // namespace evenfall::kinetics
