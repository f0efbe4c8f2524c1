// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/paper_people.h"

#include <algorithm>
#include <filesystem>

#include <fnmatch.h>

#include "app/case_desk.h"
#include "app/store_access.h"
#include "casework/in_force.h"
#include "casework/record_check.h"
#include "casework/store_log.h"
#include "papers/papers.h"

namespace evenfall::app {
namespace {

namespace fs = std::filesystem;

struct StoreName {
    std::string file, pattern;
};

std::optional<StoreName> in_store(const std::string& named) {
    std::error_code error;
    const auto hash = named.rfind('#');
    if (hash == std::string::npos || fs::exists(named, error)) return std::nullopt;
    return StoreName{named.substr(0, hash), named.substr(hash + 1)};
}

bool is_pattern(const std::string& text) {
    return text.find_first_of("*?") != std::string::npos;
}

Resources laid_over(const Resources& shipped, const ClinicRecord& clinic) {
    return {formulary_in_force(shipped.formulary, clinic), rules_in_force(shipped.rules, clinic),
            shipped.texts, shipped.scales};
}

PaperPerson person_of(const PatientRecord& record, const Clinic& clinic, const Resources& in_force,
                      const Zone& zone, LocalTime now, std::string name, std::string made_by) {
    PaperPerson person{std::move(name), record.person ? record.person->value.language : "en",
                       papers::source_from_record(record, clinic, in_force.formulary, in_force.rules,
                                                  in_force.scales, day_of(now))};
    papers::take_check(person.source, record, in_force.rules, zone, now, usual_judged_days(in_force.rules));
    person.source.made_by = std::move(made_by);
    return person;
}

bool went_out(const PatientRecord& record, const papers::PaperSource& source) {
    return std::ranges::any_of(record.papers, [&](const Entry<PaperIssued>& paper) {
        return paper.value.code == papers::code_of(source);
    });
}

bool wanted(const PeopleFilter& filter, const PatientRecord& record, const papers::PaperSource& source) {
    if (filter.unprinted && (!papers::valid_through(source) || went_out(record, source))) return false;
    if (filter.agent.empty()) return true;
    if (source.plan) return source.plan->request.drug == filter.agent;
    return std::ranges::any_of(source.regimen.doses,
                               [&](const DoseTime& dose) { return dose.drug == filter.agent; });
}

/// The people of a store, one read at a time.
class StoreVisit {
  public:
    StoreVisit(Store store, const Resources& resources, ClinicRecord clinic)
        : store_(std::move(store)), clinic_(std::move(clinic)), in_force_(laid_over(resources, clinic_)) {}

    Visited run(const StoreName& name, const PeopleFilter& filter, const PeopleVisitor& visitor) {
        const auto patients = store_.patients();
        if (!patients) {
            print_faults(patients.faults(), in_force_.texts);
            return {Exit::store_refuses, is_pattern(name.pattern)};
        }
        // A reference is no path: "*" also stands for a slash.
        const auto matches = [&](const std::string& reference) {
            return is_pattern(name.pattern) ? fnmatch(name.pattern.c_str(), reference.c_str(), 0) == 0
                                            : reference == name.pattern;
        };
        bool met = false;
        int number = 0;
        for (const PatientId& patient : *patients) {
            ++number;
            const auto events = store_.read(patient);
            if (!events) {
                visitor.unreadable(patient, events.faults());
                continue;
            }
            const PatientRecord record = fold_patient(patient, *events);
            if (!record.person || !matches(record.person->value.reference)) continue;
            met = true;
            if (const auto noted = store_.note_opened(patient); !noted) {
                visitor.unreadable(record.person->value.reference, noted.faults());
                continue;
            }
            const PaperPerson person =
                person_of(record, clinic_.clinic ? clinic_.clinic->value : Clinic{}, in_force_,
                          Zone::of_machine(), now_, record.person->value.reference, worker_of(store_).name);
            if (wanted(filter, record, person.source))
                visitor.visit(person, number, static_cast<int>(patients->size()));
        }
        if (met || is_pattern(name.pattern)) return {Exit::done, is_pattern(name.pattern)};
        print_faults({{"patient-unknown", name.file, {{"text", name.pattern}}}}, in_force_.texts);
        return {Exit::input_wrong, false};
    }

  private:
    Store store_;
    ClinicRecord clinic_;
    Resources in_force_;
    LocalTime now_ = machine_time();
};

Visited visit_store(const StoreName& name, const PeopleAsked& asked, const Resources& resources,
                    const PeopleVisitor& visitor) {
    const bool several = is_pattern(name.pattern);
    auto store = open_store(name.file, asked.access, resources);
    if (!store) return {Exit::store_refuses, several};
    const auto events = store->read_clinic();
    if (!events) {
        print_faults(events.faults(), resources.texts);
        return {Exit::store_refuses, several};
    }
    return StoreVisit(std::move(*store), resources, fold_clinic(*events)).run(name, asked.filter, visitor);
}

/// One case file. A fault of it is on standard error already.
Exit visit_case(const std::string& named, const PeopleAsked& asked, const Resources& resources,
                const PeopleVisitor& visitor, int number, int count) {
    Exit exit = Exit::done;
    const auto source = read_source(named, asked.access, resources, exit);
    if (!source) return exit;
    auto lying = desk_of_case(*source, resources);
    if (!lying) return Exit::input_wrong;
    const auto record = lying->desk.record(lying->patient);
    if (!record) return Exit::our_fault;
    const Desk& desk = lying->desk;
    const Resources in_force{desk.formulary(), desk.rules(), {}, resources.scales};
    const PaperPerson person =
        person_of(**record, desk.clinic(), in_force, source->given.zone, source->given.as_of, source->name,
                  source->given.prescriber ? source->given.prescriber->name : std::string());
    if (wanted(asked.filter, **record, person.source)) visitor.visit(person, number, count);
    return Exit::done;
}

std::vector<fs::path> case_files(const fs::path& folder) {
    std::vector<fs::path> files;
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(folder, error))
        if (entry.is_regular_file(error) && entry.path().extension() == ".json")
            files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

Visited visit_folder(const fs::path& folder, const PeopleAsked& asked, const Resources& resources,
                     const PeopleVisitor& visitor) {
    const std::vector<fs::path> files = case_files(folder);
    if (files.empty()) {
        print_faults({{"app-no-cases", folder.string(), {}}}, resources.texts);
        return {Exit::input_wrong, true};
    }
    Visited visited{Exit::done, true};
    int number = 0;
    for (const fs::path& file : files) {
        const Exit exit =
            visit_case(file.string(), asked, resources, visitor, ++number, static_cast<int>(files.size()));
        if (exit == Exit::done) continue;
        visited.exit = exit;
        visitor.unreadable(file.stem().string(), {{"app-case-refused", {}, {}}});
    }
    return visited;
}

}  // namespace

bool names_several(const std::string& named) {
    std::error_code error;
    if (fs::is_directory(named, error)) return true;
    const auto store = in_store(named);
    return store && is_pattern(store->pattern);
}

Visited visit_people(const PeopleAsked& asked, const Resources& resources, const PeopleVisitor& visitor) {
    std::error_code error;
    if (const auto store = in_store(asked.named)) return visit_store(*store, asked, resources, visitor);
    if (fs::is_directory(asked.named, error)) return visit_folder(asked.named, asked, resources, visitor);
    return {visit_case(asked.named, asked, resources, visitor, 1, 1), false};
}

}  // namespace evenfall::app
