// SPDX-License-Identifier: GPL-3.0-or-later
#include "theme/tones.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "theme/theme.h"

namespace evenfall::ui {
namespace {

struct Colours {
    Tone tone;
    QRgb light, dark, contrast;
};

constexpr QRgb kBlack = 0xFF000000;
constexpr QRgb kWhite = 0xFFFFFFFF;
constexpr QRgb kAccent = 0xFFFFE14D;
constexpr QRgb kDisabled = 0xFFA6A6A6;  // 8.6:1 on black, and yet no white

// In the order of Tone; `tone()` relies on it and a test checks it.
constexpr std::array kColours{
    Colours{Tone::surface, 0xFFFBFAF7, 0xFF15181E, kBlack},
    Colours{Tone::card, 0xFFFFFFFF, 0xFF1D2128, kBlack},
    Colours{Tone::sunken, 0xFFF1F0EB, 0xFF282D36, kBlack},
    Colours{Tone::line, 0xFFE3E1DA, 0xFF343A45, kWhite},
    Colours{Tone::edge, 0xFF8A909C, 0xFF7C8492, kWhite},
    Colours{Tone::ink, 0xFF1F2430, 0xFFECEAE4, kWhite},
    Colours{Tone::soft_ink, 0xFF5A6272, 0xFFA9B0BD, kWhite},
    Colours{Tone::planned, 0xFF0B5D5E, 0xFF6FC3BE, kAccent},
    Colours{Tone::planned_fill, 0xFFCFE3E0, 0xFF1F3F40, kBlack},
    Colours{Tone::on_planned, 0xFFFFFFFF, 0xFF0E1B1B, kBlack},
    Colours{Tone::outlook, 0xFF8FB5B2, 0xFF4E7F7C, kWhite},
    Colours{Tone::level, 0xFF8A5F00, 0xFFE0B45A, kWhite},
    Colours{Tone::level_band, 0xFFF1E3C2, 0xFF453A1E, kBlack},
    Colours{Tone::symptom, 0xFF6A3D8F, 0xFFC7A3E6, kWhite},
    Colours{Tone::symptom_0, 0xFFF6F0FA, 0xFF241C2D, kBlack},
    Colours{Tone::symptom_1, 0xFFE9DDF3, 0xFF332640, kBlack},
    Colours{Tone::symptom_2, 0xFFD9C4E8, 0xFF443255, kBlack},
    Colours{Tone::symptom_3, 0xFFC3A3D9, 0xFF5A4270, kWhite},
    Colours{Tone::symptom_4, 0xFFA97FC7, 0xFF6D5087, kWhite},
    Colours{Tone::on_symptom, 0xFF63388A, 0xFFCDAEEA, kWhite},
    Colours{Tone::on_symptom_worst, 0xFF2B1240, 0xFFF8F2FD, kBlack},
    Colours{Tone::contact, 0xFF44506B, 0xFFA9B8D8, kWhite},
    Colours{Tone::contact_fill, 0xFFEEEFF5, 0xFF282F3E, kBlack},
    Colours{Tone::presses, 0xFF835500, 0xFFF0BC66, kAccent},
    Colours{Tone::presses_fill, 0xFFFEF5E3, 0xFF37301F, kBlack},
    Colours{Tone::danger, 0xFFA61B1B, 0xFFFF9C92, kAccent},
    Colours{Tone::danger_fill, 0xFFFBECEA, 0xFF3F2423, kBlack},
    Colours{Tone::selected, 0xFFE3EEEC, 0xFF22393A, kBlack},
    Colours{Tone::focus, 0xFF0B5D5E, 0xFF6FC3BE, kAccent},
    Colours{Tone::disabled_ink, 0xFF6B7280, 0xFF8F97A5, kDisabled},
};

double linear(double channel) {
    return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

double luminance(const QColor& colour) {
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

int shade_of(int severity) {
    return std::clamp(severity, 0, 9) / 2;
}

}  // namespace

QColor tone(Tone tone, ThemeKind kind) {
    const Colours& found = kColours.at(static_cast<std::size_t>(tone));
    if (kind == ThemeKind::light) return QColor::fromRgba(found.light);
    return QColor::fromRgba(kind == ThemeKind::dark ? found.dark : found.contrast);
}

QColor tone(Tone which) {
    return tone(which, theme_in_force());
}

QColor symptom_shade(int severity) {
    return tone(static_cast<Tone>(static_cast<int>(Tone::symptom_0) + shade_of(severity)));
}

QColor symptom_numeral(int severity) {
    return tone(shade_of(severity) < 3 ? Tone::on_symptom : Tone::on_symptom_worst);
}

double contrast_ratio(const QColor& a, const QColor& b) {
    const double brighter = std::max(luminance(a), luminance(b));
    const double darker = std::min(luminance(a), luminance(b));
    return (brighter + 0.05) / (darker + 0.05);
}

}  // namespace evenfall::ui
