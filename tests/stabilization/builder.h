// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "rules/texts.h"
#include "stabilization/check.h"

namespace evenfall::testing_diary {

inline const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

inline const Rules& rules() {
    static const Rules loaded = Rules::load(resources_folder() / "rules.json").value();
    return loaded;
}

inline const Zone& new_york() {
    static const Zone zone = Zone::named("America/New_York", "").value();
    return zone;
}

inline LocalTime at(const std::string& text) {
    return parse_local_time(text, "").value();
}

inline Dose mg(double amount) {
    return Dose::micrograms(std::llround(amount * 1000));
}

inline Regimen regimen(const std::string& drug, const std::vector<std::pair<int, double>>& hours_and_mg) {
    Regimen result;
    for (const auto& [hour, amount] : hours_and_mg)
        result.doses.push_back({{hour * 60}, drug, mg(amount), "", ""});
    return result;
}

/// An invented diary, the same for the same seed on every machine.
class DiaryBuilder {
  public:
    explicit DiaryBuilder(std::uint64_t seed, Day first = day_at(2026, 10, 5)) : random_(seed), day_(first) {}

    /// A whole number from `low` to `high`.
    int between(int low, int high) {
        return low + static_cast<int>((random_() >> 11U) % static_cast<std::uint64_t>(high - low + 1));
    }
    bool chance(int percent) { return between(1, 100) <= percent; }

    DiaryBuilder& dose(Day day, int minute, const std::string& drug, double amount,
                       TakenWhy why = TakenWhy::unsaid) {
        diary.intake.push_back({LocalTime(day) + std::chrono::minutes(minute), drug, mg(amount), why, ""});
        return *this;
    }
    DiaryBuilder& rating(LocalTime when, const std::string& item, int severity) {
        diary.ratings.push_back({when, item, std::clamp(severity, 0, 10)});
        return *this;
    }
    /// `days` more days taken as the regimen says, each dose up to `jitter` minutes from its time.
    DiaryBuilder& days_of(const Regimen& taken, int days, int jitter) {
        for (int i = 0; i < days; ++i, day_ += std::chrono::days(1))
            for (const DoseTime& each : taken.doses)
                dose(day_, each.at.minutes + between(-jitter, jitter), each.drug, each.amount.mg());
        return *this;
    }
    Day next_day() const { return day_; }

    Diary diary;

  private:
    std::mt19937_64 random_;
    Day day_;
};

/// The check on a diary held against one regimen since before the diary, at noon two days after its last
/// entry.
inline StabilizationInput input_of(const Diary& diary, const std::vector<DatedRegimen>& intended) {
    StabilizationInput input;
    input.diary = diary;
    input.intended = intended;
    LocalTime last{};
    for (const Intake& each : diary.intake) last = std::max(last, each.taken_at);
    input.as_of = LocalTime(day_of(last)) + std::chrono::hours(36);
    return input;
}

inline StabilizationCheck check(const StabilizationInput& input) {
    return check_stabilization(input, formulary(), rules(), new_york());
}

inline const Flag* flag(const StabilizationCheck& result, const std::string& rule) {
    for (const Flag& each : result.flags)
        if (each.rule == rule) return &each;
    return nullptr;
}

inline const Gate* gate(const StabilizationCheck& result, const std::string& name) {
    for (const Gate& each : result.readiness)
        if (each.gate == name) return &each;
    return nullptr;
}

inline bool names(const Flag* flag, const std::string& part) {
    if (flag == nullptr) return false;
    for (const std::string& entry : flag->entries)
        if (entry.find(part) != std::string::npos) return true;
    return false;
}

}  // namespace evenfall::testing_diary
