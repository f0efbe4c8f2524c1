// SPDX-License-Identifier: GPL-3.0-or-later
#include "model/product.h"

#include <stdexcept>

#include <gtest/gtest.h>

#include "model/regimen.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

Dose mg(std::string_view text) {
    return parse_mg(text, "test").value();
}

const Product kTablet{"clonazepam", Form::tablet, mg("0.5"), Cuts::quarters, {}};
const Product kLiquid{"diazepam", Form::oral_solution, mg("1"), Cuts::whole, Volume::nanolitres(100'000)};

TEST(Product, IsNamedInOneStringWithPlainSpaces) {
    EXPECT_EQ(product_name(kTablet), "clonazepam 0.5 mg tablet");
    EXPECT_EQ(product_name(kLiquid), "diazepam 1 mg/mL oral solution");
    EXPECT_EQ(product_name({"clonazepam", Form::orally_disintegrating_tablet, mg("0.125"), Cuts::whole, {}}),
              "clonazepam 0.125 mg orally disintegrating tablet");
}

TEST(Product, CountsThreeFormsAsLiquidAndTwoAsModifiedRelease) {
    int liquid = 0;
    int modified = 0;
    for (const auto& [form, text] : Words<Form>::table) {
        liquid += is_liquid(form) ? 1 : 0;
        modified += is_modified_release(form) ? 1 : 0;
    }
    EXPECT_EQ(liquid, 3);
    EXPECT_EQ(modified, 2);
}

TEST(Product, KnowsEveryFormByItsOneWord) {
    for (const auto& [form, text] : Words<Form>::table) EXPECT_EQ(from_word<Form>(word(form)), form);
    EXPECT_EQ(from_word<Form>("Tablet"), std::nullopt);
}

TEST(Piece, HoldsExactlyItsShareOfTheProduct) {
    EXPECT_EQ(amount_of(Piece{kTablet, Cut::whole, 3, {}}), mg("1.5"));
    EXPECT_EQ(amount_of(Piece{kTablet, Cut::half, 1, {}}), mg("0.25"));
    EXPECT_EQ(amount_of(Piece{kTablet, Cut::quarter, 3, {}}), mg("0.375"));
    EXPECT_EQ(amount_of(Piece{kLiquid, Cut::ml, 1, Volume::nanolitres(2'300'000)}), mg("2.3"));
    const Product smallest{"clonazepam", Form::tablet, mg("0.125"), Cuts::quarters, {}};
    EXPECT_EQ(amount_of(Piece{smallest, Cut::quarter, 1, {}}).ng(), 31'250);
}

TEST(Piece, AddsUpWithOthers) {
    EXPECT_EQ(amount_of({Piece{kTablet, Cut::whole, 1, {}}, Piece{kTablet, Cut::quarter, 1, {}}}),
              mg("0.625"));
    EXPECT_EQ(amount_of(std::vector<Piece>{}), Dose());
}

TEST(Piece, ThatCannotBeMadeExactlyIsABrokenPromise) {
    const Product odd{"clonazepam", Form::tablet, Dose::nanograms(3), Cuts::halves, {}};
    EXPECT_THROW(amount_of(Piece{odd, Cut::half, 1, {}}), std::bad_optional_access);
}

TEST(Regimen, AddsUpTheDayOfEachAgent) {
    const Regimen regimen{{{{480}, "lorazepam", mg("1"), "", ""},
                           {{720}, "zolpidem", mg("5"), "", ""},
                           {{1260}, "lorazepam", mg("1.5"), "", ""}}};
    EXPECT_EQ(daily_amount(regimen, "lorazepam"), mg("2.5"));
    EXPECT_EQ(daily_amount(regimen, "diazepam"), Dose());
    EXPECT_EQ(agents_of(regimen), (std::vector<std::string>{"lorazepam", "zolpidem"}));
}

}  // namespace
}  // namespace evenfall
