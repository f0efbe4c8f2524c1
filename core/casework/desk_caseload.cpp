// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "casework/desk.h"
#include "casework/line_text.h"
#include "model/json.h"
#include "model/strict_json.h"
#include "rules/texts.h"
#include "store/crypto.h"

// The list of who needs what. To derive it takes reading every record, so lines are kept: for today in the
// desk, and for today and the days after sealed in the log, where the next session finds them. An index says
// of which state of the log they know: a person with later entries is derived anew, and everyone where a
// rule, the formulary or the clinic's settings changed.

namespace evenfall {
namespace {

/// What an older program foresaw may have been derived otherwise. Raised also where a line holds something
/// else.
constexpr const char* kLinesVersion = "evenfall-lines-3 " EVENFALL_VERSION;
constexpr const char* kIndex = "lines";
constexpr std::string_view kLocked = "store-locked";
/// A long weekend: what is opened later is derived first.
constexpr int kDaysForeseen = 4;
constexpr std::size_t kPutTogether = 32;
constexpr std::size_t kMostResource = 32u << 20;

/// How long a line of the caseload holds on a day on which nothing is written: its reasons count in days.
constexpr std::chrono::minutes kLineHolds(15);

bool holds(LocalTime made, LocalTime now) {
    return made <= now && now < made + kLineHolds && day_of(made) == day_of(now);
}

std::string snapshot_name(const PatientId& patient) {
    return "line " + patient;
}

/// The line of a day among those that were foreseen. The first row names what they rest on; each other row
/// begins with its day.
std::optional<CaseloadLine> line_of_day(const std::string& text, const std::string& mark, Day day) {
    if (!text.starts_with(mark + "\n")) return std::nullopt;
    std::string begin = "\n";
    begin.append(print_day(day)).append(" ");
    const auto from = text.find(begin, mark.size());
    if (from == std::string::npos) return std::nullopt;
    const auto first = from + begin.size();
    return read_line(std::string_view(text).substr(first, text.find('\n', first) - first));
}

}  // namespace

/// Names everything that a line rests on beside the log.
std::string Desk::ground_mark() const {
    std::string ground = kLinesVersion;
    for (const auto& [id, rule] : rules_.all()) {
        ground += "\n" + id;
        for (const auto& [name, value] : rule.values)
            ground.append(" ").append(name).append("=").append(value);
    }
    for (const char* file : {"formulary.json", "scales.json"})
        if (const auto text = read_text_file(resources_folder() / file, kMostResource)) ground += *text;
    return to_hex(crypto::hash(ground, 16));
}

Result<const CaseloadLine*> Desk::line(const PatientId& patient, LocalTime as_of) {
    const auto kept = lines_.find(patient);
    if (kept != lines_.end() && kept->second.sure && holds(kept->second.as_of, as_of))
        return &kept->second.line;
    const auto put = [&](const PatientRecord& record) {
        const Course course = derive_course(record, formulary_, rules_, as_of);
        KeptLine made{as_of, caseload_line(record, course, ground(), as_of)};
        return &lines_.insert_or_assign(patient, std::move(made)).first->second.line;
    };
    if (const auto known = records_.find(patient); known != records_.end()) return put(known->second);
    const auto folded = fold_aside(patient);
    if (!folded) return folded.faults();
    return put(*folded);
}

std::vector<CaseloadLine> Desk::caseload(LocalTime as_of, Faults& faults) {
    std::vector<CaseloadLine> lines;
    lines.reserve(patients_.size());
    for (const PatientId& patient : patients_) {
        const CaseloadLine* known = nullptr;
        if (take(line(patient, as_of), known, faults)) lines.push_back(*known);
    }
    sort_caseload(lines);
    return lines;
}

/// Lines stay on show until they were looked at again.
void Desk::forget_lines() {
    for (auto& [patient, kept] : lines_) kept.sure = false;
    looking_.behind.insert(patients_.begin(), patients_.end());
    looking_.queue.clear();
    if (!ground_mark_.empty()) ground_mark_ = ground_mark();
}

/// Once a day: what an earlier session foresaw for it.
void Desk::restore_lines(LocalTime as_of) {
    if (looking_.restored_on == day_of(as_of)) return;
    looking_.restored_on = day_of(as_of);
    looking_.failed.clear();
    looking_.queue.clear();
    looking_.behind.insert(patients_.begin(), patients_.end());
    if (!log_->keeps_snapshots()) return;
    const std::string& mark = ground_mark_ = ground_mark();
    const auto index = log_->snapshot(kIndex);
    if (!index || !index->starts_with(mark + "\n")) return;
    const auto changed = log_->changed_since(index->substr(mark.size() + 1), patients_);
    if (!changed || !changed->follows || changed->clinic) return;
    std::set<PatientId> known(patients_.begin(), patients_.end());
    for (const PatientId& patient : changed->patients) known.erase(patient);
    for (const PatientId& patient : known) {
        const auto kept = lines_.find(patient);
        if (kept != lines_.end() && day_of(kept->second.as_of) == day_of(as_of)) continue;
        const auto text = log_->snapshot(snapshot_name(patient));
        if (!text) continue;
        if (auto line = line_of_day(*text, mark, day_of(as_of)); line && line->patient == patient)
            lines_.insert_or_assign(patient, KeptLine{as_of, std::move(*line), false});
    }
}

Desk::KnownCaseload Desk::known_caseload(LocalTime as_of) {
    restore_lines(as_of);
    KnownCaseload known;
    known.lines.reserve(patients_.size());
    for (const PatientId& patient : patients_) {
        const auto kept = lines_.find(patient);
        if (kept != lines_.end() && day_of(kept->second.as_of) == day_of(as_of))
            known.lines.push_back(kept->second.line);
        else if (looking_.failed.contains(patient))
            ++known.unreadable;
        else
            ++known.missing;
    }
    sort_caseload(known.lines);
    return known;
}

/// Who is missing from the list first, then whose line is foreseen, old, or not foreseen for the days to
/// come.
void Desk::queue_looks(LocalTime as_of) {
    std::deque<PatientId> later;
    for (const PatientId& patient : patients_) {
        if (looking_.failed.contains(patient)) continue;
        const auto kept = lines_.find(patient);
        if (kept == lines_.end() || day_of(kept->second.as_of) != day_of(as_of))
            looking_.queue.push_back(patient);
        else if (!kept->second.sure || !holds(kept->second.as_of, as_of) ||
                 (log_->keeps_snapshots() && looking_.behind.contains(patient)))
            later.push_back(patient);
    }
    looking_.queue.insert(looking_.queue.end(), later.begin(), later.end());
}

/// The lines of today and the days to come, at this hour.
void Desk::foresee(const PatientRecord& record, LocalTime as_of) {
    std::string text = ground_mark_ + "\n";
    for (int ahead = 0; ahead <= kDaysForeseen; ++ahead) {
        const LocalTime then = as_of + std::chrono::days(ahead);
        const CaseloadLine line =
            ahead == 0
                ? lines_.at(record.id).line
                : caseload_line(record, derive_course(record, formulary_, rules_, then), ground(), then);
        text += print_day(day_of(then)) + " " + print_line(line) + "\n";
    }
    looking_.waiting[snapshot_name(record.id)] = std::move(text);
    looking_.behind.erase(record.id);
}

bool Desk::look_on(LocalTime as_of, Faults& faults) {
    restore_lines(as_of);
    if (looking_.queue.empty()) {
        queue_looks(as_of);
        if (looking_.queue.empty()) return end_of_looking(faults);
    }
    const PatientId patient = std::move(looking_.queue.front());
    looking_.queue.pop_front();
    const auto known = records_.find(patient);
    std::optional<PatientRecord> aside;
    if (known == records_.end()) {
        auto folded = fold_aside(patient);
        if (!folded && folded.faults().front().id == kLocked) {
            looking_.queue.push_front(patient);  // goes on once the window is unlocked
            return false;
        }
        if (!folded) {
            looking_.failed.insert(patient);
            lines_.erase(patient);  // what was foreseen of them is not known to hold
            looking_.waiting[snapshot_name(patient)].clear();  // what was foreseen before holds no longer
            faults.insert(faults.end(), folded.faults().begin(), folded.faults().end());
            return true;
        }
        aside = std::move(*folded);
    }
    const PatientRecord& record = aside ? *aside : known->second;
    const Course course = derive_course(record, formulary_, rules_, as_of);
    lines_.insert_or_assign(patient, KeptLine{as_of, caseload_line(record, course, ground(), as_of)});
    if (!log_->keeps_snapshots() || !looking_.behind.contains(patient)) return true;
    foresee(record, as_of);
    if (looking_.waiting.size() >= kPutTogether && log_->put_snapshots(looking_.waiting))
        looking_.waiting.clear();
    return true;
}

/// Everyone was looked at: puts what waits, and then the index, so that it never promises too much. What came
/// into the log past the desk is looked at first.
bool Desk::end_of_looking(Faults& faults) {
    if (!log_->keeps_snapshots()) return false;
    auto changed = log_->changed_since(looking_.state, patients_);
    if (!changed || !changed->follows) return false;
    bool more = false;
    for (const PatientId& patient : changed->patients) {
        if (looking_.own.contains(patient)) continue;
        forget(patient);
        more = true;
    }
    if (changed->others) {
        if (auto known = log_->patients()) patients_ = std::move(*known);
        more = true;
    }
    if (changed->clinic && !looking_.own_clinic) {
        records_.clear();
        recent_.clear();
        if (auto read = read_clinic(); !read)
            faults.insert(faults.end(), read.faults().begin(), read.faults().end());
        more = true;
    }
    looking_.state = changed->state;
    looking_.own.clear();
    looking_.own_clinic = false;
    if (more) return true;
    if (!looking_.waiting.empty() && !log_->put_snapshots(looking_.waiting)) return false;
    looking_.waiting.clear();
    const std::string index = ground_mark_ + "\n" + looking_.state;
    if (index != looking_.kept_index && log_->put_snapshots({{kIndex, index}})) looking_.kept_index = index;
    return false;
}

}  // namespace evenfall
