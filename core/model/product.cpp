// SPDX-License-Identifier: GPL-3.0-or-later
#include "model/product.h"

#include "units/dose_text.h"

namespace evenfall {

bool is_liquid(Form form) {
    return form == Form::oral_solution || form == Form::oral_concentrate || form == Form::oral_suspension;
}

bool is_modified_release(Form form) {
    return form == Form::extended_release_tablet || form == Form::extended_release_capsule;
}

std::string product_name(const Product& product) {
    const std::string unit = is_liquid(product.form) ? " mg/mL " : " mg ";
    return product.drug + " " + print_mg_digits(product.strength) + unit + word(product.form);
}

Dose amount_of(const Piece& piece) {
    switch (piece.cut) {
        case Cut::whole:
            return piece.product.strength * piece.count;
        case Cut::half:
            return piece.product.strength.part(2).value() * piece.count;
        case Cut::quarter:
            return piece.product.strength.part(4).value() * piece.count;
        case Cut::ml:
            return amount_in(piece.volume, piece.product.strength).value();
    }
    return {};
}

Dose amount_of(const std::vector<Piece>& pieces) {
    Dose total;
    for (const Piece& piece : pieces) total += amount_of(piece);
    return total;
}

}  // namespace evenfall
