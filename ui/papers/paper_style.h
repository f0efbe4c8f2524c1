// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QSizeF>

#include "model/words.h"

namespace evenfall::ui {

/// The sheets that papers are printed on.
enum class PaperSize { a4, letter };

}  // namespace evenfall::ui

namespace evenfall {
template <>
struct Words<ui::PaperSize> {
    static constexpr std::array<WordPair<ui::PaperSize>, 2> table{
        {{ui::PaperSize::a4, "a4"}, {ui::PaperSize::letter, "letter"}}};
};
}  // namespace evenfall

namespace evenfall::ui {

/// How a paper is to be printed.
struct PaperOptions {
    PaperSize size = PaperSize::a4;
    bool large_print = false;
    bool name_in_metadata = false;  ///< of the PDF's title; a shared folder shows it

    bool operator==(const PaperOptions&) const = default;
};

/// The typeface of every paper, the only place that names it: its digits cannot be mistaken (the one has a
/// foot, the zero is narrow, six and nine are open) and it holds the scripts in which people's names are
/// written.
inline constexpr const char* kPaperFont = "DejaVu Sans";

/// Whether that typeface is installed; papers are refused otherwise.
bool paper_font_available();

/// Sizes of type and of the page, in points (1/72 inch). What is followed is never below 11 points, or 18 in
/// large print.
struct PaperStyle {
    /// `for_record`: a sheet that is filed and not followed is set smaller, to stay on one page. `tight`:
    /// less white between things, never smaller words of what is followed.
    explicit PaperStyle(const PaperOptions& options, bool for_record = false, bool tight = false);
    /// Headings as large as the text, so that a page has room for a row of its table.
    void set_close();
    bool divides_boxes = false;  ///< also small boxes to write in, between their rows

    QSizeF page;
    double margin = 36;
    double text = 11;
    double small = 9;  ///< head and foot of the page only
    double heading = 13;
    double part = 16;
    double title = 20;
    double gap = 5;       ///< between lines that belong together
    double notice = 0.8;  ///< white inside the frame of a notice, in sizes of type
    bool tight = false;
    bool large = false;
    double width() const { return page.width() - 2 * margin; }
};

/// Print colours: ink on white, one grey for fills that survive a black-and-white printer.
inline const QColor kPaperInk(0x11, 0x14, 0x1A);
inline const QColor kPaperRule(0x77, 0x7B, 0x84);
inline const QColor kPaperFill(0xEC, 0xEB, 0xE6);

}  // namespace evenfall::ui
