// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPushButton>
#include <QWidget>
#include <optional>

#include "shell/workbench.h"

namespace evenfall::ui {

class Label;
class ElidedLabel;

/// What presses most, as a pill with its shape; pressing it says why.
class PressPill : public QPushButton {
    Q_OBJECT
  public:
    explicit PressPill(Workbench& workbench, QWidget* parent = nullptr);
    /// Nothing, or a steady reason, hides the pill.
    void set_reason(const std::optional<Reason>& reason);
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    Workbench& workbench_;
    Reason reason_;
};

/// Who this is, what is taken today and what comes next; the dose in force is the largest thing on the page.
class PatientBand : public QWidget {
    Q_OBJECT
  public:
    explicit PatientBand(Workbench& workbench, QWidget* parent = nullptr);
    void refresh();
    /// Says why the window cannot be covered.
    void forbid_lock(const QString& reason);

  signals:
    void lock_wanted();

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    QLayout* pair_of(Label* above, QWidget* below);
    void show_person(const PatientRecord& record);
    void show_dose(const Course& course);
    void show_step(const Course& course);
    void show_contact(const Course& course, bool now);

    Workbench& workbench_;
    QWidget* contents_;
    ElidedLabel* name_;
    ElidedLabel* about_;
    QWidget* dangers_;
    ElidedLabel* danger_words_;
    Label* dose_;
    ElidedLabel* drug_;
    Label* times_;
    Label* step_;
    Label* day_;
    Label* contact_title_;
    Label* contact_;
    PressPill* pill_;
    QPushButton* lock_ = nullptr;
};

}  // namespace evenfall::ui
