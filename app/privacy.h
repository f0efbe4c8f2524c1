// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace evenfall::app {

/// Should the program crash, no dump of its memory is written: decrypted records lie there while a window is
/// open. To be called before anything is read.
void leave_no_dumps();

/// Dialogs for files are Qt's own, and neither they nor the desktop remember what was opened or saved: a
/// paper's file name and a person's folder would else stand in a list of recent files. To be called before
/// the application is made.
void leave_no_recent_files();

}  // namespace evenfall::app
