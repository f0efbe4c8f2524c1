// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "planning/supply.h"

namespace evenfall {
namespace {

const Product kTablet{"lorazepam", Form::tablet, Dose::micrograms(500), Cuts::quarters, {}};
const Product kLarge{"lorazepam", Form::tablet, Dose::milligrams(2), Cuts::halves, {}};
const Product kLiquid{"lorazepam", Form::oral_concentrate, Dose::milligrams(2), Cuts::whole,
                      Volume::nanolitres(50'000)};

std::vector<PlannedDose> of(Dose amount) {
    return {{{8 * 60}, "lorazepam", amount, {}}};
}

std::vector<Piece> made(Dose amount, const std::vector<OnHand>& at_home,
                        const std::vector<Product>& products) {
    auto doses = of(amount);
    add_usual_pieces(doses, at_home, products, {});
    return doses.front().pieces;
}

TEST(UsualPieces, AreOfWhatIsAtHomeWhereThatMakesTheDose) {
    const auto pieces = made(Dose::milligrams(2), {{kTablet, 80, {}}}, {kLarge, kTablet, kLiquid});
    ASSERT_EQ(pieces.size(), 1u);
    EXPECT_EQ(pieces.front().product, kTablet);
    EXPECT_EQ(pieces.front().count, 4);
}

TEST(UsualPieces, AreOfALeftoverProductOnlyWhereNothingElseMakesTheDose) {
    const std::vector<OnHand> left = {{kTablet, 80, {}}};
    EXPECT_EQ(made(Dose::milligrams(2), left, {kLarge}).front().product, kLarge)
        << "what the plan does not dispense would have to be bought again";
    EXPECT_EQ(made(Dose::micrograms(1500), left, {kLarge}).front().product, kTablet);
}

TEST(UsualPieces, AreSolidWhereSolidsMakeTheDose) {
    // One pour of the liquid is the lesser burden than three tablets.
    const auto pieces = made(Dose::micrograms(1500), {}, {kTablet, kLiquid});
    ASSERT_EQ(pieces.size(), 1u);
    EXPECT_EQ(pieces.front().product, kTablet);
}

TEST(UsualPieces, AreMeasuredWhereNothingElseMakesTheDose) {
    const auto pieces = made(Dose::micrograms(700), {{kTablet, 80, {}}}, {kTablet, kLiquid});
    EXPECT_EQ(amount_of(pieces), Dose::micrograms(700));
    EXPECT_EQ(pieces.back().product, kLiquid);
}

TEST(UsualPieces, AreNoneWhereNothingMakesTheDose) {
    EXPECT_TRUE(made(Dose::micrograms(700), {}, {kTablet}).empty());
    EXPECT_TRUE(made(Dose::micrograms(700), {}, {}).empty());
}

TEST(UsualPieces, ArePlannedForTheStartingRegimenOfASupply) {
    Plan plan;
    plan.start.doses = {{{8 * 60}, "lorazepam", Dose::micrograms(1500), {}, {}}};
    plan.products = {kTablet, kLiquid};
    const auto dated = doses_of(plan, day_at(2027, 1, 4), {});
    ASSERT_EQ(dated.size(), 1u);
    EXPECT_EQ(dated.front().doses.front().pieces.front().product, kTablet);
    const auto home = doses_of(plan, day_at(2027, 1, 4), {}, {{kLiquid, 0, Volume::millilitres(30)}});
    EXPECT_EQ(home.front().doses.front().pieces.front().product, kLiquid);
}

}  // namespace
}  // namespace evenfall
