// SPDX-License-Identifier: GPL-3.0-or-later
#include <map>

#include "formulary/shipped.h"

namespace evenfall {
namespace {

using testing::mg;
using testing::shipped;

/// Milligrams equal to 10 mg of diazepam as a source prints them, low and high.
using Table = std::map<std::string, std::pair<std::string, std::string>>;

std::vector<const PublishedEquivalence*> figures_of(const std::string& drug, const std::string& source) {
    std::vector<const PublishedEquivalence*> figures;
    for (const auto& published : shipped().find(drug)->equivalence->published)
        if (published.provenance.source == source && !published.provenance.from_memory)
            figures.push_back(&published);
    return figures;
}

void expect_table(const std::string& source, const Table& table) {
    for (const auto& [drug, ends] : table) {
        SCOPED_TRACE(source + " " + drug);
        const auto figures = figures_of(drug, source);
        ASSERT_EQ(figures.size(), 1U);
        EXPECT_EQ(figures.front()->low, mg(ends.first));
        EXPECT_EQ(figures.front()->high, mg(ends.second));
    }
    for (const auto& [drug, entry] : shipped().drugs)
        EXPECT_EQ(table.contains(drug), !figures_of(drug, source).empty()) << source << " " << drug;
}

// US Department of Veterans Affairs / Department of Defense, guideline for substance use disorders (2021),
// the column reprinted in table 7 of the Joint Clinical Practice Guideline on Benzodiazepine Tapering (2025),
// pocket guide p. 19.
TEST(Equivalence, IsThatOfTheGovernmentColumnInTheJointGuideline) {
    expect_table("S2", {{"alprazolam", {"1", "1"}},
                        {"chlordiazepoxide", {"25", "25"}},
                        {"clonazepam", {"1", "1"}},
                        {"clorazepate", {"15", "15"}},
                        {"estazolam", {"1", "1"}},
                        {"flurazepam", {"15", "15"}},
                        {"lorazepam", {"2", "2"}},
                        {"oxazepam", {"30", "30"}},
                        {"quazepam", {"10", "10"}},
                        {"temazepam", {"15", "15"}},
                        {"triazolam", {"0.25", "0.25"}}});
}

// Norwegian Directorate of Health, guideline on addictive medicines: equipotency of benzodiazepines and
// z-hypnotics, table per 10 mg diazepam (19 October 2021).
TEST(Equivalence, IsThatOfTheNorwegianDirectorateOfHealth) {
    expect_table("S7", {{"alprazolam", {"0.5", "1"}},
                        {"clonazepam", {"0.5", "1"}},
                        {"oxazepam", {"30", "50"}},
                        {"zolpidem", {"10", "20"}},
                        {"zopiclone", {"7.5", "10"}}});
}

// World Health Organization, Clinical Guidelines for Withdrawal Management and Treatment of Drug Dependence
// in Closed Settings (2009), table 8, printed per 5 mg diazepam and doubled here.
TEST(Equivalence, IsThatOfTheWorldHealthOrganization) {
    expect_table("S3", {{"alprazolam", {"1", "1"}},
                        {"clobazam", {"20", "20"}},
                        {"lorazepam", {"1", "1"}},
                        {"oxazepam", {"30", "30"}},
                        {"temazepam", {"20", "20"}},
                        {"triazolam", {"0.5", "0.5"}}});
}

TEST(Equivalence, EndsAreTheLeastAndTheMostThatWereLookedUp) {
    for (const auto& [name, drug] : shipped().drugs) {
        SCOPED_TRACE(name);
        ASSERT_TRUE(drug.equivalence.has_value());
        Dose least = Dose::milligrams(100'000);
        Dose most;
        for (const auto& published : drug.equivalence->published) {
            if (published.provenance.from_memory) continue;
            least = std::min(least, published.low);
            most = std::max(most, published.high);
        }
        EXPECT_EQ(drug.equivalence->most_diazepam, least);
        EXPECT_EQ(drug.equivalence->least_diazepam, most);
    }
}

TEST(Equivalence, UsualIsTheGovernmentFigureWhereThereIsOne) {
    for (const auto& [name, drug] : shipped().drugs) {
        const auto figures = figures_of(name, "S2");
        if (!figures.empty()) {
            EXPECT_EQ(drug.equivalence->usual, figures.front()->low) << name;
        }
        EXPECT_FALSE(drug.equivalence->usual_source.empty()) << name;
    }
}

TEST(Equivalence, SaysWhereSourcesAreTooFew) {
    for (const char* name : {"estazolam", "flurazepam", "eszopiclone", "zaleplon"})
        EXPECT_NE(shipped().find(name)->equivalence->usual_source.find("too few sources"), std::string::npos)
            << name;
    EXPECT_EQ(shipped().find("lorazepam")->equivalence->usual_source.find("too few"), std::string::npos);
}

TEST(Equivalence, TheLargerFigureGivesTheLeastDiazepam) {
    const auto range = as_diazepam(mg("4"), *shipped().find("lorazepam")->equivalence);
    EXPECT_EQ(range.least, mg("20"));
    EXPECT_EQ(range.usual, mg("20"));
    EXPECT_EQ(range.most, mg("40"));
    const auto alprazolam = as_diazepam(mg("2"), *shipped().find("alprazolam")->equivalence);
    EXPECT_EQ(alprazolam.least, mg("12.5"));
    EXPECT_EQ(alprazolam.usual, mg("20"));
    EXPECT_EQ(alprazolam.most, mg("40"));
    EXPECT_EQ(range + alprazolam, (DiazepamRange{mg("32.5"), mg("40"), mg("80")}));
}

TEST(Equivalence, RoundsToTheNearestMicrogramHalfUp) {
    const Equivalence by_three{mg("3"), mg("3"), mg("3"), "test", {}};
    EXPECT_EQ(as_diazepam(mg("1"), by_three).usual, mg("3.333"));
    EXPECT_EQ(as_diazepam(mg("2"), by_three).usual, mg("6.667"));
    const Equivalence by_twenty{mg("20"), mg("20"), mg("20"), "test", {}};
    EXPECT_EQ(as_diazepam(Dose::nanograms(1'000), by_twenty).usual, Dose::micrograms(1));
    EXPECT_EQ(as_diazepam(Dose::nanograms(999), by_twenty).usual, Dose());
    EXPECT_EQ(as_diazepam(Dose(), by_twenty).usual, Dose());
}

TEST(Equivalence, OfDiazepamIsDiazepam) {
    for (const char* amount : {"0.5", "2", "7.5", "40"})
        EXPECT_EQ(as_diazepam(mg(amount), *shipped().find("diazepam")->equivalence),
                  (DiazepamRange{mg(amount), mg(amount), mg(amount)}));
}

}  // namespace
}  // namespace evenfall
