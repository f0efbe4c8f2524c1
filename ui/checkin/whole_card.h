// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "controls/card.h"
#include "record/patient_record.h"

class QComboBox;
class QStackedWidget;

namespace evenfall::ui {

class Label;
class Workbench;

/// One small form of the whole picture: what it is called, its fields, and what it becomes.
struct SmallForm {
    QString title;
    QWidget* fields = nullptr;
    std::function<std::optional<Change>()> collect;
    std::function<void()> fill;  ///< from the record; may be empty
};

/// What belongs to the whole picture beside the talk: something that happened, a drug test, a look into the
/// monitoring database, who looks after the person, left-over tablets, and whether they are still in care.
class WholeCard : public Card {
    Q_OBJECT
  public:
    explicit WholeCard(Workbench& workbench, QWidget* parent = nullptr);
    void refresh();

  signals:
    void written(const std::vector<QWidget*>& fields);  ///< what was typed into these is in the record

  private:
    void save();
    Workbench& workbench_;
    QComboBox* which_;
    QStackedWidget* stack_;
    Label* known_;
    std::vector<SmallForm> forms_;
    std::string shown_;
};

std::vector<SmallForm> small_forms(Workbench& workbench);

/// What is known already, a line each, the latest of each kind.
QString whole_words(const PatientRecord& record, Day today);

}  // namespace evenfall::ui
