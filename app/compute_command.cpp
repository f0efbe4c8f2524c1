// SPDX-License-Identifier: GPL-3.0-or-later
#include <iostream>

#include "app/basis.h"
#include "app/commands.h"
#include "app/options.h"
#include "exchange/compute.h"

namespace evenfall::app {

Exit compute_command(const QStringList& words) {
    Options options(
        QStringLiteral("evenfall compute KIND CASE [--csv]"),
        QStringLiteral("Computes one thing of a case and prints it as JSON, or as a table. KIND: ") +
            QString::fromStdString(all_words<Kind>()) +
            QStringLiteral(". CASE: a case file, - for standard input, or STORE#REFERENCE. Levels that start "
                           "empty begin so at \"from\": earlier doses are not counted."));
    options.flag(QStringLiteral("csv"), QStringLiteral("Print a table (CSV) where the answer is one."));
    options.add_store_access();
    if (const auto leave = options.read(words, 2, 2)) return *leave;
    const auto kind = from_word<Kind>(options.rest().at(0).toStdString());
    if (!kind)
        return Options::wrong(QStringLiteral("KIND is one of: ") + QString::fromStdString(all_words<Kind>()));

    const auto resources = load_resources();
    if (!resources) return Exit::our_fault;
    Exit exit = Exit::done;
    const auto source =
        read_source(options.rest().at(1).toStdString(), options.store_access(), *resources, exit);
    if (!source) return exit;
    const Formulary formulary = with_case(resources->formulary, source->given);
    const Basis basis{source->given, formulary, resources->rules};
    const auto text =
        options.has(QStringLiteral("csv")) ? compute_csv(*kind, basis) : [&]() -> Result<std::string> {
        auto answer = compute(*kind, basis);
        if (!answer) return answer.faults();
        return answer->dump(2) + "\n";
    }();
    if (!text) {
        print_faults_in(source->file, text.faults(), resources->texts);
        return Exit::input_wrong;
    }
    std::cout << *text << std::flush;
    return Exit::done;
}

}  // namespace evenfall::app
