// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>
#include <optional>
#include <string>

#include "app/exit_code.h"
#include "exchange/case.h"
#include "formulary/formulary.h"
#include "response/scales.h"
#include "rules/rules.h"
#include "rules/texts.h"

namespace evenfall::app {

/// What is loaded from the resources before anything else is done.
struct Resources {
    Formulary formulary;
    Rules rules;
    Texts texts;
    Scales scales;
};

/// Loads the resources, or says on standard error what is wrong with them.
std::optional<Resources> load_resources(std::string_view language = "en");

/// The civil time on this machine's clock.
LocalTime machine_time();

/// One line on standard error for each fault.
void print_faults(const Faults& faults, const Texts& texts);
/// Faults whose places lie in that file, or concern that person.
Faults faults_in(const std::string& file, Faults faults);
/// The same as print_faults for faults of a computation: their places lie in that file.
void print_faults_in(const std::string& file, Faults faults, const Texts& texts);
void print_error(const std::string& line);

/// Where a case comes from, as the command line names it: a file, "-" for standard input, or
/// "store#reference" ("store#record" where a reference is not enough).
struct CaseSource {
    Case given;
    std::string file;  ///< as its faults name it
    std::string name;  ///< of the file, without its folder and ending
};

/// How a store named on the command line is opened.
struct StoreAccess {
    std::string passphrase_file;
    std::string user;
};

/// Reads a case file, or standard input where "-" is named. A store without a person is a fault of its own.
/// What is noted in reading is on standard error.
Result<CaseSource> read_case_source(const std::string& named, const Resources& resources);

/// Reads a case, of a store too. On failure the faults are on standard error and `exit` says how to leave.
std::optional<CaseSource> read_source(const std::string& named, const StoreAccess& access,
                                      const Resources& resources, Exit& exit);

}  // namespace evenfall::app
