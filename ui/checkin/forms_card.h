// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "controls/card.h"
#include "record/patient_record.h"
#include "response/scales.h"

class QComboBox;
class QGridLayout;
class QLineEdit;

namespace evenfall::ui {

class FormItem;
class Label;
class Workbench;

/// Published forms: the items where their owner allows it, else a field for the total alone. A blank stays a
/// blank.
class FormsCard : public Card {
    Q_OBJECT
  public:
    explicit FormsCard(Workbench& workbench, QWidget* parent = nullptr);
    /// Begins empty for another person.
    void refresh();

  signals:
    void written(const std::vector<QWidget*>& fields);  ///< what was typed into these is in the record

  private:
    const Scale* chosen() const;
    void show_form();
    void tell_total();
    void save();
    ScaleAnswers answers() const;

    Workbench& workbench_;
    QComboBox* which_;
    QGridLayout* grid_;
    Label* licence_;
    Label* total_;
    std::vector<FormItem*> items_;
    QLineEdit* whole_ = nullptr;
    PatientId shown_;
};

}  // namespace evenfall::ui
