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

Result<CaseloadFile> read_told_caseload(LocalTime now) {
    auto text = read_text_file(caseload_file(), kMostBytes);
    if (!text) return text.faults();
    auto caseload = read_caseload(*text, "caseload.json");
    if (!caseload) return caseload.faults();
    return told_as_of(std::move(*caseload), now);
}

Result<Desk> sit_down(Result<CaseloadFile> told, const Resources& resources, LocalTime now) {
    if (!told) return told.faults();
    const Instant at = Zone::of_machine().to_instant(now).instant;
    auto log = log_in_memory(
        "demo", [at] { return at; }, std::move(told->events));
    const Worker worker{"demo", "Demo prescriber", Role::prescriber, "demo"};
    return Desk::open(std::move(log), resources.formulary, resources.rules, worker);
}

/// The desk, or its faults on standard error.
std::optional<Desk> told(Result<Desk> desk, const Resources& resources) {
    if (desk) return std::move(*desk);
    print_faults(desk.faults(), resources.texts);
    return std::nullopt;
}

}  // namespace

std::optional<Desk> demo_desk(const Resources& resources, LocalTime now) {
    return told(sit_down(read_told_caseload(now), resources, now), resources);
}

std::future<std::optional<Demo>> begin_demo(LocalTime now) {
    return std::async(std::launch::async, [now]() -> std::optional<Demo> {
        auto caseload = std::async(std::launch::async, read_told_caseload, now);
        auto resources = load_resources();
        if (!resources) return std::nullopt;
        auto desk = told(sit_down(caseload.get(), *resources, now), *resources);
        if (!desk) return std::nullopt;
        Faults faults;
        desk->caseload(now, faults);  // derived here, and kept by the desk
        print_faults(faults, resources->texts);
        return Demo{std::move(*resources), std::move(*desk), now};
    });
}

}  // namespace evenfall::app
