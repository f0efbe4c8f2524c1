// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "papers/source.h"
#include "rules/texts.h"

namespace evenfall::papers {

/// A form that is drawn in the same shape: two capsules, or two liquids in a syringe, are not told apart.
Form drawn_as(Form form);

/// A sentence or a heading that begins with what is written small elsewhere: "Diazepam, day by day".
std::string begun(std::string sentence);

/// Says dates, dose times, agents and pieces in the reader's language, always in the same words.
class Wording {
  public:
    Wording(const Texts& texts, const PartsOfDay& parts) : texts_(texts), parts_(parts) {}

    std::string operator()(std::string_view id, const Args& args = {}) const { return texts_.text(id, args); }
    bool has(std::string_view id) const { return texts_.has(id); }
    const std::string& language() const { return texts_.language(); }

    std::string date(Day day) const;        ///< "Monday 4 January 2027"
    std::string short_date(Day day) const;  ///< "4 Jan 2027"
    std::string day_date(Day day) const;    ///< "Mon 4 Jan": a row under a head that says the year
    std::string weekday(Day day) const;     ///< "Mon"
    std::string day_count(int days) const;  ///< "14 days"

    std::string part(ClockTime at) const;       ///< "Morning"
    std::string dose_time(ClockTime at) const;  ///< "Morning 08:00"

    std::string agent(const std::string& drug) const;
    /// "0.5 mg tablets", "1 mg per mL bottle": what stands on the pack.
    std::string product(const Product& product) const;
    /// The same as a pharmacy names it: "2 mg per mL oral concentrate (strong liquid)".
    std::string dispensed(const Product& product) const;
    /// What is rated from 0 to 10, by its name in the reader's language; one that the clinic made up stays.
    std::string item(const std::string& item) const;
    /// A medicine as the clinic typed it, printable, with the names that the texts know in the reader's
    /// language ("oxycodone 5 mg": "oxicodona 5 mg").
    std::string medicine(const std::string& typed) const;
    /// "2 tablets + half + quarter of a 2 mg tablet = 5.5 mg". Where there are several products, one line for
    /// each, every part with its own strength ("2 tablets of 1 mg", "+ half of a 0.5 mg tablet"), and the sum
    /// on a line of its own: no strength is left to be understood.
    std::vector<std::string> pieces(const std::vector<Piece>& pieces, Dose amount) const;
    /// The same on one line; the amount alone where the pieces do not make it.
    std::string made(const std::vector<Piece>& pieces, Dose amount) const;
    /// The amount alone, "1 mg"; where some of it is measured, what to draw up stands first: "0.45 mL of 2 mg
    /// per mL = 0.9 mg".
    std::string amount(const std::vector<Piece>& pieces, Dose amount) const;
    /// The same under a line that names the bottle: "0.45 mL = 0.9 mg".
    std::string brief_amount(const std::vector<Piece>& pieces, Dose amount) const;
    /// The same without the sum, on one line.
    std::string pieces_only(const std::vector<Piece>& pieces) const;
    /// An agent in the shape in which it is drawn and named.
    using Shape = std::pair<std::string, Form>;
    static Shape shape_of(const Product& product) { return {product.drug, drawn_as(product.form)}; }
    /// From now on every part of a dose made of one of these names its own strength, whole tablets too ("2
    /// tablets of 2 mg + half of a 2 mg tablet"): other strengths of it lie beside it.
    void tell_strengths_apart(std::set<Shape> shapes) { apart_ = std::move(shapes); }
    /// Whether it does.
    bool tells_apart(const Product& product) const { return apart_.contains(shape_of(product)); }

    /// So much of a product to dispense: "56 tablets", "120 mL".
    std::string quantity(const SupplyItem& item) const;
    /// The same with its strength and form, as a pharmacy counts it: "18 tablets of 0.5 mg", "60 mL of 1 mg
    /// per mL oral solution (liquid)".
    std::string quantity_of_product(const SupplyItem& item) const;

  private:
    std::string form_id(Form form, std::string_view which) const;
    std::string of_one_product(const std::vector<Piece>& pieces) const;
    std::string of_each_cut(const std::vector<Piece>& pieces) const;

    const Texts& texts_;
    PartsOfDay parts_;
    std::set<Shape> apart_;
};

/// Texts joined by a separator, empty ones left out.
std::string joined(const std::vector<std::string>& texts, std::string_view separator);

/// A text from outside made safe to print in the middle of others: control characters and marks that change
/// the direction of what follows are taken out, white space is made plain.
std::string printable(std::string_view text);

/// Characters (code points) of a UTF-8 text.
std::size_t character_count(std::string_view text);

}  // namespace evenfall::papers
