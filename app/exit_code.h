// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace evenfall::app {

/// What the program's exit status says.
enum class Exit {
    done = 0,
    input_wrong = 1,  ///< one line on standard error for each fault
    command_wrong = 2,
    store_refuses = 3,
    our_fault = 4
};

}  // namespace evenfall::app
