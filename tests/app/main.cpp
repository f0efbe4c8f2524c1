// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/support/offscreen.h"

int main(int count, char** words) {
    return evenfall::ui::run_offscreen(count, words);
}
