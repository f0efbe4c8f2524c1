// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>

#include "app/basis.h"
#include "papers/source.h"

namespace evenfall::app {

/// One person whose papers are made. The source lives as long as the visit.
struct PaperPerson {
    std::string name;  ///< of the case file without its ending, or the reference: for files and messages
    std::string language;
    papers::PaperSource source;
};

/// Those of a store whose papers are asked for.
struct PeopleFilter {
    std::string agent;       ///< only those who take it; empty: any
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

/// Is told of each person, with its place in line and how many there are; and of those who cannot be read.
struct PeopleVisitor {
    std::function<void(const PaperPerson&, int, int)> visit;
    std::function<void(const std::string& name, const Faults&)> unreadable;
};

/// Visits everyone that a name stands for, one after the other; nothing of one person is kept when the next
/// is read. A name is a case file, "-", a folder of case files, STORE#reference, or STORE#pattern with * and
/// ?.
Visited visit_people(const PeopleAsked& asked, const Resources& resources, const PeopleVisitor& visitor);

/// Whether the name stands for several people.
bool names_several(const std::string& named);

}  // namespace evenfall::app
