// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "controls/card.h"
#include "shell/workbench.h"
#include "store/store.h"

class QPushButton;
class QVBoxLayout;

namespace evenfall::ui {

class CopyInParts;
class Label;

/// Two laptops of one clinic: writes an exchange file, takes one in, and shows what only a person can
/// settle.
class ExchangeCard : public Card {
    Q_OBJECT
  public:
    ExchangeCard(Workbench& workbench, Store& store, QWidget* parent = nullptr);
    ~ExchangeCard() override;

    /// Writes an exchange file, over an older one too: the question was asked with the file's name.
    void write_to(const std::filesystem::path& to);
    /// Takes in what another laptop's file has beyond this store.
    void take_in(const std::filesystem::path& from);
    /// Looks again for what is to be settled.
    void refresh();

  signals:
    void failed(const evenfall::Faults& faults);
    /// A file was taken in: these patients' records changed.
    void taken();
    void written();
    /// Somebody is to be looked at in the main window.
    void person_wanted(const evenfall::PatientId& patient);

  private:
    void choose_target();
    void choose_source();
    void show_progress();
    void show_forks();
    void show_conflicts();
    void add_line(const QString& words, const PatientId& patient);
    QString words(const char* id, const Args& args = {}) const;

    Workbench& workbench_;
    Store& store_;
    CopyInParts* copy_;
    std::filesystem::path to_;
    QPushButton* write_;
    Label* says_;
    QVBoxLayout* open_;  ///< what is to be settled
};

}  // namespace evenfall::ui
