// SPDX-License-Identifier: GPL-3.0-or-later
#include <iostream>

#include "app/basis.h"
#include "app/commands.h"
#include "app/options.h"
#include "app/store_access.h"

namespace evenfall::app {
namespace {

struct Asked {
    std::string file;
    std::string other;
    StoreAccess access;
    std::string clinic;
    std::string licence;
};

/// Prints the faults of a store's act, if any.
template <class T>
Exit leave(const Result<T>& result, const Texts& texts) {
    if (result) return Exit::done;
    print_faults(result.faults(), texts);
    return Exit::store_refuses;
}

Exit create(const Asked& asked, const Texts& texts) {
    const auto passphrase = read_passphrase(asked.access.passphrase_file, texts);
    if (!passphrase) return Exit::input_wrong;
    auto created = Store::create(asked.file, asked.clinic,
                                 {asked.access.user, Role::prescriber, asked.licence}, *passphrase);
    if (!created) return leave(created, texts);
    std::cerr << texts.text("app-recovery-key") << '\n';
    std::cout << created->recovery_key << std::endl;
    return Exit::done;
}

Exit check(const Asked& asked, const Texts& texts) {
    auto store = open_store(asked.file, asked.access, texts);
    if (!store) return Exit::store_refuses;
    auto report = store->check();
    if (!report) return leave(report, texts);
    std::cout << texts.text("app-store-checked", {{"rows", std::to_string(report->rows)},
                                                  {"damaged", std::to_string(report->damage.size())},
                                                  {"voided", std::to_string(report->voided.size())},
                                                  {"forks", std::to_string(report->forks)}})
              << '\n';
    for (const Fault& fault : report->damage) std::cout << texts.text(fault) << '\n';
    std::cout << texts.text("app-store-newest") << std::endl;
    return report->whole() ? Exit::done : Exit::store_refuses;
}

Exit backup(const Asked& asked, const Texts& texts) {
    auto store = open_store(asked.file, asked.access, texts);
    if (!store) return Exit::store_refuses;
    return leave(store->backup(asked.other), texts);
}

Exit merge(const Asked& asked, const Texts& texts) {
    auto store = open_store(asked.file, asked.access, texts);
    if (!store) return Exit::store_refuses;
    auto report = store->merge(asked.other);
    if (!report) return leave(report, texts);
    std::cout << texts.text("app-store-merged", {{"rows", std::to_string(report->gained)},
                                                 {"forks", std::to_string(report->forks.size())}})
              << std::endl;
    return report->forks.empty() ? Exit::done : Exit::store_refuses;
}

}  // namespace

Exit store_command(const QStringList& words) {
    Options options(QStringLiteral("evenfall store create|check|backup|merge FILE [OTHER]"),
                    QStringLiteral("Makes, proves, copies or merges a store of sealed records."));
    options.value(QStringLiteral("passphrase-file"), QStringLiteral("Read the passphrase from a file."),
                  QStringLiteral("file"));
    options.value(QStringLiteral("user"), QStringLiteral("Who opens it, or for create the first prescriber."),
                  QStringLiteral("name"), QStringLiteral("prescriber"));
    options.value(QStringLiteral("licence"), QStringLiteral("For create: the prescriber's licence."),
                  QStringLiteral("text"));
    options.value(QStringLiteral("clinic"), QStringLiteral("For create: the clinic's name."),
                  QStringLiteral("name"), QStringLiteral("Clinic"));
    if (const auto leave_now = options.read(words, 2, 3)) return *leave_now;
    const auto resources = load_resources();
    if (!resources) return Exit::our_fault;
    const QStringList rest = options.rest();
    const Asked asked{rest.at(1).toStdString(),
                      rest.size() > 2 ? rest.at(2).toStdString() : std::string(),
                      {options.of(QStringLiteral("passphrase-file")).toStdString(),
                       options.of(QStringLiteral("user")).toStdString()},
                      options.of(QStringLiteral("clinic")).toStdString(),
                      options.of(QStringLiteral("licence")).toStdString()};
    const QString act = rest.at(0);
    const bool needs_other = act == QStringLiteral("backup") || act == QStringLiteral("merge");
    if (needs_other && asked.other.empty())
        return Options::wrong(QStringLiteral("this act needs a second file"));
    if (act == QStringLiteral("create")) return create(asked, resources->texts);
    if (act == QStringLiteral("check")) return check(asked, resources->texts);
    if (act == QStringLiteral("backup")) return backup(asked, resources->texts);
    if (act == QStringLiteral("merge")) return merge(asked, resources->texts);
    return Options::wrong(QStringLiteral("the act is create, check, backup or merge"));
}

}  // namespace evenfall::app
