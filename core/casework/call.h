// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "casework/caseload.h"

// A call as it is taken down: what it asks, what has been answered so far, and the entries that it becomes.

namespace evenfall {

/// How a day since the last call went, as far as the call says.
enum class CallDay { unsaid, as_planned, not_as_planned };
template <>
struct Words<CallDay> {
    static constexpr std::array<WordPair<CallDay>, 3> table{{{CallDay::unsaid, "unsaid"},
                                                             {CallDay::as_planned, "as planned"},
                                                             {CallDay::not_as_planned, "not as planned"}}};
};

/// A day that is asked about: its doses as they were planned. Only those up to now are asked about today.
struct AskedDay {
    Day day{};
    std::vector<PlannedDose> doses;
    bool in_diary = false;  ///< something is written down for it already: it is not asked again
    bool off_plan = false;  ///< of a day in the diary that is over: what was taken is not what was planned

    bool operator==(const AskedDay&) const = default;
};

/// What a call asks of this person.
struct CallAsks {
    std::optional<Day> last_call;
    std::vector<AskedDay> days;         ///< since the last call, at most the rule's days; the oldest first
    std::vector<std::string> symptoms;  ///< tracked for this person
    std::map<std::string, int> last_scores;           ///< by item, of the last time it was rated
    std::vector<std::string> dangers;                 ///< never left out
    std::map<std::string, std::string> last_answers;  ///< of the last call, by question
    std::vector<Product> products;                    ///< to be counted
    std::vector<std::string> goals;

    bool operator==(const CallAsks&) const = default;
};

CallAsks asks_of(const PatientRecord& record, const Course& course, const Rules& rules, LocalTime as_of);

/// What a person counted of a product, as typed: units as fine as the product may be cut ("21", "21.5"),
/// millilitres of a liquid; at most 9999 of either. Fault: `count-unreadable` (whole units were expected),
/// `count-not-in-pieces`.
Result<OnHand> read_count(const Product& product, const std::string& typed);

/// What has been answered so far. Everything is kept as it was typed.
struct CallForm {
    LocalTime begun{};
    std::map<std::string, std::string> answers;  ///< by question: dangers ("yes", "no"), words, function
    std::map<std::string, int> scores;           ///< 0 to 10 by symptom
    std::map<std::string, int> function;         ///< 0 (no trouble) to 10 (not possible) by question
    std::map<Day, CallDay> days;
    std::map<std::string, std::string> counted;  ///< by product, as typed
    std::string own_words;
    std::string next_on;                                ///< as typed
    std::map<std::string, EventId> dangers_written;     ///< entries that a danger was put into at once
    std::map<std::string, std::string> counted_before;  ///< of an earlier day: shown, and counted again
    std::map<std::string, std::string> beside;  ///< typed beside the talk and not written down yet, by field

    /// Whether nothing of the talk was answered.
    bool empty() const;
    bool operator==(const CallForm&) const = default;
};

/// For a draft. Fault of reading: `call-draft-unreadable`.
std::string print_call(const CallForm& form);
Result<CallForm> read_call(const std::string& text);

/// A call that was begun on an earlier day and goes on now. What was said of whole days, the ratings and the
/// words stay. What holds for one moment only is asked again: the questions that are never left out (a yes
/// is in the record already), the count, and the days from the one on which the call was begun.
CallForm gone_on(CallForm form, const std::vector<std::string>& dangers, LocalTime now);

/// Danger questions that nobody answered.
std::vector<std::string> unanswered(const CallForm& form, const CallAsks& asks);

/// What the call becomes: the check-in, ratings, doses of the days that went as planned, the count and the
/// next contact. Faults name their field: `count-unreadable`, and those of days.
Result<std::vector<Change>> changes_of(const CallForm& form, const CallAsks& asks);

/// What does not fit and is asked about before saving: the entries say one thing and the count another. Never
/// a reason to refuse.
std::vector<Flag> to_be_asked(const CallForm& form, const CallAsks& asks, const PatientRecord& record,
                              const Course& course, const Ground& ground);

}  // namespace evenfall
