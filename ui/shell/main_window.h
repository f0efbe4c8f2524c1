// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QStackedWidget>
#include <QTabBar>
#include <QWidget>
#include <functional>
#include <vector>

#include "shell/lock.h"
#include "shell/workbench.h"
#include "store/store.h"

class QPushButton;

namespace evenfall::ui {

class CaseloadPane;
class EmptyState;
class FaultPanel;
class NextColumn;
class PatientBand;
class SavedNote;

/// A page of the window: made when it is first shown.
struct PageMaker {
    QString id;     ///< "course", "plan", …: what `Workbench::page_wanted` names
    QString title;  ///< what the tab says
    std::function<Page*(Workbench&, QWidget*)> make;
    bool wide = false;  ///< compares things side by side: in a narrow window what is next folds away
};

/// What the window needs beside the desk. Everything may be left out: without a proof of the passphrase the
/// window cannot be covered, without users nobody can be added.
struct WindowServices {
    Prove prove;  ///< proves the worker's passphrase; any thread
    Lock lock;    ///< empty: the cover asks for what `prove` proves, and keeps the keys
    std::chrono::minutes cover_after{5};  ///< without a key or the mouse
    std::function<std::vector<User>()> users;
    std::function<Result<User>(const NewUser&, const std::string& passphrase)> grant;
    std::function<Result<Done>(const UserId&)> close_user;
    /// Adding a user in two parts: the first takes the time that a passphrase's key costs, on any thread.
    Store::Granting granting;
    /// Makes the window of safe keeping: back-ups, proofs, who opened whom.
    std::function<QWidget*(Workbench&, QWidget*)> make_trust;
};

/// The one window: the caseload, the band of the selected person, their pages, and what to do next. Its title
/// never names anyone and it keeps nothing between runs.
class MainWindow : public QWidget {
    Q_OBJECT
  public:
    MainWindow(Workbench& workbench, std::vector<PageMaker> pages, WindowServices services = {},
               QWidget* parent = nullptr);
    ~MainWindow() override;

    /// Shows a page ("plan") or a part of it ("record/risks").
    void show_page(const QString& page);
    /// The page in front, or null while nobody is selected.
    Page* page() const;
    void cover();
    CaseloadPane& caseload() { return *caseload_; }
    LockCover* lock_cover() { return cover_; }

  public slots:
    void add_person();
    void show_reference();
    void show_clinic();
    void show_users();
    void show_trust();
    void show_keys();
    void next_theme();

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    QWidget* make_right_side();
    QWidget* make_tab_row();
    void add_keys();
    void connect_workbench();
    void refresh();
    void open_tab(int at);
    void show_faults(const Faults& faults);
    void look_at_list();
    void look_at_the_clock();
    void fit_next();
    void fold_next(bool away);

    Workbench& workbench_;
    std::vector<PageMaker> makers_;
    std::vector<Page*> made_;
    WindowServices services_;
    CaseloadPane* caseload_;
    PatientBand* band_;
    QTabBar* tabs_;
    QStackedWidget* stack_;
    NextColumn* next_;
    QPushButton* unfold_;  ///< brings back what is next where it is folded away
    bool folded_ = true;   ///< on a wide page, in a narrow window
    SavedNote* saved_;
    FaultPanel* faults_;
    EmptyState* nobody_;
    LockCover* cover_ = nullptr;
    LocalTime looked_at_{};  ///< when the list was last derived
    QPointer<QWidget> reference_;
    QPointer<QWidget> clinic_;
    QPointer<QWidget> trust_;
};

}  // namespace evenfall::ui
