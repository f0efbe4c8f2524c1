// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store_restore.h"

#include <chrono>
#include <filesystem>
#include <iostream>

#include <unistd.h>

#include "app/store_access.h"
#include "casework/safekeeping.h"
#include "casework/store_log.h"
#include "record/patient_record.h"

namespace evenfall::app {
namespace {

/// A person's reference, as the present store knows it; a new person's id where it does not.
std::string name_of(Store& store, const PatientId& patient, const Texts& texts) {
    if (patient.empty()) return texts.text("app-restore-clinic");
    if (patient == kAccessLog) return texts.text("app-restore-accesses");
    const auto salvage = store.read_what_is_left(patient);
    if (salvage)
        if (const PatientRecord record = fold_patient(patient, salvage->events); record.person)
            return record.person->value.reference;
    return texts.text("app-restore-unknown", {{"id", patient.substr(0, 8)}});
}

void print_line(const std::string& what, const RestorePreview::Count& count, const Texts& texts) {
    std::cout << "  "
              << texts.text("app-restore-line", {{"what", what},
                                                 {"gained", std::to_string(count.gained)},
                                                 {"lost", std::to_string(count.lost)}})
              << '\n';
}

void print_preview(Store& store, const RestorePreview& preview, const Texts& texts) {
    std::cout << texts.text(preview.patients.empty() ? "app-restore-same" : "app-restore-changes") << '\n';
    for (const auto& [patient, count] : preview.patients)
        print_line(name_of(store, patient, texts), count, texts);
    for (const User& user : store.users())
        if (const auto found = preview.authors.find(user.grant.id); found != preview.authors.end())
            print_line(texts.text("app-restore-by", {{"name", user.grant.name}}), found->second, texts);
    if (preview.unreadable > 0)
        std::cout << texts.text("app-restore-unreadable", {{"count", std::to_string(preview.unreadable)}})
                  << '\n';
    for (const auto& [log, head] : preview.ours)
        std::cout << texts.text("app-restore-ours", {{"mark", print_mark(log, head)}}) << '\n';
    for (const auto& [log, head] : preview.theirs)
        std::cout << texts.text("app-restore-theirs", {{"mark", print_mark(log, head)}}) << '\n';
}

/// Shows what the restore would change; whether it can be shown at all.
bool show_changes(const RestoreAsked& asked, const Resources& resources) {
    std::error_code ignored;
    if (!std::filesystem::exists(asked.file, ignored)) {
        std::cout << resources.texts.text("app-restore-nothing") << std::endl;
        return true;
    }
    auto store = open_store(asked.file, asked.access, resources);
    if (!store) return false;
    const auto preview = store->preview_restore(asked.backup);
    if (!preview) {
        print_faults(preview.faults(), resources.texts);
        return false;
    }
    print_preview(*store, *preview, resources.texts);
    std::cout << std::flush;
    return true;
}

bool agreed(const RestoreAsked& asked, const Texts& texts) {
    if (asked.replace) return true;
    if (isatty(STDIN_FILENO) == 0) {
        print_error(texts.text("app-restore-not-asked"));
        return false;
    }
    std::cerr << texts.text("app-restore-ask") << ' ' << std::flush;
    std::string answer;
    std::getline(std::cin, answer);
    return answer == texts.text("app-restore-yes");
}

}  // namespace

Exit restore_store(const RestoreAsked& asked, const Resources& resources) {
    const Texts& texts = resources.texts;
    if (!show_changes(asked, resources)) {
        // A ruin cannot be compared with; whoever says so may still put the back-up in its place.
        if (!asked.replace) return Exit::store_refuses;
        std::cout << texts.text("app-restore-ruin") << std::endl;
    }
    if (!agreed(asked, texts)) return Exit::input_wrong;
    const Instant now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
    const auto kept = evenfall::restore_store(asked.backup, asked.file, file_stamp(now));
    if (!kept) {
        print_faults(kept.faults(), texts);
        return Exit::store_refuses;
    }
    if (!kept->empty()) std::cout << texts.text("app-restore-kept", {{"file", kept->string()}}) << '\n';
    std::cout << texts.text("app-restore-done") << std::endl;
    return Exit::done;
}

}  // namespace evenfall::app
