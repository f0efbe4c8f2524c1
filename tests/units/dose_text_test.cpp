// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/dose_text.h"

#include <gtest/gtest.h>

namespace evenfall {
namespace {

std::string id_of(std::string_view text) {
    const auto parsed = parse_dose(text, "dose");
    return parsed ? "accepted" : parsed.faults().front().id;
}

TEST(DoseText, ReadsPlainAmounts) {
    EXPECT_EQ(parse_mg("0.125", "").value().ng(), 125'000);
    EXPECT_EQ(parse_mg("2.50", "").value().ng(), 2'500'000);
    EXPECT_EQ(parse_mg("0.031250", "").value().ng(), 31'250);
    EXPECT_EQ(parse_dose("1.5 mg", "").value().ng(), 1'500'000);
    EXPECT_EQ(parse_dose("500 mcg", "").value().ng(), 500'000);
    EXPECT_EQ(parse_dose("62.5 micrograms", "").value().ng(), 62'500);
}

TEST(DoseText, RefusesWhatIsAmbiguous) {
    EXPECT_EQ(id_of(""), "amount-empty");
    EXPECT_EQ(id_of("1,5 mg"), "amount-comma");
    EXPECT_EQ(id_of("1.5"), "amount-no-unit");
    EXPECT_EQ(id_of(".5 mg"), "amount-bare-point");
    EXPECT_EQ(id_of("5. mg"), "amount-bare-point");
    EXPECT_EQ(id_of("-1 mg"), "amount-sign");
    EXPECT_EQ(id_of("5 U"), "amount-wrong-unit");
    EXPECT_EQ(id_of("5 µg"), "amount-micro-sign");
    EXPECT_EQ(id_of("5 ug"), "amount-micro-sign");
    EXPECT_EQ(id_of("1e3 mg"), "amount-wrong-unit");
    EXPECT_EQ(id_of("nan"), "amount-not-a-number");
    EXPECT_EQ(id_of("1.2.3 mg"), "amount-not-a-number");
    EXPECT_EQ(id_of("99999999999999999999 mg"), "amount-enormous");
    EXPECT_EQ(id_of("0.0000001 mg"), "amount-too-fine");
}

// Institute for Safe Medication Practices, list of error-prone abbreviations, symbols and dose designations
// (extracts of older editions): leading zero, no trailing zero, space before the unit, commas from 1,000
// upward.
TEST(DoseText, PrintsByThePublishedErrorProneLists) {
    EXPECT_EQ(print_dose(Dose::milligrams(1)), "1 mg");
    EXPECT_EQ(print_dose(Dose::nanograms(500'000)), "0.5 mg");
    EXPECT_EQ(print_dose(Dose::nanograms(31'250)), "0.03125 mg");
    EXPECT_EQ(print_dose(Dose::milligrams(1500)), "1,500 mg");
    EXPECT_EQ(print_dose(Dose()), "0 mg");
    EXPECT_EQ(print_volume(Volume::nanolitres(400'000)), "0.4 mL");
}

TEST(DoseText, PrintingAndReadingAreInverse) {
    for (std::int64_t ng = 1; ng < 100'000'000'000; ng = ng * 7 + 13) {
        const Dose dose = Dose::nanograms(ng);
        EXPECT_EQ(parse_mg(print_mg_digits(dose), "").value(), dose);
    }
}

}  // namespace
}  // namespace evenfall
