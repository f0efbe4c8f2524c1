// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include "app/basis.h"
#include "app/demo.h"
#include "shell/main_window.h"

namespace evenfall::app {

/// The pages of the window, in the order of their tabs.
std::vector<ui::PageMaker> all_pages();

/// A desk on a log, its workbench and the window, kept together for as long as the window lives.
class Workplace {
  public:
    Workplace(Desk desk, Texts texts, std::function<LocalTime()> now, ui::WindowServices services = {});
    ~Workplace();

    ui::Workbench& workbench() { return *workbench_; }
    ui::MainWindow& window() { return *window_; }

  private:
    std::unique_ptr<ui::Workbench> workbench_;
    std::unique_ptr<ui::MainWindow> window_;
};

/// What every window of ours needs before it is made: names, fonts, theme, guards. Call once, after
/// QApplication.
void prepare_application();

/// Opens the window on the demo that is being loaded.
Exit open_demo(std::future<std::optional<Demo>> loading);

}  // namespace evenfall::app
