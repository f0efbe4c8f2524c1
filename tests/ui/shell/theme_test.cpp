// SPDX-License-Identifier: GPL-3.0-or-later
#include "theme/theme.h"

#include <QFontMetricsF>

#include <gtest/gtest.h>

#include "theme/numerals.h"

namespace evenfall::ui {
namespace {

constexpr ThemeKind kThemes[] = {ThemeKind::light, ThemeKind::dark, ThemeKind::contrast};

TEST(Contrast, IsTwentyOneForBlackOnWhite) {
    EXPECT_NEAR(contrast_ratio(Qt::black, Qt::white), 21, 1e-9);  // WCAG 2.2, "contrast ratio": 1 to 21
    EXPECT_NEAR(contrast_ratio(Qt::white, Qt::white), 1, 1e-9);
}

TEST(Contrast, IsJustBelowTheLimitForTheWellKnownGrey) {
    // WCAG 2.2: #777777 on white falls just short of 4.5:1, #767676 just reaches it (by its own formula).
    EXPECT_LT(contrast_ratio(QColor(0x77, 0x77, 0x77), Qt::white), 4.5);
    EXPECT_GE(contrast_ratio(QColor(0x76, 0x76, 0x76), Qt::white), 4.5);
}

TEST(Tones, OfTextAreReadableOnEveryGroundThatTheyStandOn) {
    const std::pair<Tone, std::vector<Tone>> pairs[] = {
        {Tone::ink,
         {Tone::surface, Tone::card, Tone::sunken, Tone::selected, Tone::planned_fill, Tone::presses_fill,
          Tone::danger_fill, Tone::contact_fill, Tone::level_band}},
        {Tone::soft_ink,
         {Tone::surface, Tone::card, Tone::sunken, Tone::selected, Tone::presses_fill, Tone::danger_fill,
          Tone::contact_fill}},
        {Tone::planned, {Tone::surface, Tone::card, Tone::selected, Tone::planned_fill}},
        {Tone::on_planned, {Tone::planned}},
        {Tone::level, {Tone::card, Tone::surface}},
        {Tone::symptom, {Tone::card, Tone::surface}},
        {Tone::on_symptom, {Tone::symptom_0, Tone::symptom_1, Tone::symptom_2}},
        {Tone::on_symptom_worst, {Tone::symptom_3, Tone::symptom_4}},
        {Tone::contact, {Tone::card, Tone::contact_fill}},
        {Tone::presses, {Tone::surface, Tone::card, Tone::presses_fill}},
        {Tone::danger, {Tone::surface, Tone::card, Tone::danger_fill, Tone::selected}},
        {Tone::disabled_ink, {Tone::card, Tone::surface}}};
    for (const ThemeKind kind : kThemes)
        for (const auto& [ink, grounds] : pairs)
            for (const Tone ground : grounds)
                EXPECT_GE(contrast_ratio(tone(ink, kind), tone(ground, kind)), 4.5)
                    << "theme " << static_cast<int>(kind) << ", ink " << static_cast<int>(ink) << " on "
                    << static_cast<int>(ground);
}

TEST(Tones, OfEdgesAndFocusAreSeenOnTheCard) {
    // WCAG 2.2, 1.4.11 "Non-text contrast": 3:1.
    for (const ThemeKind kind : kThemes)
        for (const Tone edge : {Tone::edge, Tone::focus})
            EXPECT_GE(contrast_ratio(tone(edge, kind), tone(Tone::card, kind)), 3) << static_cast<int>(kind);
}

TEST(Numerals, TakeTheSameWidthWhateverTheDigit) {
    const QFont font = type(Type::text);
    EXPECT_DOUBLE_EQ(tabular_width(font, QStringLiteral("111.11")),
                     tabular_width(font, QStringLiteral("888.88")));
}

TEST(SystemTheme, IsToldByThePalette) {
    EXPECT_EQ(theme_of_system(QPalette(Qt::white, Qt::white)), ThemeKind::light);
    QPalette dark;
    dark.setColor(QPalette::Window, QColor(40, 40, 44));
    dark.setColor(QPalette::WindowText, QColor(230, 230, 230));
    EXPECT_EQ(theme_of_system(dark), ThemeKind::dark);
    dark.setColor(QPalette::Window, Qt::black);
    dark.setColor(QPalette::WindowText, Qt::white);
    EXPECT_EQ(theme_of_system(dark), ThemeKind::contrast);
}

}  // namespace
}  // namespace evenfall::ui
