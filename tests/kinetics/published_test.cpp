// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <gtest/gtest.h>

#include "formulary/formulary.h"
#include "kinetics/constants.h"
#include "kinetics/steady.h"

// The shipped constants, run through the model, against published figures that a clinician can look up.
// Sources as in the formulary (S…); where the absorption constant was derived from the same peak time the
// test shows that the model gives it back.

using namespace evenfall;
using namespace evenfall::kinetics;

namespace {

const Formulary& shipped() {
    static const Formulary formulary = [] {
        auto loaded = load_formulary(EVENFALL_SOURCE_DIR "/resources/formulary.json");
        if (!loaded)
            throw std::runtime_error(loaded.faults().front().id + " " + loaded.faults().front().place);
        return *std::move(loaded);
    }();
    return formulary;
}

Kinetics constants_of(const std::string& drug) {
    return shipped().find(drug)->kinetics;
}

Model shipped_model(const std::string& drug) {
    return model_of(constants_of(drug), drug);
}

std::size_t column_of(const Model& model, const std::string& name) {
    const auto& columns = model.columns();
    return static_cast<std::size_t>(std::find(columns.begin(), columns.end(), name) - columns.begin());
}

double time_to_peak(const std::string& drug) {
    const Levels found = levels(shipped_model(drug), {}, {{0, 1}}, {0, 1 / 60.0, 24 * 60});
    const auto& parent = found.values[1];
    return found.grid.at(
        static_cast<std::size_t>(std::max_element(parent.begin(), parent.end()) - parent.begin()));
}

/// A species' highest amount on the n-th day of one dose a day, from an empty body.
double peak_on_day(const Model& model, std::size_t column, int day) {
    const Levels found = levels(model, {}, repeated({{0, 1}}, day), {24.0 * (day - 1), 0.25, 97});
    return *std::max_element(found.values[column].begin(), found.values[column].end());
}

/// How many times the first day's peak a species reaches at steady state, one dose a day.
double accumulation(const Model& model, const std::string& name) {
    return peak_on_day(model, column_of(model, name), 400) / peak_on_day(model, column_of(model, name), 1);
}

/// The amount just before the 8 o'clock dose at steady state, in equal doses at the given hours.
double trough(const Model& model, const std::string& name, const std::vector<double>& at) {
    std::vector<DailyDose> doses;
    for (const double hour : at) doses.push_back({hour, 1});
    return steady_start(model, doses, at.front()).state[column_of(model, name)];
}

/// The share of the steady average that the average of the n-th day reaches, from an empty body.
double reached_on_day(const std::string& drug, int day, const std::vector<DailyDose>& doses) {
    const Model model = shipped_model(drug);
    return relative_averages(model, {}, repeated(doses, day), {24.0 * day, 1, 1}).front() / daily_mg(doses);
}

}  // namespace

TEST(Published, EveryAgentOfTheFormularyMakesAModelAtTheMiddleAndAtBothEnds) {
    ASSERT_GE(shipped().drugs.size(), 17U);
    for (const auto& [name, drug] : shipped().drugs) {
        EXPECT_TRUE(Model::make(drug.kinetics, name)) << name;
        EXPECT_TRUE(Model::make(fast_end(drug.kinetics), name)) << name;
        EXPECT_TRUE(Model::make(slow_end(drug.kinetics), name)) << name;
    }
}

TEST(Published, PeakTimesOfSingleDosesAreWithinThePublishedRanges) {
    struct PeakTime {
        const char* drug;
        double low, high;
        const char* source;
    };
    const std::vector<PeakTime> table{
        {"alprazolam", 1, 2, "S20, US label"},
        {"clobazam", 0.5, 4, "S63, J Clin Pharmacol 2018"},
        {"clonazepam", 1, 4, "S29, US label"},
        {"diazepam", 0.25, 2.5, "S31, US label: 1-1.5 h, range 0.25-2.5"},
        {"estazolam", 0.5, 6, "S33: 2 h, range 0.5-6"},
        {"oxazepam", 1.7, 2.8, "S76, Eur J Clin Pharmacol 1988;35:385"},
        {"temazepam", 2, 3, "S1"},
        {"triazolam", 0.5, 2, "S41, US label: within 2 h"},
        {"zolpidem", 0.75, 2.6, "S87, Clin Pharmacokinet 1995;29:142"},
        {"zopiclone", 1.5, 2, "S45, Swiss label"},
        {"eszopiclone", 1.0, 1.6, "S46"},
        {"zaleplon", 0.5, 2, "S90, JAMA 2013;309:706, table 3"},
    };
    for (const PeakTime& row : table) {
        EXPECT_GE(time_to_peak(row.drug), row.low - 0.02) << row.drug << ": " << row.source;
        EXPECT_LE(time_to_peak(row.drug), row.high + 0.02) << row.drug << ": " << row.source;
    }
    // S36, US label: lorazepam peaks about 2 h after the dose.
    EXPECT_NEAR(time_to_peak("lorazepam"), 2, 0.1);
}

TEST(Published, DesalkylflurazepamAccumulatesSevenAndAHalfTimesOnNightlyFlurazepam) {
    // S71 (Clin Pharmacol Ther 1981): accumulation ratio 7.5; half-life group means 74 to 160 h.
    const double found = accumulation(shipped_model("flurazepam"), "N-desalkylflurazepam");
    EXPECT_NEAR(found, 7.5, 0.75);
}

TEST(Published, ClobazamAccumulatesTwoToThreefoldAndItsMetaboliteFarMore) {
    // S48 (South African label): parent 2- to 3-fold, N-desmethylclobazam about 20-fold.
    const Model model = shipped_model("clobazam");
    EXPECT_GE(accumulation(model, "clobazam"), 2);
    EXPECT_LE(accumulation(model, "clobazam"), 3);
    const Model slow = model_of(slow_end(constants_of("clobazam")), "clobazam");
    EXPECT_GT(accumulation(slow, "N-desmethylclobazam"), 10);
    EXPECT_LT(accumulation(model_of(fast_end(constants_of("clobazam")), "clobazam"), "N-desmethylclobazam"),
              20);
}

TEST(Published, ClonazepamAccumulatesAboutThreefold) {
    // S68 (J Clin Pharmacol 2005;45:1288): 3.3-fold; the published half-lives of 19 to 60 h span it.
    const double fast =
        accumulation(model_of(fast_end(constants_of("clonazepam")), "clonazepam"), "clonazepam");
    const double slow =
        accumulation(model_of(slow_end(constants_of("clonazepam")), "clonazepam"), "clonazepam");
    EXPECT_LT(fast, 3.3);
    EXPECT_GT(slow, 3.3);
    EXPECT_NEAR(accumulation(shipped_model("clonazepam"), "clonazepam"), 3.3, 0.6);
}

TEST(Published, ChlordiazepoxidesMetabolitesStandAboveItAtSteadyState) {
    // S62 (Int J Clin Pharmacol Biopharm 1978;16:486): steady-state troughs of desmethylchlordiazepoxide and
    // of demoxepam above the parent's.
    const Model model = shipped_model("chlordiazepoxide");
    const std::vector<double> thrice{8, 14, 22};
    const double parent = trough(model, "chlordiazepoxide", thrice);
    EXPECT_GT(trough(model, "desmethylchlordiazepoxide", thrice), parent);
    EXPECT_GT(trough(model, "demoxepam", thrice), parent);
}

TEST(Published, ShortActingHypnoticsDoNotAccumulateFromNightToNight) {
    // Triazolam: S41, no accumulation over 7 days. Zolpidem: S42, none over 2 weeks. Zopiclone: S45,
    // practically none.
    for (const std::string drug : {"triazolam", "zolpidem", "zaleplon"})
        EXPECT_LT(accumulation(shipped_model(drug), drug), 1.01) << drug;
    EXPECT_LT(accumulation(shipped_model("zopiclone"), "zopiclone"), 1.05);
}

TEST(Published, DaysToSteadyStateAreThePublishedOnes) {
    struct Days {
        const char* drug;
        int day;
        std::vector<DailyDose> doses;
        const char* source;
    };
    const std::vector<DailyDose> once{{0, 1}}, twice{{0, 1}, {12, 1}};
    const std::vector<Days> table{
        {"lorazepam", 3, twice, "S75 (J Clin Psychiatry 1978;39(10):16): 2-3 days"},
        {"temazepam", 3, once, "S80 (J Clin Pharmacol 1984;24:58): trough stopped rising after 3 days"},
        {"clonazepam", 6, once, "S86: 4-6 days"},
        {"clobazam", 14, once, "S48: about 2 weeks"},
        {"quazepam", 21, once, "S78 (Arzneimittelforschung 1989): 3 weeks"},
    };
    for (const Days& row : table) {
        EXPECT_GE(reached_on_day(row.drug, row.day, row.doses), 0.9) << row.drug << ": " << row.source;
        EXPECT_LT(reached_on_day(row.drug, 1, row.doses), 0.9) << row.drug << ": " << row.source;
    }
}

TEST(Published, ClorazepateIsNordiazepamWithinTheHour) {
    // S70 (1977 crossover): nordiazepam from clorazepate peaks at 80 minutes on average; S1 0.5-2 h. Its
    // half-life of 62 h leaves 3 % after thirteen days.
    const Model model = shipped_model("clorazepate");
    const std::size_t column = column_of(model, "nordiazepam");
    const Levels found = levels(model, {}, {{0, 1}}, {0, 1 / 60.0, 13 * 24 * 60 + 1});
    const auto& amounts = found.values[column];
    const auto peak = std::max_element(amounts.begin(), amounts.end());
    EXPECT_NEAR(found.grid.at(static_cast<std::size_t>(peak - amounts.begin())), 80 / 60.0, 0.5);
    EXPECT_NEAR(amounts.back() / *peak, std::pow(0.5, 13 * 24 / 62.0), 0.01);
}

TEST(Published, OneDoseOfDiazepamFadesWithinTheDayAlthoughItsHalfLifeIsLong) {
    // Two-compartment behaviour: by twelve hours after the peak well under half is left in the blood, while
    // the terminal half-life is 46.6 h (S69, J Clin Invest 1975;55:347).
    const Model model = shipped_model("diazepam");
    const double peak = state_at(model, {}, {{0, 10}}, time_to_peak("diazepam"))[1];
    EXPECT_LT(state_at(model, {}, {{0, 10}}, 12)[1], 0.65 * peak);
    EXPECT_NEAR(state_at(model, {}, {{0, 10}}, 246.6)[1] / state_at(model, {}, {{0, 10}}, 200)[1], 0.5, 1e-9);
}
