// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store_people.h"

#include <algorithm>
#include <filesystem>
#include <memory>
#include <tuple>

#include <fnmatch.h>

#include "app/store_access.h"
#include "casework/store_log.h"

namespace evenfall::app {
namespace {

/// A reference is no path: "*" also stands for a slash.
bool is_meant(const StoreName& name, const PatientId& patient, const std::string& reference) {
    if (name.several) return fnmatch(name.who.c_str(), reference.c_str(), 0) == 0;
    return reference == name.who || patient == name.who;
}

Fault doubled(const StoreName& name, const std::string& reference, const std::vector<PatientId>& bearers) {
    std::string records;
    for (const PatientId& each : bearers) records += (records.empty() ? "" : ", ") + each;
    return Fault{"app-reference-doubled",
                 name.file,
                 {{"text", reference}, {"records", records}, {"one", name.file + "#" + bearers.front()}}};
}

}  // namespace

std::optional<StoreName> in_store(const std::string& named) {
    std::error_code error;
    const auto hash = named.rfind('#');
    if (hash == std::string::npos || std::filesystem::exists(named, error)) return std::nullopt;
    std::string who = named.substr(hash + 1);
    const bool pattern = who.find_first_of("*?") != std::string::npos;
    return StoreName{named.substr(0, hash), std::move(who), pattern};
}

NamedPeople people_named(Desk& desk, const StoreName& name) {
    NamedPeople named;
    std::map<std::string, std::vector<PatientId>> bearers;
    for (const PatientId& patient : desk.patients()) {
        const auto record = desk.record(patient);
        if (!record) {
            named.unreadable[patient] = record.faults();
            continue;
        }
        if (!(*record)->person) continue;
        const std::string& reference = (*record)->person->value.reference;
        if (!is_meant(name, patient, reference)) continue;
        named.people.push_back(patient);
        named.references[patient] = reference;
        bearers[name.several ? reference : name.who].push_back(patient);
    }
    for (const auto& [reference, people] : bearers)
        if (people.size() > 1) named.doubled[reference] = {doubled(name, reference, people)};
    const auto reference_of = [&](const PatientId& patient) {
        return std::tie(named.references[patient], patient);
    };
    std::ranges::sort(named.people, {}, reference_of);
    return named;
}

std::optional<PatientId> one_named(const NamedPeople& named, const StoreName& name, const Texts& texts,
                                   Exit& exit) {
    for (const auto& [reference, faults] : named.doubled) print_faults(faults, texts);
    exit = Exit::input_wrong;
    if (!named.doubled.empty()) return std::nullopt;
    if (named.people.empty()) {
        // Whoever was asked for may be one of those who cannot be read.
        for (const auto& [patient, faults] : named.unreadable) print_faults(faults, texts);
        if (!named.unreadable.empty()) exit = Exit::store_refuses;
        print_faults({{"patient-unknown", name.file, {{"text", name.who}}}}, texts);
        return std::nullopt;
    }
    if (!named.unreadable.empty())
        print_error(texts.text("app-others-unreadable",
                               {{"store", name.file}, {"count", std::to_string(named.unreadable.size())}}));
    exit = Exit::done;
    return named.people.front();
}

std::optional<Desk> open_store_desk(const std::string& file, const StoreAccess& access,
                                    const Resources& resources) {
    auto store = open_store(file, access, resources);
    if (!store) return std::nullopt;
    const Worker worker = worker_of(*store);
    auto desk = Desk::open(std::make_unique<StoreLog>(std::move(*store)), resources.formulary,
                           resources.rules, worker);
    if (desk) return std::move(*desk);
    print_faults(desk.faults(), resources.texts);
    return std::nullopt;
}

}  // namespace evenfall::app
