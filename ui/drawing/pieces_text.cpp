// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCoreApplication>
#include <QStringList>
#include <algorithm>

#include "drawing/pieces.h"
#include "units/dose_text.h"

namespace evenfall::ui {
namespace {

/// The sentences of this file, for translators.
struct Say {
    Q_DECLARE_TR_FUNCTIONS(Pieces)
};

QString one_unit(Form form) {
    switch (form) {
        case Form::tablet:
            return Say::tr("tablet");
        case Form::orally_disintegrating_tablet:
            return Say::tr("orally disintegrating tablet");
        case Form::extended_release_tablet:
            return Say::tr("extended-release tablet");
        case Form::capsule:
            return Say::tr("capsule");
        case Form::extended_release_capsule:
            return Say::tr("extended-release capsule");
        case Form::sublingual_tablet:
            return Say::tr("sublingual tablet");
        case Form::oral_film:
            return Say::tr("oral film");
        case Form::oral_spray:
            return Say::tr("oral spray");
        case Form::oral_solution:
            return Say::tr("oral solution");
        case Form::oral_concentrate:
            return Say::tr("oral concentrate");
        case Form::oral_suspension:
            return Say::tr("oral suspension");
    }
    return {};
}

QString many_units(Form form) {
    switch (form) {
        case Form::tablet:
            return Say::tr("tablets");
        case Form::orally_disintegrating_tablet:
            return Say::tr("orally disintegrating tablets");
        case Form::extended_release_tablet:
            return Say::tr("extended-release tablets");
        case Form::capsule:
            return Say::tr("capsules");
        case Form::extended_release_capsule:
            return Say::tr("extended-release capsules");
        case Form::sublingual_tablet:
            return Say::tr("sublingual tablets");
        case Form::oral_film:
            return Say::tr("oral films");
        case Form::oral_spray:
            return Say::tr("oral sprays");
        default:
            return one_unit(form);
    }
}

/// English says "an 8 mg", "an 11 mg" and "an 18 mg"; a language without that gives both sentences the same
/// text.
bool takes_an(const Product& product) {
    const QString number = QString::fromStdString(print_mg_digits(product.strength));
    return number.startsWith(QLatin1Char('8')) || number == QLatin1String("11") ||
           number == QLatin1String("18") || number.startsWith(QLatin1String("11.")) ||
           number.startsWith(QLatin1String("18."));
}

QString strength(const Product& product) {
    const QString digits = QString::fromStdString(print_mg_digits(product.strength));
    return is_liquid(product.form) ? Say::tr("%1 mg/mL").arg(digits) : Say::tr("%1 mg").arg(digits);
}

QString of_one(const QString& parts, const Product& product) {
    const QString sentence = takes_an(product) ? Say::tr("%1 of an %2 %3") : Say::tr("%1 of a %2 %3");
    return sentence.arg(parts, strength(product), one_unit(product.form));
}

QString parts_text(const Piece& piece) {
    const Form form = piece.product.form;
    switch (piece.cut) {
        case Cut::whole:
            return Say::tr("%1 %2").arg(QString::number(piece.count),
                                        piece.count == 1 ? one_unit(form) : many_units(form));
        case Cut::half:
            return piece.count == 1 ? Say::tr("half") : Say::tr("%1 halves").arg(piece.count);
        case Cut::quarter:
            return piece.count == 1 ? Say::tr("quarter") : Say::tr("%1 quarters").arg(piece.count);
        case Cut::ml:
            return QString::fromStdString(print_volume(piece.volume));
    }
    return {};
}

/// Each cut with its strength, so that none borrows the strength of another.
QString each_cut(const std::vector<Piece>& pieces) {
    QStringList parts;
    for (const Piece& piece : pieces)
        parts << (piece.cut == Cut::whole
                      ? Say::tr("%1 of %2").arg(parts_text(piece), strength(piece.product))
                      : of_one(parts_text(piece), piece.product));
    return parts.join(Say::tr(" + "));
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
    const QString joined = parts.join(Say::tr(" + "));
    return only_whole ? Say::tr("%1 of %2").arg(joined, strength(product)) : of_one(joined, product);
}

}  // namespace

QString pieces_text(const std::vector<Piece>& pieces) {
    std::vector<Piece> taken;
    for (const Piece& piece : pieces)
        if (piece.count > 0 || piece.cut == Cut::ml) taken.push_back(piece);
    if (taken.empty()) return Say::tr("nothing");
    const bool one_product = std::ranges::all_of(
        taken, [&](const Piece& piece) { return piece.product == taken.front().product; });
    return one_product ? product_text(taken) : each_cut(taken);
}

}  // namespace evenfall::ui
