// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QComboBox>
#include <QLineEdit>
#include <QListView>
#include <QWidget>

#include "shell/caseload_model.h"

class QPushButton;

namespace evenfall::ui {

class Label;

/// The list of people: arrows move, Enter opens, a letter searches, Escape leaves the search.
class CaseloadList : public QListView {
    Q_OBJECT
  public:
    explicit CaseloadList(QWidget* parent = nullptr);

  signals:
    void letter_typed(const QString& letter);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    QModelIndex moveCursor(CursorAction action, Qt::KeyboardModifiers modifiers) override;

  private:
    /// The first person from a row on, upwards or downwards; invalid where there is none.
    QModelIndex person_from(int row, int step) const;
};

/// The left column of the window.
class CaseloadPane : public QWidget {
    Q_OBJECT
  public:
    explicit CaseloadPane(Workbench& workbench, QWidget* parent = nullptr);
    /// Puts the cursor into the search, with `typed` in it.
    void start_search(const QString& typed = {});
    CaseloadModel& model() { return *model_; }
    QLineEdit* search_field() { return search_; }
    CaseloadList* list() { return list_; }
    QComboBox* filter_box() { return filter_; }
    /// Says why nobody can be let in here.
    void forbid_users(const QString& reason);
    void forbid_trust(const QString& reason);
    /// Puts a line that asks for something above the pane's foot.
    void add_notice(QWidget* notice);

  signals:
    void new_person_wanted();
    void reference_wanted();
    void clinic_wanted();
    void theme_wanted();
    void keys_wanted();
    void users_wanted();
    void trust_wanted();
    /// A person was opened with Enter or a click: the page should take the focus.
    void opened();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    static QString reason_name(const Workbench& workbench, const std::string& rule);
    QWidget* make_head();
    QWidget* make_foot();
    void open(const QModelIndex& index);
    void show_selected();
    void tell_count();
    Workbench& workbench_;
    CaseloadModel* model_;
    void fill_filters();
    void apply_filter();
    Label* count_;
    Label* nobody_;
    QPushButton* hidden_;  ///< dangers that the search or the filter leaves out
    Label* looking_;       ///< how far the reading of the records is
    QLineEdit* search_;
    QComboBox* filter_;
    QPushButton* print_;
    CaseloadList* list_;
};

}  // namespace evenfall::ui
