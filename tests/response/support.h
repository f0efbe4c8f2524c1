// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "response/response.h"
#include "rules/texts.h"

namespace evenfall::testing_response {

using std::chrono::days;

inline const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

inline const Rules& rules() {
    static const Rules loaded = Rules::load(resources_folder() / "rules.json").value();
    return loaded;
}

inline const Scales& scales() {
    static const Scales loaded = load_scales(resources_folder() / "scales.json").value();
    return loaded;
}

inline Regimen day_of_lorazepam(std::int64_t micrograms) {
    Regimen regimen;
    if (micrograms > 0)
        regimen.doses.push_back({{8 * 60}, "lorazepam", Dose::micrograms(micrograms), "", ""});
    return regimen;
}

inline const Day kFirstStep = day_at(2026, 9, 7);

inline ResponseView assess(const ResponseInput& input) {
    return assess_response(input, formulary(), rules());
}

/// An invented course: lorazepam from 4 mg a day, one rating of each item at noon on every day.
class Course {
  public:
    explicit Course(std::int64_t before_micrograms = 4000) {
        input.before = day_of_lorazepam(before_micrograms);
        at(kFirstStep);
    }

    Course& at(Day day) {
        input.as_of = at_clock(day, {18 * 60});
        return *this;
    }
    Course& step(Day from, std::int64_t micrograms) {
        input.taken.push_back({from, day_of_lorazepam(micrograms)});
        return *this;
    }
    Course& rate(const std::string& item, Day from, Day to, int severity) {
        for (Day day = from; day < to; day += days(1)) rate_at(at_clock(day, {12 * 60}), item, severity);
        return *this;
    }
    Course& rate_at(LocalTime time, const std::string& item, int severity) {
        input.diary.ratings.push_back({time, item, severity});
        return *this;
    }
    Course& call(Day day, const std::string& question, const std::string& answer) {
        input.checkins.push_back({at_clock(day, {10 * 60}), {{question, answer}}, ""});
        return *this;
    }
    /// A call in which every red-flag question was answered with no.
    Course& quiet_call(Day day) {
        CheckIn call{at_clock(day, {9 * 60}), {}, ""};
        for (const auto& [id, rule] : rules().all())
            if (rule.group == "red-flag") {
                std::string question = id.substr(std::string("red-flag-").size());
                std::ranges::replace(question, '-', ' ');
                call.answers.emplace_back(question, "no");
            }
        input.checkins.push_back(call);
        return *this;
    }
    Course& form(const std::string& scale, Day on, std::vector<int> items) {
        input.scales.push_back(score({scale, on, std::move(items)}, scales(), "form").value());
        return *this;
    }
    ResponseView view() const { return assess(input); }

    ResponseInput input;
};

inline const Suggestion* suggested(const ResponseView& view, Act act) {
    const auto found = std::ranges::find(view.suggestions, act, &Suggestion::act);
    return found == view.suggestions.end() ? nullptr : &*found;
}

inline bool rests_on(const Suggestion* suggestion, const std::string& rule) {
    return suggestion &&
           std::ranges::find(suggestion->because, rule, &Flag::rule) != suggestion->because.end();
}

/// A course of one 10 % cut, flat at 2 before and at `after` since, seen `days_since` days later.
inline Course one_cut(int after, int days_since, const std::string& item = "anxiety") {
    Course course;
    course.step(kFirstStep, 3600)
        .rate(item, kFirstStep - days(14), kFirstStep, 2)
        .rate(item, kFirstStep, kFirstStep + days(days_since + 1), after)
        .at(kFirstStep + days(days_since))
        .quiet_call(kFirstStep + days(days_since));
    return course;
}

}  // namespace evenfall::testing_response
