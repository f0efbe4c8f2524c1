// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/demo.h"

#include "exchange/caseload_file.h"
#include "model/strict_json.h"

namespace evenfall::app {
namespace {

constexpr std::size_t kMostBytes = 32u << 20;

/// The caseload lies beside the resources.
std::filesystem::path caseload_file() {
    return resources_folder().parent_path() / "sample_data" / "caseload.json";
}

Result<Desk> open_demo_desk(const Resources& resources, LocalTime now) {
    auto text = read_text_file(caseload_file(), kMostBytes);
    if (!text) return text.faults();
    auto caseload = read_caseload(*text, "caseload.json");
    if (!caseload) return caseload.faults();
    CaseloadFile told = told_as_of(std::move(*caseload), now);
    const Instant at = Zone::of_machine().to_instant(now).instant;
    auto log = log_in_memory(
        "demo", [at] { return at; }, std::move(told.events));
    const Worker worker{"demo", "Demo prescriber", Role::prescriber, "demo"};
    return Desk::open(std::move(log), resources.formulary, resources.rules, worker);
}

}  // namespace

std::optional<Desk> demo_desk(const Resources& resources, LocalTime now) {
    auto desk = open_demo_desk(resources, now);
    if (desk) return std::move(*desk);
    print_faults(desk.faults(), resources.texts);
    return std::nullopt;
}

}  // namespace evenfall::app
