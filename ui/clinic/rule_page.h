// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLineEdit>
#include <QWidget>
#include <string>
#include <vector>

#include "rules/rules.h"
#include "shell/workbench.h"

class QVBoxLayout;

namespace evenfall::ui {

class FaultPanel;

/// A rule's id as words for a list: "cut-over-cap" is "Cut over cap".
QString name_of_rule(const std::string& id);

/// One rule: what it says, its values, who says so, and the clinic's own value with a reason.
class RulePage : public QWidget {
    Q_OBJECT
  public:
    RulePage(Workbench& workbench, std::string rule, QWidget* parent = nullptr);

  private:
    void add_values(QVBoxLayout& column, const Rule& rule);
    void add_history(QVBoxLayout& column);
    void save();

    struct Value {
        std::string name;
        std::string in_force;
        QLineEdit* line;
    };

    Workbench& workbench_;
    std::string rule_;
    std::vector<Value> values_;
    QLineEdit* reason_;
    FaultPanel* faults_;
};

}  // namespace evenfall::ui
