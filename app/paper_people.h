// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>

#include "app/basis.h"
#include "casework/desk.h"
#include "papers/papers.h"
#include "papers/source.h"

namespace evenfall::app {

/// One person whose papers are made. The source lives as long as the visit.
struct PaperPerson {
    std::string name;  ///< of the case file without its ending, or the reference: for files and messages
    std::string language;
    papers::PaperSource source;
    /// Notes in the record that a paper was written, where it is one that is noted. Empty for a case file,
    /// which has no record.
    std::function<Result<Done>(Paper)> note_issued;
    bool of_case = false;  ///< lies in a case file, so that what is missing is added there
};

/// Somebody whose record lies on a desk, which outlives the person.
PaperPerson paper_person(const Desk& desk, const PatientRecord& record, std::string name, const Zone& zone,
                         LocalTime now);

/// Those of a name whose papers are asked for.
struct PeopleFilter {
    std::string agent;       ///< only those who take it on the day of issue; empty: any
    bool unprinted = false;  ///< only those whose signed steps no schedule shows that went out
};

/// Whose papers are asked for on the command line.
struct PeopleAsked {
    std::string named;
    StoreAccess access;
    PeopleFilter filter;
};

/// How the people of a name were visited.
struct Visited {
    Exit exit = Exit::done;  ///< not done: something was said on standard error
    bool several = false;    ///< the name stands for several people: a folder, or a pattern in a store
};

/// Is told of each person, with its place in line and how many there are; of those of whom no paper can be
/// made: who cannot be read, or share their reference; and of those whom the filter passes over.
struct PeopleVisitor {
    std::function<void(const PaperPerson&, int, int)> visit;
    /// The places of the faults begin with the file or the person. Several may be refused for one fault.
    std::function<void(const std::string& name, const Faults&, int, int)> refused;
    std::function<void(const std::string& name)> passed_over = {};
};

/// Visits everyone that a name stands for, one after the other; of those who were visited a few records at
/// most are kept. A name is a case file, "-", a folder of case files, STORE#reference, STORE#record or
/// STORE#pattern with * and ?. In a store the references are looked at first: nobody is visited whose
/// reference is another's too. Where the filter leaves nobody, it is said on standard error; that nobody
/// takes the agent is no success.
Visited visit_people(const PeopleAsked& asked, const Resources& resources, const PeopleVisitor& visitor);

/// Whether the name stands for several people.
bool names_several(const std::string& named);

}  // namespace evenfall::app
