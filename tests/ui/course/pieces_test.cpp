// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/pieces.h"

#include <QImage>
#include <QPainter>

#include <gtest/gtest.h>

namespace evenfall::ui {
namespace {

Product tablet(std::int64_t micrograms, Form form = Form::tablet) {
    return {"diazepam", form, Dose::micrograms(micrograms), Cuts::quarters, {}};
}

Piece piece(Cut cut, int count = 1, Form form = Form::tablet, std::int64_t micrograms = 2'000) {
    return {tablet(micrograms, form), cut, count, {}};
}

Piece liquid(std::int64_t microlitres) {
    const Product solution{"diazepam", Form::oral_solution, Dose::milligrams(1), Cuts::whole,
                           Volume::nanolitres(100'000)};
    return {solution, Cut::ml, 1, Volume::nanolitres(microlitres * 1'000)};
}

/// Pixels of the colour that means "take", by brightness, in the box of a drawing.
double taken_pixels(const Piece& drawn, double unit = 200) {
    const QSizeF size = figure_size(drawn, unit);
    QImage image(size.toSize() + QSize(8, 8), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    paint_figure(painter, {4, 4}, drawn, unit, {Qt::black, QColor(200, 255, 255), Qt::white});
    painter.end();
    double dark = 0;
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x) dark += qRed(image.pixel(x, y)) < 100;
    return dark;
}

TEST(Pieces, AHalfAndAQuarterCoverTheirShareOfTheWholeUnit) {
    for (const Form form : {Form::tablet, Form::orally_disintegrating_tablet, Form::sublingual_tablet}) {
        const double whole = taken_pixels(piece(Cut::whole, 1, form));
        EXPECT_NEAR(taken_pixels(piece(Cut::half, 1, form)) / whole, 0.50, 0.02);
        EXPECT_NEAR(taken_pixels(piece(Cut::quarter, 1, form)) / whole, 0.25, 0.02);
    }
}

TEST(Pieces, AWholeTabletFillsItsDisc) {
    const double radius = 100 - 200.0 / 18 / 2;
    EXPECT_NEAR(taken_pixels(piece(Cut::whole)) / (M_PI * radius * radius), 1, 0.02);
}

TEST(Pieces, TheRestOfACutTabletIsOutlinedWithDashes) {
    QImage image(220, 220, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    paint_figure(painter, {10, 10}, piece(Cut::half), 200, {Qt::black, Qt::red, Qt::white});
    painter.end();
    int dashes = 0, gaps = 0;
    for (int degree = -80; degree <= 80; ++degree) {
        const double angle = degree * M_PI / 180, radius = 94.4;
        const QRgb seen = image.pixel(static_cast<int>(110 + radius * std::cos(angle)),
                                      static_cast<int>(110 + radius * std::sin(angle)));
        (qRed(seen) > 200 && qGreen(seen) < 100 ? dashes : gaps) += 1;
    }
    EXPECT_GT(dashes, 40);
    EXPECT_GT(gaps, 40);
}

TEST(Pieces, ShapesOfDifferentFormsDiffer) {
    const double disc = taken_pixels(piece(Cut::whole));
    EXPECT_LT(taken_pixels(piece(Cut::whole, 1, Form::orally_disintegrating_tablet)), disc * 0.9);
    EXPECT_GT(taken_pixels(piece(Cut::whole, 1, Form::capsule)), disc * 1.2);
}

TEST(Pieces, ASyringeHoldsTheVolumeAndFillsInProportion) {
    EXPECT_EQ(syringe_capacity_ml(Volume::millilitres(1)), 1);
    EXPECT_EQ(syringe_capacity_ml(Volume::nanolitres(1'100'000)), 3);
    EXPECT_EQ(syringe_capacity_ml(Volume::millilitres(10)), 10);
    const double more = taken_pixels(liquid(800)) - taken_pixels(liquid(400));
    EXPECT_GT(more, 10'000);
    EXPECT_NEAR((taken_pixels(liquid(600)) - taken_pixels(liquid(200))) / more, 1, 0.05);
}

TEST(Pieces, ManyOfOnePieceAreDrawnAsOneWithTheirNumber) {
    const PieceLayout layout;
    const double twelve = pieces_size({piece(Cut::whole, 12)}, layout).width();
    EXPECT_LT(pieces_size({piece(Cut::whole, 30)}, layout).width(), twelve / 2);
    EXPECT_TRUE(pieces_size({}, layout).isEmpty());
}

TEST(Pieces, ADrawingBreaksIntoLinesWithinItsWidth) {
    PieceLayout layout;
    layout.most_width = 60;
    const QSizeF size = pieces_size({piece(Cut::whole, 10)}, layout);
    EXPECT_LE(size.width(), 60);
    EXPECT_GT(size.height(), 2 * layout.unit);
}

/// A drawing of pieces with their strengths, black on white.
QImage named_drawing(const std::vector<Piece>& pieces) {
    PieceLayout layout;
    layout.unit = 40;
    layout.strengths = true;
    QImage image((pieces_size(pieces, layout) + QSizeF(8, 8)).toSize(), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    paint_pieces(painter, {4, 4}, pieces, layout, {});
    painter.end();
    return image;
}

/// The box of everything that is not white.
QRect ink_box(const QImage& image) {
    QRect box;
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x)
            if (qRed(image.pixel(x, y)) < 200) box |= QRect(x, y, 1, 1);
    return box;
}

TEST(Pieces, TwoStrengthsOfOneShapeAreToldApartByTheDrawingAlone) {
    const Piece two = piece(Cut::whole), five = piece(Cut::whole, 1, Form::tablet, 5'000);
    PieceLayout plain;
    EXPECT_EQ(pieces_size({two}, plain), pieces_size({five}, plain));
    EXPECT_NE(named_drawing({two}), named_drawing({five}));
    const QImage both = named_drawing({piece(Cut::half, 1, Form::tablet, 5'000), piece(Cut::half)});
    EXPECT_GT(both.width(), named_drawing({two}).width() + named_drawing({five}).width() - 12);
    for (const QImage& drawn : {both, named_drawing({five}), named_drawing({piece(Cut::quarter, 3)})})
        EXPECT_TRUE(QRect(4, 4, drawn.width() - 8, drawn.height() - 8)
                        .adjusted(-1, -1, 1, 1)
                        .contains(ink_box(drawn)));
}

TEST(Pieces, AStrengthStandsOnceBeforeItsPiecesAndAgainOnEachLine) {
    PieceLayout layout;
    layout.strengths = true;
    const auto width = [&](int count) { return pieces_size({piece(Cut::whole, count)}, layout).width(); };
    EXPECT_NEAR(width(3) - width(2), layout.unit + layout.gap, 0.01);
    EXPECT_NEAR(width(1), widest_figure({piece(Cut::whole)}, layout), 0.01);
    layout.most_width = width(1) + 1;
    const QSizeF broken = pieces_size({piece(Cut::whole, 3)}, layout);
    EXPECT_NEAR(broken.width(), layout.most_width - 1, 0.01);
    EXPECT_NEAR(broken.height(), 3 * layout.unit + 2 * layout.line_gap, 0.01);
    PieceLayout unnamed;
    EXPECT_EQ(pieces_size({liquid(400)}, layout), pieces_size({liquid(400)}, unnamed));
}

TEST(PiecesText, SaysPiecesAsAPersonCountsThem) {
    const auto says = [](const std::vector<Piece>& pieces) { return pieces_text(pieces).toStdString(); };
    EXPECT_EQ(says({}), "nothing");
    EXPECT_EQ(says({piece(Cut::whole)}), "1 tablet of 2 mg");
    EXPECT_EQ(says({piece(Cut::whole, 4)}), "4 tablets of 2 mg");
    EXPECT_EQ(says({piece(Cut::half)}), "half of a 2 mg tablet");
    EXPECT_EQ(says({piece(Cut::whole, 2), piece(Cut::half), piece(Cut::quarter)}),
              "2 tablets + half + quarter of a 2 mg tablet");
    EXPECT_EQ(says({piece(Cut::quarter, 3)}), "3 quarters of a 2 mg tablet");
    EXPECT_EQ(says({piece(Cut::half, 1, Form::tablet, 8'000)}), "half of an 8 mg tablet");
    EXPECT_EQ(says({piece(Cut::half, 1, Form::tablet, 11'000)}), "half of an 11 mg tablet");
    EXPECT_EQ(says({piece(Cut::half, 1, Form::tablet, 110'000)}), "half of a 110 mg tablet");
    EXPECT_EQ(says({piece(Cut::whole, 1, Form::tablet, 500),
                    piece(Cut::whole, 3, Form::orally_disintegrating_tablet, 125)}),
              "1 tablet of 0.5 mg + 3 orally disintegrating tablets of 0.125 mg");
    EXPECT_EQ(says({piece(Cut::whole, 2, Form::capsule, 15'000)}), "2 capsules of 15 mg");
    EXPECT_EQ(says({liquid(400)}), "0.4 mL of a 1 mg/mL oral solution");
    EXPECT_EQ(says({piece(Cut::whole, 1), piece(Cut::whole, 1, Form::tablet, 500), liquid(400)}),
              "1 tablet of 2 mg + 1 tablet of 0.5 mg + 0.4 mL of a 1 mg/mL oral solution");
    EXPECT_EQ(says({piece(Cut::half, 1, Form::tablet, 5'000), piece(Cut::whole), piece(Cut::half)}),
              "half of a 5 mg tablet + 1 tablet of 2 mg + half of a 2 mg tablet")
        << "no piece borrows the strength of another";
}

}  // namespace
}  // namespace evenfall::ui
