// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json.hpp>

#include "model/diary.h"
#include "model/person.h"
#include "model/plan.h"
#include "model/product.h"
#include "model/regimen.h"

// How plain values are written in our own event payloads: amounts as decimal strings in mg, days and times as
// ISO text, enumerations by their words. A missing key keeps its default, so that an older event stays
// readable; a value that cannot be read throws nlohmann::json::exception or std::invalid_argument, which the
// record's reader turns into a fault. Files from outside go through `exchange`, which is strict.

NLOHMANN_JSON_NAMESPACE_BEGIN

template <class T>
struct adl_serializer<std::optional<T>> {
    static void to_json(json& j, const std::optional<T>& value) {
        if (value)
            j = *value;
        else
            j = nullptr;
    }
    static void from_json(const json& j, std::optional<T>& value) {
        if (j.is_null())
            value.reset();
        else
            value = j.get<T>();
    }
};

template <>
struct adl_serializer<evenfall::Day> {
    static void to_json(json& j, const evenfall::Day& value);
    static void from_json(const json& j, evenfall::Day& value);
};

template <>
struct adl_serializer<evenfall::LocalTime> {
    static void to_json(json& j, const evenfall::LocalTime& value);
    static void from_json(const json& j, evenfall::LocalTime& value);
};

template <evenfall::Worded E>
struct adl_serializer<E> {
    static void to_json(json& j, const E& value) { j = evenfall::word(value); }
    static void from_json(const json& j, E& value) {
        const auto read = evenfall::from_word<E>(j.get_ref<const std::string&>());
        if (!read) throw std::invalid_argument("unknown word: " + j.get<std::string>());
        value = *read;
    }
};

NLOHMANN_JSON_NAMESPACE_END

namespace evenfall {

void to_json(nlohmann::json& j, const Dose& value);
void from_json(const nlohmann::json& j, Dose& value);
void to_json(nlohmann::json& j, const Volume& value);
void from_json(const nlohmann::json& j, Volume& value);
void to_json(nlohmann::json& j, const Share& value);
void from_json(const nlohmann::json& j, Share& value);
void to_json(nlohmann::json& j, const ClockTime& value);
void from_json(const nlohmann::json& j, ClockTime& value);

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Product, drug, form, strength, cuts, measure)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Piece, product, cut, count, volume)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(DoseTime, at, drug, amount, how, why)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Regimen, doses)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(DatedRegimen, from, regimen)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Flag, rule, args, entries)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(PlanRequest, drug, start, target, cap, days_per_step, pace,
                                                commit_steps, shape, first_dose_time, end_amount, last_dose,
                                                test_reduction)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(PlannedDose, at, drug, amount, pieces)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Step, number, starts, days, daily, percent_of_last, status,
                                                doses, flags)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Floor, amount, smallest_cut, says)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Plan, request, start, products, steps, floor, evenness, flags)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Intake, taken_at, drug, amount, why, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Rating, rated_at, item, severity)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Diary, use, intake, ratings, kept_empty)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(CheckIn, at, answers, own_words)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(ScaleAnswers, scale, on, items)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Person, reference, name, born, weight_kg, language, phone)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(RiskScreen, answers, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(History, taken_for, since, treatment, earlier_attempts, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Goals, goals, confidence, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Supporter, name, relation, phone, may_be_contacted)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Supports, people, safe_times)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Lifestyle, meals, movement, daylight, sleep, skills,
                                                substances)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(CuttingAbility, finest, helper)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Baseline, on, severity, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Suitability, outcome, rests_on, reason)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Clinic, name, phone, after_hours, emergency_number,
                                                crisis_number, days_per_fill, reserve_days)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Prescriber, name, licence)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(OnHand, product, quarters, volume)

}  // namespace evenfall
