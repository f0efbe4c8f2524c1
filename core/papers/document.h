// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "model/product.h"
#include "units/day.h"

// What a paper says, before it is a picture: a tree of values in the reader's language. It knows no page, no
// font and no printer; whoever paints it decides where pages end, but never inside something that is marked
// as whole.

namespace evenfall::papers {

struct Heading {
    std::string text;
    int level = 1;  ///< 1 for a part of the paper, 2 below it

    bool operator==(const Heading&) const = default;
};

struct Paragraph {
    std::string text;
    bool strong = false;

    bool operator==(const Paragraph&) const = default;
};

/// A framed box that must not be missed. Its lines stay together; one instruction a line.
struct Notice {
    std::string title;
    std::vector<std::string> lines;

    bool operator==(const Notice&) const = default;
};

/// Items with a bullet, or with a box to tick.
struct List {
    std::vector<std::string> items;
    bool boxes = false;

    bool operator==(const List&) const = default;
};

/// A titled list, or titled names and values, that may stand beside another one.
struct Side {
    std::string title;
    std::vector<std::string> items;
    bool boxes = false;                                       ///< a box to tick before each item
    std::vector<std::pair<std::string, std::string>> rows{};  ///< values in heavy type

    bool operator==(const Side&) const = default;
};

/// Short lists beside each other where the page is wide enough, else one under the other; each stays whole.
struct Sides {
    std::vector<Side> sides;

    bool operator==(const Sides&) const = default;
};

/// A two-dimensional symbol (QR Code) that says the same as its text, with words beside it.
struct Mark {
    std::string text;           ///< what a scanner reads; holds nothing of the patient
    int size = 0;               ///< modules of a side, without the quiet zone
    std::vector<bool> modules;  ///< row by row; true is dark
    std::string caption;        ///< empty in the foot of a page, whose own lines stand beside it

    bool operator==(const Mark&) const = default;
};

/// Names and values in two columns.
struct KeyValues {
    std::vector<std::pair<std::string, std::string>> rows;
    bool strong = false;  ///< values in large, heavy type: telephone numbers, quantities

    bool operator==(const KeyValues&) const = default;
};

/// One agent at one dose time: the pieces as they are drawn, the words that say the same, and what the dose
/// was before where it changes here ("was 1.5 mg"; otherwise empty).
struct DoseInCell {
    std::vector<Piece> pieces;
    std::vector<std::string> lines;
    std::string was;
    bool tick_box = false;         ///< a box of its own, in a cell with several doses
    bool names_strengths = false;  ///< the drawing says the strength: another of the same shape is about

    bool operator==(const DoseInCell&) const = default;
};

/// A cell: heavy lines, then doses, then plain lines.
struct Cell {
    std::vector<std::string> strong;
    std::vector<DoseInCell> doses;
    std::vector<std::string> lines;
    bool tick_box = false;

    bool operator==(const Cell&) const = default;
};

struct Column {
    std::string title;
    std::string note;    ///< a smaller second line
    double share = 1;    ///< of the width, against the other columns
    bool sum = false;    ///< the day's total: set apart so that it cannot be read as one more dose
    bool spare = false;  ///< room for notes, left out where the others need it

    bool operator==(const Column&) const = default;
};

using Row = std::vector<Cell>;

/// Rows that belong together (a step), under a band that says what begins here and a leading row that says in
/// words what its rows say in short. Where a group is longer than a page, the band is repeated as
/// `continued`, with the leading row.
struct Group {
    std::vector<std::string> band;
    std::string continued;
    std::vector<Row> rows;
    Row lead{};

    bool operator==(const Group&) const = default;
};

struct Table {
    std::vector<Column> columns;
    std::vector<Group> groups;
    /// How a row that is higher than a page begins the next one: "{row} · goes on"; the painter fills its
    /// brace.
    std::string goes_on{};

    bool operator==(const Table&) const = default;
};

/// Lines to be signed by hand: what goes there, and what the paper already knows ("Prescriber" → a name).
struct Signature {
    std::string statement;
    std::vector<std::pair<std::string, std::string>> lines;

    bool operator==(const Signature&) const = default;
};

/// An empty grid to write in.
struct Grid {
    std::vector<Column> columns;
    std::vector<std::string> rows;  ///< the first cell of each row
    int lines_high = 1;             ///< room to write in, in lines of text

    bool operator==(const Grid&) const = default;
};

/// A stair line of the daily dose on a log scale: where each amount begins.
struct DoseChart {
    struct Stair {
        Day from{};
        double mg = 0;       ///< for drawing only; 0 is OFF
        bool agreed = true;  ///< false: outlook, drawn dashed

        bool operator==(const Stair&) const = default;
    };
    std::vector<Stair> stairs;
    Day to{};
    std::string title, agreed, outlook, off;         ///< words of the picture
    std::vector<std::pair<Day, std::string>> dates;  ///< of the axis
    std::vector<std::pair<double, std::string>> amounts;

    bool operator==(const DoseChart&) const = default;
};

struct PageBreak {
    bool operator==(const PageBreak&) const = default;
};

using Content = std::variant<Heading, Paragraph, Notice, List, Sides, KeyValues, Mark, Table, Signature, Grid,
                             DoseChart, PageBreak>;

/// A part of a paper. `with_next`: stands on the same page as what follows. `may_end`: stands at the end of
/// the paper where the page of its place would hold no row of a table with it.
struct Block {
    Content content;
    bool with_next = false;
    bool may_end = false;

    bool operator==(const Block&) const = default;
};

/// What stands at the foot of every page. `page` holds the braces {page} and {pages}, which the painter
/// fills.
struct Footer {
    std::string patient;  ///< the patient's reference
    std::string version;  ///< code and date of issue
    std::string replaces;
    std::string page;
    std::optional<Mark> mark;  ///< of the signed version

    bool operator==(const Footer&) const = default;
};

struct Document {
    std::string paper;     ///< "schedule", "caution", …
    std::string language;  ///< "en", "es"
    std::string title;
    std::string subtitle;
    std::string patient;  ///< name, date of birth, reference
    std::vector<Block> blocks;
    Footer footer;
    bool card = false;        ///< to be folded to the size of a bank card
    bool for_record = false;  ///< read at a desk and filed, not followed: may be set in smaller type

    bool operator==(const Document&) const = default;
};

/// What a string of a document is to its reader. `foot` is what the edge of a page says: its foot, and what
/// goes on from the page before.
enum class Role { title, sentence, label, dose, foot };

/// Calls `visit` with every string of the document, in reading order.
void for_each_text(const Document& document, const std::function<void(Role, const std::string&)>& visit);

/// Every string, one a line.
std::string plain_text(const Document& document);

}  // namespace evenfall::papers
