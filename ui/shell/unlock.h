// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStackedWidget>
#include <QWidget>
#include <filesystem>
#include <optional>

#include "rules/texts.h"
#include "store/store.h"
#include "theme/tones.h"

class QLineEdit;
class QProgressBar;
class QPushButton;
class QVBoxLayout;

namespace evenfall::ui {

class FaultPanel;
class JoinStep;
class Label;
class Task;
class UnlockWait;

/// A step of the way into the store: a form, a button, room for what is wrong.
class UnlockStep : public QWidget {
    Q_OBJECT
  public:
    UnlockStep(const QString& title, const QString& lead, const QString& commit, QWidget* parent = nullptr);
    QVBoxLayout* form() const { return form_; }
    QPushButton* commit_button() const { return commit_; }
    /// A second button beside the first.
    QPushButton* add_other(const QString& text);
    void set_busy(const QString& what);  ///< "" ends it
    /// In the tone of a fault, or of what was done and went well.
    void say(const QString& sentence, Tone colour = Tone::danger);
    QString said() const;

  signals:
    void committed();

  private:
    QVBoxLayout* form_;
    QPushButton* commit_;
    QVBoxLayout* outer_;
    class QHBoxLayout* buttons_;
    QProgressBar* busy_;
    Label* says_;
};

/// The door: makes a store on the first run, opens it on every other. Keys are derived off the window's
/// thread. `opened` is sent once; then `take_store` gives the store away.
class UnlockWindow : public QWidget {
    Q_OBJECT
  public:
    UnlockWindow(std::filesystem::path file, const Texts& texts, StoreOptions options = {},
                 QWidget* parent = nullptr);
    ~UnlockWindow() override;

    /// The opened store, once. Empty before `opened`.
    std::optional<Store> take_store();
    /// Says a sentence above the passphrase: what happened while the window was away.
    void tell(const QString& sentence, Tone colour = Tone::danger);
    /// On the first run, the clinic's name as it was typed: the first thing to write into the clinic's
    /// record.
    const QString& new_clinic() const { return new_clinic_; }
    /// The recovery key while it is shown; for the printer and for tests.
    const QString& recovery_key() const { return recovery_key_; }

  signals:
    void opened();

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    QWidget* make_first_run();
    QWidget* make_unlock();
    QWidget* make_key_step();
    QWidget* make_recovery();
    QWidget* make_join();
    void join();
    void create();
    void open();
    void open_with_key();
    void show_key(Store::Created created);
    void check_group();
    void print_key();
    void finish(Store store);
    void take_result(Result<Store> result, UnlockStep* step);
    void wait(const Faults& faults, int seconds_left);
    QString words_of(const Faults& faults) const;

    std::filesystem::path file_;
    const Texts& texts_;
    StoreOptions options_;
    Task* task_;
    UnlockWait* wait_;
    UnlockStep* waiting_ = nullptr;  ///< the step whose next try must wait
    QStackedWidget* steps_;
    UnlockStep *first_run_ = nullptr, *unlock_ = nullptr, *key_step_ = nullptr, *recovery_ = nullptr;
    JoinStep* join_ = nullptr;
    QLineEdit *clinic_ = nullptr, *name_ = nullptr, *licence_ = nullptr, *secret_ = nullptr,
              *again_ = nullptr;
    QLineEdit *user_ = nullptr, *passphrase_ = nullptr, *group_ = nullptr, *typed_key_ = nullptr;
    Label *key_text_ = nullptr, *group_asks_ = nullptr;
    QString recovery_key_, new_clinic_;
    int asked_group_ = 0;
    std::optional<Store> store_;
};

}  // namespace evenfall::ui
