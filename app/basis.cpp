// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/basis.h"

#include <chrono>
#include <filesystem>
#include <fstream>
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

/// A case file is text; a store begins as every file of its database does. What is no plain file is not
/// looked into: a pipe can be read once only.
bool begins_as_store(const fs::path& path) {
    std::error_code error;
    if (!fs::is_regular_file(path, error)) return false;
    constexpr std::string_view kMagic = "SQLite format 3";
    std::string begin(kMagic.size(), '\0');
    std::ifstream(path, std::ios::binary).read(begin.data(), static_cast<std::streamsize>(begin.size()));
    return begin == kMagic;
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

Faults faults_in(const std::string& file, Faults faults) {
    for (Fault& fault : faults) fault.place = fault.place.empty() ? file : file + ": " + fault.place;
    return faults;
}

void print_faults_in(const std::string& file, Faults faults, const Texts& texts) {
    print_faults(faults_in(file, std::move(faults)), texts);
}

Result<CaseSource> read_case_source(const std::string& named, const Resources& resources) {
    const fs::path path(named);
    const bool input = named == "-";
    const std::string file = input ? "standard input" : path.filename().string();
    if (!input && begins_as_store(path)) return Fault{"app-store-whose", file, {{"store", named}}};
    auto text = input ? read_standard_input() : read_text_file(path, kMostBytes);
    if (!text) return text.faults();
    const fs::path folder = input || path.parent_path().empty() ? fs::path(".") : path.parent_path();
    auto given = read_case(*text, file, folder, resources.formulary, machine_time());
    if (!given) return given.faults();
    for (const Message& note : given->notes) print_error(resources.texts.text(note));
    return CaseSource{std::move(*given), file, input ? "case" : path.stem().string()};
}

std::optional<CaseSource> read_source(const std::string& named, const StoreAccess& access,
                                      const Resources& resources, Exit& exit) {
    if (auto name = in_store(named)) return read_from_store(std::move(*name), access, resources, exit);
    auto source = read_case_source(named, resources);
    if (source) return std::move(*source);
    print_faults(source.faults(), resources.texts);
    exit = Exit::input_wrong;
    return std::nullopt;
}

}  // namespace evenfall::app
