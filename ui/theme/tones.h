// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>

namespace evenfall::ui {

/// What a colour means. Every tone that carries a meaning stands beside a shape, a word or a pattern.
enum class Tone {
    surface,   ///< the window
    card,      ///< a card, a field, a table
    sunken,    ///< a shelf inside a card; a row at rest
    line,      ///< structure: edges of cards, grid lines
    edge,      ///< edges of fields and buttons (3:1 on the card)
    ink,       ///< text, and doses taken
    soft_ink,  ///< notes
    planned,   ///< the planned dose; the accent
    planned_fill,
    on_planned,  ///< text on a ground of `planned`
    outlook,     ///< not yet agreed: hatched or dashed
    level,       ///< the modelled level, always with the word "modelled"
    level_band,
    symptom,    ///< text about symptoms
    symptom_0,  ///< shades of the heat strip, least to worst
    symptom_1,
    symptom_2,
    symptom_3,
    symptom_4,
    on_symptom,        ///< numerals on the three lighter shades
    on_symptom_worst,  ///< numerals on the two strongest shades
    contact,
    contact_fill,
    presses,  ///< presses soon: a ring with a hand
    presses_fill,
    danger,  ///< a red flag: a flag shape; for danger alone
    danger_fill,
    selected,  ///< the chosen row
    focus,     ///< the focus ring
    disabled_ink,
};

enum class ThemeKind { light, dark, contrast };

/// The colour of a tone in a theme; printing uses the light one.
QColor tone(Tone tone, ThemeKind kind);
/// The colour of a tone in the theme in force. Read it when painting, never keep it.
QColor tone(Tone tone);
/// The shade of a severity 0 to 10 and the colour of its numeral.
QColor symptom_shade(int severity);
QColor symptom_numeral(int severity);

/// The contrast of two opaque colours, 1 to 21 (WCAG 2.2, "contrast ratio" and "relative luminance").
double contrast_ratio(const QColor& a, const QColor& b);

}  // namespace evenfall::ui
