// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store_exchange.h"

#include <chrono>
#include <filesystem>
#include <iostream>

#include "app/store_access.h"
#include "casework/conflicts.h"
#include "casework/safekeeping.h"
#include "casework/store_log.h"
#include "store/exchange_file.h"

namespace evenfall::app {
namespace {

Instant instant_now() {
    return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
}

Exit refused(const Faults& faults, const Texts& texts) {
    print_faults(faults, texts);
    return Exit::store_refuses;
}

void print_report(const MergeReport& report, const Texts& texts) {
    std::cout << texts.text("app-store-merged", {{"rows", std::to_string(report.gained)},
                                                 {"forks", std::to_string(report.forks.size())}})
              << '\n';
    for (const auto& [log, from] : report.forks)
        std::cout << texts.text("app-store-fork", {{"log", log.substr(0, 8)}, {"row", std::to_string(from)}})
                  << '\n';
}

/// What both laptops did and only a person can settle.
Exit print_conflicts(Store store, const Resources& resources) {
    const Worker worker = worker_of(store);
    auto desk = Desk::open(std::make_unique<StoreLog>(std::move(store)), resources.formulary, resources.rules,
                           worker);
    if (!desk) return refused(desk.faults(), resources.texts);
    Faults faults;
    for (const Conflict& each : conflicts_of(desk->caseload(machine_time(), faults)))
        std::cout << each.reference << ": " << desk->rules().sentence(each.flag) << '\n';
    return faults.empty() ? Exit::done : refused(faults, resources.texts);
}

}  // namespace

Exit join_store(const ExchangeAsked& asked, const Resources& resources) {
    const auto passphrase = read_passphrase(asked.access.passphrase_file, resources.texts);
    if (!passphrase) return Exit::input_wrong;
    const auto joined =
        join_clinic(asked.file, asked.other, asked.access.user, *passphrase, store_options(resources.rules));
    if (!joined) return refused(joined.faults(), resources.texts);
    std::cout << resources.texts.text("app-store-joined",
                                      {{"clinic", joined->clinic()}, {"name", joined->user().grant.name}})
              << std::endl;
    return Exit::done;
}

Exit export_store(const ExchangeAsked& asked, const Resources& resources) {
    auto store = open_store(asked.file, asked.access, resources);
    if (!store) return Exit::store_refuses;
    std::filesystem::path to = asked.other;
    std::error_code ignored;
    if (std::filesystem::is_directory(to, ignored)) to /= exchange_name(*store, instant_now());
    const auto written = write_exchange(*store, to, asked.replace);
    if (!written) return refused(written.faults(), resources.texts);
    std::cout << to.string() << std::endl;
    return Exit::done;
}

Exit import_store(const ExchangeAsked& asked, const Resources& resources) {
    auto store = open_store(asked.file, asked.access, resources);
    if (!store) return Exit::store_refuses;
    const auto report = store->merge(asked.other);
    if (!report) return refused(report.faults(), resources.texts);
    print_report(*report, resources.texts);
    const bool forked = !report->forks.empty();
    const Exit shown = print_conflicts(std::move(*store), resources);
    std::cout << std::flush;
    return forked ? Exit::store_refuses : shown;
}

}  // namespace evenfall::app
