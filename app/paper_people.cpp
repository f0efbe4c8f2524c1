// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/paper_people.h"

#include <algorithm>
#include <filesystem>

#include "app/case_desk.h"
#include "app/store_people.h"
#include "casework/paper_entry.h"
#include "casework/record_check.h"
#include "papers/common.h"

namespace evenfall::app {
namespace {

namespace fs = std::filesystem;

bool went_out(const PatientRecord& record, const papers::PaperSource& source) {
    return std::ranges::any_of(record.papers, [&](const Entry<PaperIssued>& paper) {
        return paper.value.paper == word(Paper::schedule) && paper.value.code == papers::code_of(source);
    });
}

bool takes(const papers::PaperSource& source, const std::string& agent) {
    return std::ranges::count(agents_of(papers::regimen_on_issue(source)), agent) > 0;
}

/// Whom the filter lets through, and what it left out.
class Sieve {
  public:
    explicit Sieve(const PeopleFilter& filter) : filter_(filter) {}

    bool lets_through(const PatientRecord& record, const papers::PaperSource& source) {
        ++looked_at_;
        if (!filter_.agent.empty() && !takes(source, filter_.agent)) return false;
        ++taking_;
        if (filter_.unprinted && (!papers::valid_through(source) || went_out(record, source))) return false;
        ++through_;
        return true;
    }
    /// Says that nobody was left, if so. That everything has gone out is what was wanted; that nobody takes
    /// the agent is not.
    Exit leave(const std::string& named, const Texts& texts) const {
        if (looked_at_ == 0 || through_ > 0) return Exit::done;
        if (taking_ == 0) {
            print_faults({{"app-agent-nobody", named, {{"agent", filter_.agent}}}}, texts);
            return Exit::input_wrong;
        }
        print_error(texts.text("app-all-printed", {{"named", named}}));
        return Exit::done;
    }

  private:
    const PeopleFilter& filter_;
    int looked_at_ = 0;
    int taking_ = 0;
    int through_ = 0;
};

void pass_over(const PeopleVisitor& visitor, const std::string& name) {
    if (visitor.passed_over) visitor.passed_over(name);
}

/// The people of a store, one after the other.
class StoreVisit {
  public:
    /// `several`: who cannot be read is among those who are meant.
    StoreVisit(Desk& desk, const NamedPeople& named, const PeopleVisitor& visitor, Sieve& sieve, bool several)
        : desk_(desk),
          named_(named),
          visitor_(visitor),
          sieve_(sieve),
          several_(several),
          count_(static_cast<int>(named.people.size() + (several ? named.unreadable.size() : 0))) {}

    Exit everyone() {
        if (several_) refuse_unreadable();
        for (const PatientId& patient : named_.people) visit(patient, named_.references.at(patient));
        return exit_;
    }

  private:
    /// Whoever cannot be read may be one of those who were asked for.
    void refuse_unreadable() {
        for (const auto& [patient, faults] : named_.unreadable) refuse(patient, faults);
        if (!named_.unreadable.empty()) exit_ = Exit::store_refuses;
    }
    void refuse(const std::string& name, const Faults& faults) {
        visitor_.refused(name, faults_in(name, faults), ++number_, count_);
    }
    void visit(const PatientId& patient, const std::string& reference) {
        const auto noted = desk_.note_opened(patient, day_of(now_));
        const auto record = desk_.record(patient);
        if (!noted || !record) {
            refuse(reference, noted ? record.faults() : noted.faults());
            exit_ = Exit::store_refuses;
            return;
        }
        PaperPerson person = paper_person(desk_, **record, reference, Zone::of_machine(), now_);
        if (!sieve_.lets_through(**record, person.source)) {
            ++number_;
            return pass_over(visitor_, reference);
        }
        if (named_.doubled.contains(reference)) return refuse_doubled(reference);
        person.note_issued = [&](Paper paper) { return note_issued(patient, person.source, paper); };
        visitor_.visit(person, ++number_, count_);
    }
    void refuse_doubled(const std::string& reference) {
        refuse(reference, named_.doubled.at(reference));
        if (exit_ == Exit::done) exit_ = Exit::input_wrong;
    }
    Result<Done> note_issued(const PatientId& patient, const papers::PaperSource& source, Paper paper) {
        const auto entry =
            paper_entry({word(paper), papers::code_of(source), source.plan_id, source.as_of, {}},
                        papers::valid_through(source));
        if (!entry) return Done{};
        return desk_.carry_out(patient, {*entry}, {}, now_);
    }

    Desk& desk_;
    const NamedPeople& named_;
    const PeopleVisitor& visitor_;
    Sieve& sieve_;
    bool several_;
    int count_;
    int number_ = 0;
    LocalTime now_ = machine_time();
    Exit exit_ = Exit::done;
};

Exit visit_store(const StoreName& name, const PeopleAsked& asked, const Resources& resources,
                 const PeopleVisitor& visitor, Sieve& sieve) {
    auto desk = open_store_desk(name.file, asked.access, resources);
    if (!desk) return Exit::store_refuses;
    const NamedPeople named = people_named(*desk, name);
    Exit exit = Exit::done;
    if (!name.several || (named.people.empty() && named.unreadable.empty()))
        if (!one_named(named, name, resources.texts, exit)) return exit;
    return StoreVisit(*desk, named, visitor, sieve, name.several).everyone();
}

/// One case file.
Exit visit_case(const std::string& named, const Resources& resources, const PeopleVisitor& visitor,
                Sieve& sieve, int number, int count) {
    const auto refuse = [&](const Faults& faults) {
        visitor.refused(named == "-" ? "case" : fs::path(named).stem().string(), faults, number, count);
        return Exit::input_wrong;
    };
    const auto source = read_case_source(named, resources);
    if (!source) return refuse(source.faults());
    auto lying = desk_of_case(*source, resources);
    if (!lying) return refuse(lying.faults());
    const auto record = lying->desk.record(lying->patient);
    if (!record) return refuse(faults_in(source->file, record.faults()));
    PaperPerson person =
        paper_person(lying->desk, **record, source->name, source->given.zone, source->given.as_of);
    person.of_case = true;
    if (sieve.lets_through(**record, person.source))
        visitor.visit(person, number, count);
    else
        pass_over(visitor, source->name);
    return Exit::done;
}

/// A link that leads nowhere is one too: it is refused, and not passed by in silence.
std::vector<fs::path> case_files(const fs::path& folder) {
    std::vector<fs::path> files;
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(folder, error))
        if (!entry.is_directory(error) && entry.path().extension() == ".json") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

Exit visit_folder(const fs::path& folder, const Resources& resources, const PeopleVisitor& visitor,
                  Sieve& sieve) {
    const std::vector<fs::path> files = case_files(folder);
    if (files.empty()) {
        print_faults({{"app-no-cases", folder.string(), {}}}, resources.texts);
        return Exit::input_wrong;
    }
    Exit exit = Exit::done;
    int number = 0;
    for (const fs::path& file : files) {
        const Exit left =
            visit_case(file.string(), resources, visitor, sieve, ++number, static_cast<int>(files.size()));
        if (left != Exit::done) exit = left;
    }
    return exit;
}

Exit visit(const PeopleAsked& asked, const Resources& resources, const PeopleVisitor& visitor, Sieve& sieve) {
    std::error_code error;
    if (const auto store = in_store(asked.named))
        return visit_store(*store, asked, resources, visitor, sieve);
    if (fs::is_directory(asked.named, error)) return visit_folder(asked.named, resources, visitor, sieve);
    return visit_case(asked.named, resources, visitor, sieve, 1, 1);
}

}  // namespace

PaperPerson paper_person(const Desk& desk, const PatientRecord& record, std::string name, const Zone& zone,
                         LocalTime now) {
    PaperPerson person{std::move(name),
                       record.person ? record.person->value.language : "en",
                       papers::source_from_record(record, desk.clinic(), desk.formulary(), desk.rules(),
                                                  desk.scales(), day_of(now)),
                       {},
                       false};
    papers::take_check(person.source, record, desk.rules(), zone, now, usual_judged_days(desk.rules()));
    person.source.made_by = desk.worker().name;
    return person;
}

bool names_several(const std::string& named) {
    std::error_code error;
    if (fs::is_directory(named, error)) return true;
    const auto store = in_store(named);
    return store && store->several;
}

Visited visit_people(const PeopleAsked& asked, const Resources& resources, const PeopleVisitor& visitor) {
    Sieve sieve(asked.filter);
    const Exit visited = visit(asked, resources, visitor, sieve);
    const Exit sieved = sieve.leave(asked.named, resources.texts);
    return {visited == Exit::done ? sieved : visited, names_several(asked.named)};
}

}  // namespace evenfall::app
