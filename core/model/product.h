// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "model/words.h"
#include "units/dose.h"

namespace evenfall {

/// How a product is made.
enum class Form {
    tablet,
    orally_disintegrating_tablet,
    extended_release_tablet,
    capsule,
    extended_release_capsule,
    sublingual_tablet,
    oral_film,
    oral_spray,
    oral_solution,
    oral_concentrate,
    oral_suspension
};

template <>
struct Words<Form> {
    static constexpr std::array<WordPair<Form>, 11> table{{
        {Form::tablet, "tablet"},
        {Form::orally_disintegrating_tablet, "orally disintegrating tablet"},
        {Form::extended_release_tablet, "extended-release tablet"},
        {Form::capsule, "capsule"},
        {Form::extended_release_capsule, "extended-release capsule"},
        {Form::sublingual_tablet, "sublingual tablet"},
        {Form::oral_film, "oral film"},
        {Form::oral_spray, "oral spray"},
        {Form::oral_solution, "oral solution"},
        {Form::oral_concentrate, "oral concentrate"},
        {Form::oral_suspension, "oral suspension"},
    }};
};

/// The finest piece that may be made of one unit.
enum class Cuts { whole, halves, quarters };

template <>
struct Words<Cuts> {
    static constexpr std::array<WordPair<Cuts>, 3> table{
        {{Cuts::whole, "whole"}, {Cuts::halves, "halves"}, {Cuts::quarters, "quarters"}}};
};

/// A product as it is dispensed.
struct Product {
    std::string drug;  ///< generic name, lower case
    Form form = Form::tablet;
    Dose strength;            ///< in one unit; for a liquid, in one millilitre
    Cuts cuts = Cuts::whole;  ///< always `whole` for a liquid
    Volume measure;           ///< smallest step of the measuring device; zero unless liquid

    friend auto operator<=>(const Product&, const Product&) = default;
};

bool is_liquid(Form form);
/// Extended-release forms: never cut, never spread over more dose times.
bool is_modified_release(Form form);

/// "clonazepam 0.5 mg tablet", "diazepam 1 mg/mL oral solution": one string with plain spaces.
std::string product_name(const Product& product);

/// A piece of a product: a whole unit, a half, a quarter, or a measured volume.
enum class Cut { whole, half, quarter, ml };

template <>
struct Words<Cut> {
    static constexpr std::array<WordPair<Cut>, 4> table{
        {{Cut::whole, "whole"}, {Cut::half, "half"}, {Cut::quarter, "quarter"}, {Cut::ml, "mL"}}};
};

/// So many equal pieces of one product, taken at one dose time.
struct Piece {
    Product product;
    Cut cut = Cut::whole;
    int count = 0;  ///< pieces; for `Cut::ml` always 1
    Volume volume;  ///< for `Cut::ml` only

    friend auto operator<=>(const Piece&, const Piece&) = default;
};

/// What the pieces contain. REQUIRES a makeable piece (the strength divides).
Dose amount_of(const Piece& piece);
Dose amount_of(const std::vector<Piece>& pieces);

}  // namespace evenfall
