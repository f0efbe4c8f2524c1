// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/basis.h"

#include <chrono>
#include <filesystem>
#include <iostream>
#include <iterator>

#include "app/store_people.h"
#include "casework/in_force.h"
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

std::optional<CaseSource> read_from_store(StoreName name, const StoreAccess& access,
                                          const Resources& resources, Exit& exit) {
    exit = Exit::store_refuses;
    auto desk = open_store_desk(name.file, access, resources);
    if (!desk) return std::nullopt;
    name.several = false;  // one case is read: a pattern's signs are none here
    const auto patient = one_named(people_named(*desk, name), name, resources.texts, exit);
    if (!patient) return std::nullopt;
    const auto noted = desk->note_opened(*patient, day_of(machine_time()));
    const auto record = desk->record(*patient);
    if (!noted || !record) {
        print_faults(noted ? record.faults() : noted.faults(), resources.texts);
        exit = Exit::store_refuses;
        return std::nullopt;
    }
    const Worker& worker = desk->worker();
    Case given = case_of(**record, desk->clinic(), {worker.name, worker.licence}, machine_time());
    given.prices = prices_in_force(desk->clinic_record());
    return CaseSource{std::move(given), name.file, (*record)->person->value.reference};
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
    if (auto name = in_store(named)) return read_from_store(std::move(*name), access, resources, exit);
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
