// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/pieces.h"

#include <cmath>
#include <random>

#include <glpk.h>
#include <gtest/gtest.h>

#include "planning/solver_reference.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

Product tablet(std::int64_t mcg, Cuts cuts, Form form = Form::tablet) {
    return {"clonazepam", form, Dose::micrograms(mcg), cuts, {}};
}

Product liquid(std::int64_t mcg_per_ml, std::int64_t measure_ul) {
    return {"clonazepam", Form::oral_solution, Dose::micrograms(mcg_per_ml), Cuts::whole,
            Volume::nanolitres(measure_ul * 1000)};
}

const PieceWeights kWeights;

std::string words(const std::vector<Piece>& pieces) {
    std::string text;
    for (const Piece& piece : pieces) {
        const std::string many =
            piece.cut == Cut::ml ? print_ml_digits(piece.volume) : std::to_string(piece.count);
        text += (text.empty() ? "" : " + ") + many + " " + word(piece.cut) + " " +
                print_mg_digits(piece.product.strength);
    }
    return text;
}

TEST(Pieces, AWholeTabletIsTakenBeforeTwoHalves) {
    const std::vector<Product> products{tablet(500, Cuts::quarters)};
    EXPECT_EQ(words(*pieces_for(Dose::micrograms(500), "clonazepam", products, kWeights)), "1 whole 0.5");
    EXPECT_EQ(words(*pieces_for(Dose::micrograms(1375), "clonazepam", products, kWeights)),
              "2 whole 0.5 + 1 half 0.5 + 1 quarter 0.5");
}

TEST(Pieces, AnAmountBetweenThePiecesCannotBeMade) {
    const std::vector<Product> products{tablet(500, Cuts::halves)};
    EXPECT_FALSE(pieces_for(Dose::micrograms(125), "clonazepam", products, kWeights));
    EXPECT_TRUE(pieces_for(Dose::micrograms(250), "clonazepam", products, kWeights));
}

TEST(Pieces, OnlyProductsOfTheAgentCount) {
    const std::vector<Product> products{{"diazepam", Form::tablet, Dose::milligrams(2), Cuts::quarters, {}}};
    EXPECT_FALSE(pieces_for(Dose::milligrams(2), "clonazepam", products, kWeights));
}

TEST(Pieces, CapsulesAndExtendedReleaseAreNeverCut) {
    for (const Form form : {Form::capsule, Form::extended_release_tablet, Form::extended_release_capsule})
        EXPECT_FALSE(pieces_for(Dose::micrograms(250), "clonazepam",
                                std::vector{tablet(500, Cuts::halves, form)}, kWeights));
}

TEST(Pieces, NothingIsMadeOfNoPieces) {
    EXPECT_TRUE(pieces_for(Dose(), "clonazepam", {}, kWeights)->empty());
    EXPECT_FALSE(
        pieces_for(Dose::milligrams(-1), "clonazepam", std::vector{tablet(500, Cuts::whole)}, kWeights));
}

TEST(Pieces, ALiquidIsLimitedToTenMillilitresAtOneTime) {
    const std::vector<Product> products{liquid(100, 100)};
    EXPECT_EQ(words(*pieces_for(Dose::milligrams(1), "clonazepam", products, kWeights)), "10 mL 0.1");
    EXPECT_FALSE(pieces_for(Dose::micrograms(1010), "clonazepam", products, kWeights));
}

TEST(Pieces, ASecondPourCostsAsMuchAsASecondPiece) {
    const PieceTable table(std::vector{liquid(100, 100)}, "clonazepam", kWeights, Dose::milligrams(1));
    const auto burden = [&](std::int64_t mcg) {
        const Dose amount = Dose::micrograms(mcg);
        return table.day_burden(std::span(&amount, 1));
    };
    EXPECT_EQ(burden(500), 35);
    EXPECT_EQ(burden(510), 45);
}

TEST(Pieces, ADayIsMadeOfOneStrengthWhereThatIsLessTrouble) {
    // 0.5 mg alone could be two of the small or one of the large; with 0.25 mg at noon one product does for
    // both.
    const std::vector<Product> products{tablet(500, Cuts::whole), tablet(250, Cuts::whole)};
    const PieceTable table(products, "clonazepam", kWeights, Dose::milligrams(1));
    const std::vector<Dose> day{Dose::micrograms(500), Dose::micrograms(250)};
    const auto pieces = table.day_pieces(day);
    EXPECT_EQ(words(pieces->at(0)), "2 whole 0.25");
    EXPECT_EQ(words(pieces->at(1)), "1 whole 0.25");
}

TEST(Pieces, TheOrderOfProductsDoesNotMatter) {
    const std::vector<Product> one{tablet(500, Cuts::quarters), tablet(125, Cuts::whole), liquid(100, 50)};
    const std::vector<Product> other{one[2], one[0], one[1], one[0]};
    for (std::int64_t mcg = 0; mcg <= 2500; mcg += 5)
        EXPECT_EQ(pieces_for(Dose::micrograms(mcg), "clonazepam", one, kWeights),
                  pieces_for(Dose::micrograms(mcg), "clonazepam", other, kWeights));
}

TEST(Pieces, TheNearestMakeableAmountsAreNamed) {
    const PieceTable table(std::vector{tablet(500, Cuts::halves)}, "clonazepam", kWeights,
                           Dose::milligrams(2));
    const auto [below, above] = table.nearest(Dose::micrograms(600));
    EXPECT_EQ(below, Dose::micrograms(500));
    EXPECT_EQ(above, Dose::micrograms(750));
}

TEST(Pieces, StrengthsWithoutACommonGridAreRefusedNotSearchedForEver) {
    const std::vector<Product> products{
        {"clonazepam", Form::tablet, Dose::nanograms(333'333), Cuts::whole, {}}, tablet(500, Cuts::whole)};
    const PieceTable table(products, "clonazepam", kWeights, Dose::milligrams(100));
    EXPECT_FALSE(table.searchable());
    EXPECT_FALSE(table.makes(Dose::micrograms(500)));
}

/// A random day: some products of one agent and amounts for up to three dose times, most of them makeable.
struct RandomDay {
    std::vector<Product> products;
    std::vector<Dose> amounts;
};

RandomDay random_day(std::mt19937& random) {
    const auto pick = [&](int low, int high) { return std::uniform_int_distribution(low, high)(random); };
    const std::int64_t strengths[] = {125, 250, 500, 1000, 2000};
    RandomDay day;
    for (int n = pick(1, 3); n > 0; --n)
        day.products.push_back(tablet(strengths[pick(0, 4)], static_cast<Cuts>(pick(0, 2))));
    if (pick(0, 3) == 0) day.products.push_back(liquid(pick(0, 1) ? 100 : 500, pick(0, 1) ? 100 : 250));
    for (int n = pick(1, 3); n > 0; --n)
        day.amounts.push_back(pick(0, 4) ? Dose::micrograms(125) * pick(0, 24)
                                         : Dose::nanograms(31'250) * pick(0, 96));
    return day;
}

TEST(Pieces, CostAsMuchAsAnIntegerProgramsOptimumOnTenThousandRandomDays) {
    std::mt19937 random(20261124);
    int makeable = 0;
    for (int i = 0; i < 10'000; ++i) {
        const RandomDay day = random_day(random);
        const PieceTable table(day.products, "clonazepam", kWeights, Dose::milligrams(5));
        const auto reference = reference::least_burden(day.products, day.amounts, kWeights);
        const int burden = table.day_burden(day.amounts);
        ASSERT_EQ(burden < kNotMakeable, reference.has_value()) << "day " << i;
        if (!reference) continue;
        ++makeable;
        ASSERT_EQ(burden, *reference) << "day " << i;
        const auto pieces = *table.day_pieces(day.amounts);
        ASSERT_EQ(burden_of(pieces, kWeights), burden) << "day " << i;
        for (std::size_t t = 0; t < pieces.size(); ++t) ASSERT_EQ(amount_of(pieces[t]), day.amounts[t]);
    }
    EXPECT_GT(makeable, 4'000);
}

}  // namespace
}  // namespace evenfall
