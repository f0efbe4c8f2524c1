// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/document.h"

namespace evenfall::papers {
namespace {

using Visit = std::function<void(Role, const std::string&)>;

void each(const std::vector<std::string>& texts, Role role, const Visit& visit) {
    for (const std::string& text : texts) visit(role, text);
}

/// Visits the texts of one block.
struct Visitor {
    const Visit& visit;

    void operator()(const Heading& heading) const { visit(Role::title, heading.text); }
    void operator()(const Paragraph& paragraph) const { visit(Role::sentence, paragraph.text); }
    void operator()(const Notice& notice) const {
        visit(Role::title, notice.title);
        each(notice.lines, Role::sentence, visit);
    }
    void operator()(const List& list) const { each(list.items, Role::sentence, visit); }
    void operator()(const Sides& sides) const {
        for (const Side& side : sides.sides) {
            visit(Role::title, side.title);
            each(side.items, Role::sentence, visit);
            pairs(side.rows);
        }
    }
    void operator()(const KeyValues& values) const { pairs(values.rows); }
    void operator()(const Mark& mark) const { visit(Role::sentence, mark.caption); }
    void pairs(const std::vector<std::pair<std::string, std::string>>& rows) const {
        for (const auto& [name, value] : rows) {
            visit(Role::label, name);
            visit(Role::label, value);
        }
    }
    void operator()(const Cell& cell) const {
        each(cell.strong, Role::label, visit);
        for (const DoseInCell& dose : cell.doses) {
            each(dose.lines, Role::dose, visit);
            visit(Role::dose, dose.was);
        }
        each(cell.lines, Role::label, visit);
    }
    void operator()(const std::vector<Column>& columns) const {
        for (const Column& column : columns) {
            visit(Role::label, column.title);
            visit(Role::label, column.note);
        }
    }
    void operator()(const Table& table) const {
        (*this)(table.columns);
        for (const Group& group : table.groups) {
            each(group.band, Role::sentence, visit);
            visit(Role::foot, group.continued);
            for (const Cell& cell : group.lead) (*this)(cell);
            for (const Row& row : group.rows)
                for (const Cell& cell : row) (*this)(cell);
        }
        visit(Role::foot, table.goes_on);
    }
    void operator()(const Signature& signature) const {
        visit(Role::sentence, signature.statement);
        for (const auto& [name, value] : signature.lines) {
            visit(Role::label, name);
            visit(Role::label, value);
        }
    }
    void operator()(const Grid& grid) const {
        (*this)(grid.columns);
        each(grid.rows, Role::label, visit);
    }
    void operator()(const DoseChart& chart) const {
        for (const std::string& text : {chart.title, chart.agreed, chart.outlook, chart.off})
            visit(Role::label, text);
        for (const auto& [day, text] : chart.dates) visit(Role::label, text);
        for (const auto& [mg, text] : chart.amounts) visit(Role::label, text);
    }
    void operator()(const PageBreak&) const {}
};

}  // namespace

void for_each_text(const Document& document, const Visit& visit) {
    const Visit filled = [&](Role role, const std::string& text) {
        if (!text.empty()) visit(role, text);
    };
    filled(Role::title, document.title);
    filled(Role::title, document.subtitle);
    filled(Role::label, document.patient);
    for (const Block& block : document.blocks) std::visit(Visitor{filled}, block.content);
    const Footer& foot = document.footer;
    for (const std::string& text : {foot.patient, foot.version, foot.replaces, foot.page})
        filled(Role::foot, text);
}

std::string plain_text(const Document& document) {
    std::string all;
    for_each_text(document, [&](Role, const std::string& text) { all += text + "\n"; });
    return all;
}

}  // namespace evenfall::papers
