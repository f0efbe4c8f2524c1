// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCoreApplication>
#include <QStringList>

#include "drawing/pieces.h"
#include "units/dose_text.h"

namespace evenfall::ui {
namespace {

QString say(const char* text) {
    return QCoreApplication::translate("pieces", text);
}

QString one_unit(Form form) {
    switch (form) {
        case Form::tablet: return say("tablet");
        case Form::orally_disintegrating_tablet: return say("orally disintegrating tablet");
        case Form::extended_release_tablet: return say("extended-release tablet");
        case Form::capsule: return say("capsule");
        case Form::extended_release_capsule: return say("extended-release capsule");
        case Form::sublingual_tablet: return say("sublingual tablet");
        case Form::oral_film: return say("oral film");
        case Form::oral_spray: return say("oral spray");
        case Form::oral_solution: return say("oral solution");
        case Form::oral_concentrate: return say("oral concentrate");
        case Form::oral_suspension: return say("oral suspension");
    }
    return {};
}

QString many_units(Form form) {
    switch (form) {
        case Form::tablet: return say("tablets");
        case Form::orally_disintegrating_tablet: return say("orally disintegrating tablets");
        case Form::extended_release_tablet: return say("extended-release tablets");
        case Form::capsule: return say("capsules");
        case Form::extended_release_capsule: return say("extended-release capsules");
        case Form::sublingual_tablet: return say("sublingual tablets");
        case Form::oral_film: return say("oral films");
        case Form::oral_spray: return say("oral sprays");
        default: return one_unit(form);
    }
}

/// English says "an 8 mg", "an 11 mg" and "an 18 mg"; a language without that gives both sentences the same text.
bool takes_an(const QString& number) {
    return number.startsWith(QLatin1Char('8')) || number == QLatin1String("11") || number == QLatin1String("18") ||
           number.startsWith(QLatin1String("11.")) || number.startsWith(QLatin1String("18."));
}

QString strength(const Product& product) {
    const QString digits = QString::fromStdString(print_mg_digits(product.strength));
    return is_liquid(product.form) ? say("%1 mg/mL").arg(digits) : say("%1 mg").arg(digits);
}

QString of_one(const QString& parts, const Product& product) {
    const QString sentence = takes_an(strength(product)) ? say("%1 of an %2 %3") : say("%1 of a %2 %3");
    return sentence.arg(parts, strength(product), one_unit(product.form));
}

QString parts_text(const Piece& piece) {
    const Form form = piece.product.form;
    switch (piece.cut) {
        case Cut::whole:
            return say("%1 %2").arg(QString::number(piece.count), piece.count == 1 ? one_unit(form) : many_units(form));
        case Cut::half: return piece.count == 1 ? say("half") : say("%1 halves").arg(piece.count);
        case Cut::quarter: return piece.count == 1 ? say("quarter") : say("%1 quarters").arg(piece.count);
        case Cut::ml: return QString::fromStdString(print_volume(piece.volume));
    }
    return {};
}

/// The pieces of one product.
QString product_text(const std::vector<Piece>& pieces) {
    const Product& product = pieces.front().product;
    QStringList parts;
    bool only_whole = true;
    for (const Piece& piece : pieces) {
        parts << parts_text(piece);
        only_whole = only_whole && piece.cut == Cut::whole;
    }
    const QString joined = parts.join(say(" + "));
    return only_whole ? say("%1 of %2").arg(joined, strength(product)) : of_one(joined, product);
}

}  // namespace

QString pieces_text(const std::vector<Piece>& pieces) {
    std::vector<std::vector<Piece>> by_product;
    for (const Piece& piece : pieces) {
        if (piece.count <= 0 && piece.cut != Cut::ml) continue;
        if (by_product.empty() || by_product.back().front().product != piece.product) by_product.emplace_back();
        by_product.back().push_back(piece);
    }
    if (by_product.empty()) return say("nothing");
    QString text = product_text(by_product.front());
    for (std::size_t i = 1; i < by_product.size(); ++i) {
        const bool last = i + 1 == by_product.size();
        text = (last ? say("%1 and %2") : say("%1, %2")).arg(text, product_text(by_product[i]));
    }
    return text;
}

}  // namespace evenfall::ui
