// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "controls/messages.h"

namespace evenfall::ui {

struct PageMaker;

/// Every key of the window.
class KeysOverview : public QuietDialog {
    Q_OBJECT
  public:
    explicit KeysOverview(const std::vector<PageMaker>& pages, QWidget* parent = nullptr);
};

}  // namespace evenfall::ui
