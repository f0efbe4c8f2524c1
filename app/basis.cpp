// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/basis.h"

#include <chrono>
#include <filesystem>
#include <iostream>
#include <iterator>

#include "app/store_access.h"
#include "casework/in_force.h"
#include "casework/store_log.h"
#include "exchange/case_file.h"
#include "exchange/case_record.h"
#include "model/strict_json.h"

namespace evenfall::app {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostBytes = 32u << 20;

template <class T>
bool loaded(Result<T> result, T& target, Faults& faults) {
    return take(std::move(result), target, faults);
}

Result<std::string> read_standard_input() {
    std::string text(std::istreambuf_iterator<char>(std::cin), {});
    if (text.size() > kMostBytes) return Fault{"json-too-large", "standard input", {}};
    return text;
}

/// "clinic.evenfall#river-17": the part before the last '#' is a file, and the whole is not.
std::optional<std::pair<std::string, std::string>> store_and_reference(const std::string& named) {
    std::error_code error;
    const auto hash = named.rfind('#');
    if (hash == std::string::npos || fs::exists(named, error)) return std::nullopt;
    return std::pair{named.substr(0, hash), named.substr(hash + 1)};
}

std::optional<CaseSource> read_from_store(const std::string& file, const std::string& reference,
                                          const StoreAccess& access, const Resources& resources, Exit& exit) {
    exit = Exit::store_refuses;
    auto store = open_store(file, access, resources);
    if (!store) return std::nullopt;
    const Worker worker = worker_of(*store);
    auto desk = Desk::open(std::make_unique<StoreLog>(std::move(*store)), resources.formulary,
                           resources.rules, worker);
    if (!desk) {
        print_faults(desk.faults(), resources.texts);
        return std::nullopt;
    }
    for (const PatientId& patient : desk->patients()) {
        auto record = desk->record(patient);
        if (!record || !(*record)->person || (*record)->person->value.reference != reference) continue;
        if (auto noted = desk->note_opened(patient, day_of(machine_time())); !noted) {
            print_faults(noted.faults(), resources.texts);
            return std::nullopt;
        }
        Case given = case_of(**record, desk->clinic(), {worker.name, worker.licence}, machine_time());
        given.prices = prices_in_force(desk->clinic_record());
        return CaseSource{std::move(given), file, reference};
    }
    print_faults({{"patient-unknown", file, {{"text", reference}}}}, resources.texts);
    exit = Exit::input_wrong;
    return std::nullopt;
}

}  // namespace

std::optional<Resources> load_resources(std::string_view language) {
    const fs::path folder = resources_folder();
    Faults faults;
    Formulary formulary;
    Rules rules;
    Texts texts;
    Scales scales;
    loaded(Texts::load(folder, language), texts, faults);
    loaded(load_formulary(folder / "formulary.json"), formulary, faults);
    loaded(Rules::load(folder / "rules.json"), rules, faults);
    loaded(load_scales(folder / "scales.json"), scales, faults);
    if (!faults.empty()) {
        print_faults(faults, texts);
        return std::nullopt;
    }
    return Resources{std::move(formulary), std::move(rules), std::move(texts), std::move(scales)};
}

LocalTime machine_time() {
    const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
    return Zone::of_machine().to_local(now);
}

void print_error(const std::string& line) {
    std::cerr << "evenfall: " << line << '\n';
}

void print_faults(const Faults& faults, const Texts& texts) {
    for (const Fault& fault : faults) print_error(texts.text(fault));
}

void print_faults_in(const std::string& file, Faults faults, const Texts& texts) {
    for (Fault& fault : faults) fault.place = fault.place.empty() ? file : file + ": " + fault.place;
    print_faults(faults, texts);
}

std::optional<CaseSource> read_source(const std::string& named, const StoreAccess& access,
                                      const Resources& resources, Exit& exit) {
    if (const auto parts = store_and_reference(named))
        return read_from_store(parts->first, parts->second, access, resources, exit);
    exit = Exit::input_wrong;
    const fs::path path(named);
    const bool input = named == "-";
    auto text = input ? read_standard_input() : read_text_file(path, kMostBytes);
    if (!text) {
        print_faults(text.faults(), resources.texts);
        return std::nullopt;
    }
    const std::string file = input ? "standard input" : path.filename().string();
    const fs::path folder = input || path.parent_path().empty() ? fs::path(".") : path.parent_path();
    auto given = read_case(*text, file, folder, resources.formulary, machine_time());
    if (!given) {
        print_faults(given.faults(), resources.texts);
        return std::nullopt;
    }
    for (const Message& note : given->notes) print_error(resources.texts.text(note));
    return CaseSource{std::move(*given), file, input ? "case" : path.stem().string()};
}

}  // namespace evenfall::app
