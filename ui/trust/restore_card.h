// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <functional>

#include "controls/card.h"
#include "shell/workbench.h"
#include "store/store.h"

namespace evenfall::ui {

class BackupKeeper;

/// Puts a back-up in the store's place, after it was shown what would be gained and lost.
class RestoreCard : public Card {
    Q_OBJECT
  public:
    /// `restore` closes everything and does it; empty where that cannot be.
    RestoreCard(Workbench& workbench, Store& store, BackupKeeper& keeper,
                std::function<void(const std::filesystem::path&)> restore, QWidget* parent = nullptr);

    /// Shows what a restore would change, and asks.
    void offer(const std::filesystem::path& backup);

  signals:
    void failed(const evenfall::Faults& faults);

  private:
    void choose();
    QString preview_words(const RestorePreview& preview) const;

    Workbench& workbench_;
    Store& store_;
    BackupKeeper& keeper_;
    std::function<void(const std::filesystem::path&)> restore_;
};

/// A person as lists of safe keeping name them: by reference, the clinic's own entries and the access log in
/// words.
QString name_in_lists(Workbench& workbench, const PatientId& patient);

}  // namespace evenfall::ui
