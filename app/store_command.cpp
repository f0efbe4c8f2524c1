// SPDX-License-Identifier: GPL-3.0-or-later
#include <chrono>
#include <filesystem>
#include <functional>
#include <iostream>

#include <unistd.h>

#include "app/basis.h"
#include "app/commands.h"
#include "app/options.h"
#include "app/store_access.h"
#include "app/store_exchange.h"
#include "app/store_restore.h"
#include "casework/safekeeping.h"
#include "papers/standing.h"

namespace evenfall::app {
namespace {

struct Asked {
    std::string file;
    std::string other;
    StoreAccess access;
    std::string clinic;
    std::string licence;
    std::string join;  ///< the exchange file of the clinic to join, for create
    std::string paper;
    std::vector<std::string> marks;
    bool replace = false;
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

/// How a paper in hand stands, told by its code or by what was scanned from it.
Exit check_paper(Store& store, const std::string& typed, const Texts& texts) {
    const auto paper = papers::read_mark(typed);
    if (!paper) {
        print_error(texts.text("standing-not-a-code"));
        return Exit::input_wrong;
    }
    const auto patients = store.patients();
    if (!patients) return leave(patients, texts);
    const papers::Wording say(texts, {});
    const Zone zone = Zone::of_machine();
    Faults unread;
    for (const PatientId& patient : *patients) {
        const auto events = store.read(patient);
        if (!events) {
            unread.insert(unread.end(), events.faults().begin(), events.faults().end());
            continue;
        }
        const PatientRecord record = fold_patient(patient, *events);
        const auto standing = papers::standing_of(record, *paper, zone);
        if (standing.state == papers::PaperState::unknown || !record.person) continue;
        if (const auto noted = store.note_opened(patient); !noted) return leave(noted, texts);
        std::cout << paper->code << ", " << papers::printable(record.person->value.reference) << ": "
                  << papers::standing_in_words(standing, say);
        if (standing.went_out)
            std::cout << ' '
                      << texts.text("standing-went-out", {{"date", say.short_date(*standing.went_out)}});
        std::cout << std::endl;
        return standing.state == papers::PaperState::current ? Exit::done : Exit::input_wrong;
    }
    if (!unread.empty()) {
        // It may be the paper of whom cannot be read.
        print_faults(unread, texts);
        return Exit::store_refuses;
    }
    std::cout << paper->code << ": " << texts.text("standing-nobody") << std::endl;
    return Exit::input_wrong;
}

/// Rows known from elsewhere: the newest of another file, and marks that were printed.
struct Known {
    Heads heads;
    std::vector<Mark> marks;
};

Result<Known> known_from(Store& store, const Asked& asked) {
    Known known;
    Faults faults;
    if (!asked.other.empty()) take(store.heads_of_file(asked.other), known.heads, faults);
    for (const std::string& typed : asked.marks)
        if (Mark mark; take(read_mark(typed), mark, faults)) known.marks.push_back(std::move(mark));
    if (!faults.empty()) return faults;
    return known;
}

/// Who opened records, and how often.
void print_accesses(Store& store, const Texts& texts) {
    const auto accesses = store.accesses();
    if (!accesses) return;  // the damage is in the report already
    std::map<UserId, std::int64_t> counts;
    for (const Access& each : *accesses) ++counts[each.stamp.author];
    for (const User& user : store.users())
        if (const auto found = counts.find(user.grant.id); found != counts.end())
            std::cout << texts.text("app-store-opened",
                                    {{"name", user.grant.recovery ? "recovery key" : user.grant.name},
                                     {"count", std::to_string(found->second)}})
                      << '\n';
}

void print_report(const CheckReport& report, const Texts& texts) {
    std::cout << texts.text("app-store-checked", {{"rows", std::to_string(report.rows)},
                                                  {"damaged", std::to_string(report.damage.size())},
                                                  {"voided", std::to_string(report.voided.size())},
                                                  {"forks", std::to_string(report.forks)}})
              << '\n';
    for (const Fault& fault : report.damage) std::cout << texts.text(fault) << '\n';
}

/// Says on a terminal how far the proof is; in a file or a pipe nothing would read it.
std::function<bool(std::int64_t, std::int64_t)> progress_on_terminal() {
    if (isatty(STDERR_FILENO) == 0) return {};
    return [shown = std::int64_t{-1}](std::int64_t done, std::int64_t all) mutable {
        const std::int64_t percent = all == 0 ? 100 : 100 * done / all;
        if (percent == shown) return true;
        shown = percent;
        std::cerr << '\r' << percent << " %" << (percent == 100 ? "\n" : "") << std::flush;
        return true;
    };
}

Exit check(const Asked& asked, const Resources& resources) {
    const Texts& texts = resources.texts;
    auto store = open_store(asked.file, asked.access, resources);
    if (!store) return Exit::store_refuses;
    if (!asked.paper.empty()) return check_paper(*store, asked.paper, texts);
    const auto known = known_from(*store, asked);
    if (!known) return leave(known, texts);
    auto report = store->check(known->heads, progress_on_terminal());
    if (!report) return leave(report, texts);
    for (Fault& fault : store->missing(known->marks)) report->damage.push_back(std::move(fault));
    print_report(*report, texts);
    print_accesses(*store, texts);
    const auto heads = store->heads();
    if (!heads) return leave(heads, texts);
    for (const auto& [log, head] : *heads)
        std::cout << texts.text("app-store-mark", {{"mark", print_mark(log, head)}}) << '\n';
    const bool compared = !known->heads.empty() || !known->marks.empty();
    std::cout << texts.text(compared ? "app-store-known" : "app-store-newest") << std::endl;
    return report->whole() ? Exit::done : Exit::store_refuses;
}

/// Into a folder: under a name of its own, the oldest making room by the rule. Else into that very file.
Exit backup(const Asked& asked, const Resources& resources) {
    auto store = open_store(asked.file, asked.access, resources);
    if (!store) return Exit::store_refuses;
    std::error_code ignored;
    if (!std::filesystem::is_directory(asked.other, ignored))
        return leave(store->backup(asked.other), resources.texts);
    const Instant now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
    const auto to = std::filesystem::path(asked.other) / backup_name(*store, now);
    if (const auto made = store->backup(to); !made) return leave(made, resources.texts);
    std::cout << to.string() << std::endl;
    const auto keep = static_cast<std::size_t>(resources.rules.whole("backup-rotation", "keep"));
    return leave(rotate_backups(*store, asked.other, keep), resources.texts);
}

std::vector<std::string> marks_of(const QString& typed) {
    std::vector<std::string> marks;
    for (const QString& each : typed.split(u',', Qt::SkipEmptyParts))
        marks.push_back(each.trimmed().toStdString());
    return marks;
}

void add_options(Options& options) {
    options.value(QStringLiteral("passphrase-file"), QStringLiteral("Read the passphrase from a file."),
                  QStringLiteral("file"));
    options.value(QStringLiteral("user"), QStringLiteral("Who opens it, or for create the first prescriber."),
                  QStringLiteral("name"), QStringLiteral("prescriber"));
    options.value(QStringLiteral("licence"), QStringLiteral("For create: the prescriber's licence."),
                  QStringLiteral("text"));
    options.value(QStringLiteral("clinic"), QStringLiteral("For create: the clinic's name."),
                  QStringLiteral("name"), QStringLiteral("Clinic"));
    options.value(QStringLiteral("join"),
                  QStringLiteral("For create: join the clinic of this exchange file, as a user of it."),
                  QStringLiteral("file"));
    options.value(QStringLiteral("paper"),
                  QStringLiteral("For check: tell whether the paper with this code is the current one."),
                  QStringLiteral("code"));
    options.value(QStringLiteral("mark"),
                  QStringLiteral("For check: marks of rows that must be there, parted by commas."),
                  QStringLiteral("marks"));
    options.flag(QStringLiteral("replace"),
                 QStringLiteral("For restore: do it without asking; what stood there is kept beside. For "
                                "export: write over an older file."));
}

/// Carries out an act whose words were found right.
Exit carry_out(const QString& act, const Asked& asked, const Resources& resources) {
    const ExchangeAsked exchange{asked.file, asked.other, asked.access, asked.replace};
    if (!asked.join.empty()) return join_store({asked.file, asked.join, asked.access, false}, resources);
    if (act == QStringLiteral("create")) return create(asked, resources.texts);
    if (act == QStringLiteral("check")) return check(asked, resources);
    if (act == QStringLiteral("backup")) return backup(asked, resources);
    if (act == QStringLiteral("export")) return export_store(exchange, resources);
    if (act == QStringLiteral("merge") || act == QStringLiteral("import"))
        return import_store(exchange, resources);
    if (act == QStringLiteral("restore"))
        return restore_store({asked.file, asked.other, asked.access, asked.replace}, resources);
    return Options::wrong(
        QStringLiteral("the act is create, check, backup, restore, merge, export or import"));
}

}  // namespace

Exit store_command(const QStringList& words) {
    Options options(
        QStringLiteral("evenfall store create|check|backup|restore|merge|export|import FILE [OTHER]"),
        QStringLiteral("Makes, proves, copies, restores or merges a store of sealed records, and carries "
                       "them between the laptops of a clinic."));
    add_options(options);
    if (const auto leave_now = options.read(words, 2, 3)) return *leave_now;
    const QStringList rest = options.rest();
    const QString& act = rest.at(0);
    static const QStringList with_other = {QStringLiteral("backup"), QStringLiteral("restore"),
                                           QStringLiteral("merge"), QStringLiteral("export"),
                                           QStringLiteral("import")};
    if (with_other.contains(act) && rest.size() < 3)
        return Options::wrong(QStringLiteral("this act needs a second file"));
    if (options.has(QStringLiteral("join")) && act != QStringLiteral("create"))
        return Options::wrong(QStringLiteral("--join goes with create"));
    const auto resources = load_resources();
    if (!resources) return Exit::our_fault;
    const Asked asked{rest.at(1).toStdString(),
                      rest.size() > 2 ? rest.at(2).toStdString() : std::string(),
                      {options.of(QStringLiteral("passphrase-file")).toStdString(),
                       options.of(QStringLiteral("user")).toStdString()},
                      options.of(QStringLiteral("clinic")).toStdString(),
                      options.of(QStringLiteral("licence")).toStdString(),
                      options.of(QStringLiteral("join")).toStdString(),
                      options.of(QStringLiteral("paper")).toStdString(),
                      marks_of(options.of(QStringLiteral("mark"))),
                      options.has(QStringLiteral("replace"))};
    return carry_out(act, asked, *resources);
}

}  // namespace evenfall::app
