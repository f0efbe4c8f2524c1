// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QVBoxLayout>
#include <QWidget>
#include <optional>

#include "shell/workbench.h"

class QPushButton;

namespace evenfall::ui {

class Card;
class FaultPanel;
class Label;
class SectionHeader;

/// One part of a person's record: fields that are saved together, as one entry. What was typed and not saved
/// stays in the section for as long as it lives; the page keeps a section with unsaved words when another
/// person is chosen.
class RecordSection : public QWidget {
    Q_OBJECT
  public:
    RecordSection(Workbench& workbench, const QString& title, const QString& lead, QWidget* parent = nullptr);

    /// Fills the fields from a record, and says who saved them when.
    void read(const PatientRecord& record);
    bool is_dirty() const { return dirty_; }
    /// Writes what stands in the fields. Returns whether it was written; shows faults where they are.
    bool save();

  signals:
    void dirtied();

  protected:
    virtual void load(const PatientRecord& record) = 0;
    /// What the fields say, or nothing where one of them was refused (it says why itself).
    virtual std::optional<std::vector<Change>> collect() = 0;
    /// The field that a fault is about, by the fault's place; may be null.
    virtual QWidget* field_at(const QString& /*place*/) { return nullptr; }

    Workbench& workbench() { return workbench_; }
    const Workbench& workbench() const { return workbench_; }
    const Texts& texts() const { return workbench_.texts(); }
    QVBoxLayout& body() { return *body_; }
    SectionHeader& header() { return *header_; }
    QPushButton& save_button() { return *save_; }
    /// A section without anything to save.
    void hide_save();
    /// Changes of the field make the section dirty; Enter in a line saves it.
    void watch(QWidget* field);
    void mark_dirty();
    /// Says who wrote an entry and when; null where nothing was written yet.
    void tell_entry(const Stamp* stamp);
    /// What the worker's role may not do here, in words; disables the section's button.
    void forbid(const QString& reason);

  private:
    void show_faults(const Faults& faults);
    Workbench& workbench_;
    SectionHeader* header_;
    QVBoxLayout* body_;
    FaultPanel* faults_;
    QPushButton* save_;
    Label* state_;
    bool dirty_ = false;
    bool reading_ = false;
};

}  // namespace evenfall::ui
