// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/keys_overview.h"

#include <QGridLayout>
#include <QPushButton>

#include "controls/label.h"
#include "shell/main_window.h"

namespace evenfall::ui {

KeysOverview::KeysOverview(const std::vector<PageMaker>& pages, QWidget* parent)
    : QuietDialog(tr("Keys"), tr("Everything can be reached without a mouse."), parent) {
    std::vector<std::pair<QString, QString>> keys;
    for (std::size_t at = 0; at < pages.size(); ++at)
        keys.emplace_back(tr("Ctrl+%1").arg(at + 1), pages[at].title);
    keys.insert(keys.end(),
                {{tr("/ or Ctrl+F"), tr("Find a person")},
                 {tr("Up, Down, Enter"), tr("Move in the caseload and open a person")},
                 {tr("A letter in the caseload"), tr("Search as you type")},
                 {tr("Alt+1 to Alt+9"), tr("Do what stands under Next")},
                 {tr("Ctrl+Enter in a call"), tr("Save the call")},
                 {tr("N, Y, P, A in a call"), tr("No, yes, as planned, no answer")},
                 {tr("PgUp, PgDn, +, −, 0 on a paper"), tr("Turn its pages, larger, smaller, fit")},
                 {tr("Ctrl+N"), tr("New person")},
                 {tr("Ctrl+R"), tr("Reference of agents")},
                 {tr("Ctrl+K"), tr("The clinic and its rules")},
                 {tr("Ctrl+B"), tr("Safe keeping: back-ups, proofs, who opened whom")},
                 {tr("Enter"), tr("Commit what was typed")},
                 {tr("Escape"), tr("Leave what is open")},
                 {tr("Alt+Down"), tr("Pick a date from a calendar")},
                 {tr("Ctrl+T"), tr("Light, dark, high contrast")},
                 {tr("Ctrl+L"), tr("Cover the window")},
                 {tr("F1"), tr("These keys")}});
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(kSpace6);
    grid->setVerticalSpacing(kSpace2);
    int row = 0;
    for (const auto& [press, does] : keys) {
        grid->addWidget(new Label(press, Type::strong), row, 0);
        grid->addWidget(new Label(does), row++, 1);
    }
    grid->setColumnStretch(1, 1);
    body()->addLayout(grid);
    set_buttons(tr("Close"), tr("Leave"))->setFocus();
}

}  // namespace evenfall::ui
