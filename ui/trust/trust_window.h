// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <filesystem>
#include <functional>

#include "shell/workbench.h"
#include "store/store.h"

class QPushButton;
class QVBoxLayout;

namespace evenfall::ui {

class BackupKeeper;
class Card;
class ExchangeCard;
class Label;
class RestoreCard;

/// What is protected, what is not, and what the practice must do itself, in plain words; back-ups, the other
/// laptop, proofs, restore, passphrase, and who opened whose record.
class TrustWindow : public QWidget {
    Q_OBJECT
  public:
    /// `restore` closes everything and puts a back-up in the store's place; empty where that cannot be.
    TrustWindow(Workbench& workbench, Store& store, BackupKeeper& keeper,
                std::function<void(const std::filesystem::path&)> restore, QWidget* parent = nullptr);
    ~TrustWindow() override;

    /// Chooses the folder for back-ups, as the button does after its question.
    void choose_folder(const std::filesystem::path& folder);
    /// Proves all rows, with progress; known heads are those of the newest back-up in the folder.
    void prove_now();
    /// Shows what a restore would change, and asks.
    void offer_restore(const std::filesystem::path& backup);
    void refresh();
    ExchangeCard& exchange() { return *exchange_; }

  protected:
    void showEvent(QShowEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    QString words(const char* id, const Args& args = {}) const;
    Card* add_card(const char* heading);
    void add_words(Card& card, const char* id);
    void add_list(const char* heading, const char* prefix);
    void add_backups();
    void add_proof();
    void add_exchange();
    void show_person(const PatientId& patient);
    void add_passphrase();
    void add_accesses();
    void fill_accesses();
    void show_marks();
    void show_reminders();
    void show_faults(const Faults& faults);
    void change_passphrase();

    Workbench& workbench_;
    Store& store_;
    BackupKeeper& keeper_;
    QVBoxLayout* column_;
    RestoreCard* restore_;
    ExchangeCard* exchange_ = nullptr;
    Card* reminders_ = nullptr;
    Label *remind_ = nullptr, *last_backup_ = nullptr, *folder_ = nullptr, *last_proof_ = nullptr,
          *proof_says_ = nullptr, *marks_ = nullptr, *says_ = nullptr, *accesses_ = nullptr,
          *schedule_ = nullptr;
    QPushButton *back_up_ = nullptr, *prove_ = nullptr;
};

}  // namespace evenfall::ui
