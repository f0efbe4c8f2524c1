// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace evenfall::app {

/// Whether the display platform that Qt is asked for keeps to this machine: xcb, wayland or offscreen. Others
/// (vnc, for one) would open a network socket.
bool platform_is_local();

/// Whether there is anything to open a window on: Qt ends the program where there is not.
bool display_is_there();

}  // namespace evenfall::app
