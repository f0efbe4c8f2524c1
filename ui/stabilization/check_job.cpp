// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/check_job.h"

namespace evenfall::ui {

std::shared_ptr<const Checked> run_check(CheckRequest request, std::stop_token stop) {
    if (stop.stop_requested()) return nullptr;
    auto checked = std::make_shared<Checked>();
    checked->check =
        check_stabilization(request.input, *request.formulary, *request.rules, Zone::of_machine());
    checked->input = std::move(request.input);
    return checked;
}

}  // namespace evenfall::ui
