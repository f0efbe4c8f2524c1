// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>
#include <numeric>

#include "papers/paper_blocks.h"

namespace evenfall::ui {

using namespace papers;

namespace {

constexpr double kPad = 2;
constexpr double kLeastHead = 11;  // points

void paint_grid_row(QPainter& painter, const QPointF& at, const std::vector<PaperText>& cells,
                    const std::vector<double>& widths, double height, bool head) {
    double x = at.x();
    for (std::size_t i = 0; i < widths.size(); ++i) {
        const QRectF box(x, at.y(), widths[i], height);
        if (head) painter.fillRect(box, kPaperFill);
        painter.setPen(QPen(kPaperRule, 0.7));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(box);
        if (i < cells.size()) cells[i].paint(painter, box.topLeft() + QPointF(kPad, kPad));
        x += widths[i];
    }
}

/// How wide each column has to be so that no heading breaks inside a word, and so that what stands before a
/// row takes two lines at most.
std::vector<double> least_widths(const Grid& grid, double width, const PaperText::Face& head,
                                 double text_size) {
    std::vector<double> least;
    for (const Column& column : grid.columns)
        least.push_back(longest_word(column.title + " " + column.note, head) + 2 * kPad + 1);
    double widest = 0;
    for (const std::string& row : grid.rows)
        widest = std::max(widest,
                          PaperText(paper_string(row), {text_size, false, head.colour}, 1e5).natural_width());
    least.front() = std::max(least.front(), std::min(widest * 0.7, width * 0.25) + 2 * kPad);
    return least;
}

double sum_of(const std::vector<double>& widths) {
    return std::accumulate(widths.begin(), widths.end(), 0.0);
}

/// The columns: each as wide as it has to be, and what is left by their shares.
std::vector<double> grid_widths(const Grid& grid, double width, const std::vector<double>& least) {
    double shares = 0;
    for (const Column& column : grid.columns) shares += column.share;
    const double spare = width - sum_of(least);
    std::vector<double> widths;
    for (std::size_t i = 0; i < least.size(); ++i) {
        const double part = grid.columns[i].share / shares;
        widths.push_back(spare > 0 ? least[i] + spare * part : width * part);
    }
    return widths;
}

/// Where days and amounts lie in the picture of the dose.
struct ChartFrame {
    QRectF plot;
    double first, last, low, high;

    double x(Day day) const {
        return plot.left() +
               plot.width() * (static_cast<double>(day.time_since_epoch().count()) - first) / (last - first);
    }
    double y(double mg) const {
        if (mg <= 0) return plot.bottom();
        const double room = plot.height() * 0.86;
        return plot.top() + room * (std::log(high) - std::log(mg)) / (std::log(high) - std::log(low));
    }
};

ChartFrame frame_of(const DoseChart& chart, const QRectF& plot) {
    double low = 1e9;
    double high = 0;
    for (const DoseChart::Stair& stair : chart.stairs) {
        if (stair.mg > 0) low = std::min(low, stair.mg);
        high = std::max(high, stair.mg);
    }
    return {plot, static_cast<double>(chart.stairs.front().from.time_since_epoch().count()),
            static_cast<double>(chart.to.time_since_epoch().count()), std::min(low, high / 2), high * 1.05};
}

void paint_stairs(QPainter& painter, const DoseChart& chart, const ChartFrame& frame) {
    for (std::size_t i = 0; i < chart.stairs.size(); ++i) {
        const DoseChart::Stair& stair = chart.stairs[i];
        QPen pen(kPaperInk, stair.agreed ? 2.0 : 1.1);
        if (!stair.agreed) pen.setDashPattern({3, 2.5});
        pen.setCapStyle(Qt::FlatCap);
        painter.setPen(pen);
        const double right =
            i + 1 < chart.stairs.size() ? frame.x(chart.stairs[i + 1].from) : frame.plot.right();
        if (i > 0)
            painter.drawLine(QPointF(frame.x(stair.from), frame.y(chart.stairs[i - 1].mg)),
                             QPointF(frame.x(stair.from), frame.y(stair.mg)));
        painter.drawLine(QPointF(frame.x(stair.from), frame.y(stair.mg)), QPointF(right, frame.y(stair.mg)));
    }
}

}  // namespace

void PaperSetter::set_content(const Grid& grid, Glue glue) {
    // Many columns of large print have smaller headings, never below what is followed in normal print.
    PaperText::Face head = bold();
    while (head.size > kLeastHead && sum_of(least_widths(grid, width_, head, style_.text)) > width_)
        --head.size;
    const std::vector<double> widths =
        grid_widths(grid, width_, least_widths(grid, width_, head, style_.text));
    std::vector<PaperText> heads;
    double head_height = 0;
    bool titled = false;
    for (std::size_t i = 0; i < grid.columns.size(); ++i) {
        const Column& column = grid.columns[i];
        titled |= !column.title.empty();
        heads.push_back(text(column.note.empty() ? column.title : column.title + " " + column.note, head,
                             widths[i] - 2 * kPad));
        head_height = std::max(head_height, heads.back().height() + 2 * kPad);
    }
    Atoms repeated;
    if (titled) {
        add(
            head_height,
            [heads, widths, head_height](QPainter& painter, const QPointF& at) {
                paint_grid_row(painter, at, heads, widths, head_height, true);
            },
            Glue::hard);
        repeated.push_back(atoms_.back());
    }
    for (const std::string& row : grid.rows) {
        const PaperText name = text(row, plain(), widths.front() - 2 * kPad);
        const double height = std::max(name.height(), grid.lines_high * style_.text * 1.27) + 2 * kPad;
        add(
            height,
            [name, widths, height](QPainter& painter, const QPointF& at) {
                paint_grid_row(painter, at, {name}, widths, height, false);
            },
            Glue::none);
        auto atom = std::make_shared<Atom>(*atoms_.back());
        if (&row != &grid.rows.front()) atom->repeated = repeated;
        atoms_.back() = std::move(atom);
    }
    atoms_.push_back(space(style_.gap * 1.4, glue));
}

void PaperSetter::set_content(const DoseChart& chart, Glue glue) {
    if (chart.stairs.size() < 2 || chart.to <= chart.stairs.front().from) return;
    const PaperText title =
        text(chart.title + ": " + chart.agreed + " ———   " + chart.outlook + " – – –", plain(), width_);
    const double axis = style_.text * 5.2;
    const double height = title.height() + style_.text * 13;
    std::vector<std::pair<double, PaperText>> amounts;
    for (const auto& [mg, label] : chart.amounts) amounts.emplace_back(mg, text(label, plain(), axis));
    std::vector<std::pair<Day, PaperText>> dates;
    for (const auto& [day, label] : chart.dates)
        dates.emplace_back(day, text(label, plain(), style_.text * 8));
    const PaperText off = text(chart.off, plain(), axis);
    const bool ends = chart.stairs.back().mg <= 0;
    const double line = style_.text * 1.3;
    const double width = width_;
    add(
        height,
        [=](QPainter& painter, const QPointF& at) {
            title.paint(painter, at);
            const QRectF plot(at.x() + axis, at.y() + title.height() + 4, width - axis,
                              height - title.height() - line - 12);
            const ChartFrame frame = frame_of(chart, plot);
            for (const auto& [mg, label] : amounts) {
                if (mg < frame.low) continue;
                painter.setPen(QPen(kPaperRule, 0.4));
                painter.drawLine(QPointF(plot.left(), frame.y(mg)), QPointF(plot.right(), frame.y(mg)));
                label.paint(painter, {plot.left() - label.natural_width() - 5, frame.y(mg) - line / 2});
            }
            if (ends) off.paint(painter, {plot.left() - off.natural_width() - 5, plot.bottom() - line / 2});
            double free_from = plot.left();
            for (const auto& [day, label] : dates) {
                const double x = frame.x(day);
                painter.setPen(QPen(kPaperRule, 0.6));
                painter.drawLine(QPointF(x, plot.bottom() + 2), QPointF(x, plot.bottom() + 6));
                if (x < free_from || x + label.natural_width() > plot.right()) continue;
                label.paint(painter, {x, plot.bottom() + 7});
                free_from = x + label.natural_width() + 8;
            }
            painter.setPen(QPen(kPaperRule, 0.8));
            painter.drawLine(plot.bottomLeft() + QPointF(0, 2), plot.bottomRight() + QPointF(0, 2));
            paint_stairs(painter, chart, frame);
        },
        glue);
    atoms_.push_back(space(style_.gap, glue));
}

}  // namespace evenfall::ui
