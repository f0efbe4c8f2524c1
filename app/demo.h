// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <future>

#include "app/basis.h"
#include "casework/desk.h"

namespace evenfall::app {

/// A desk on a throw-away copy of the invented caseload, told as of `now`, in memory: nothing of it
/// stays. On failure the faults are on standard error.
std::optional<Desk> demo_desk(const Resources& resources, LocalTime now);

/// The demo with what it rests on.
struct Demo {
    Resources resources;
    Desk desk;
    LocalTime now{};
};

/// Loads the demo on another thread, so that the window system can be reached meanwhile; the desk is handed
/// over with its list already derived. Empty where a fault was told on standard error.
std::future<std::optional<Demo>> begin_demo(LocalTime now);

}  // namespace evenfall::app
