// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "course/latest.h"
#include "diary/days_table.h"
#include "diary/sheet.h"
#include "shell/workbench.h"

class QPushButton;
class QStackedWidget;
class QTableView;

namespace evenfall::ui {

class DayEntry;
class DiaryView;
class EmptyState;
class ExplainLine;
class ImportDialog;

/// The diary: doses and symptoms day by day, the entry of a day, import, and taking back.
class DiaryPage : public Page {
    Q_OBJECT

  public:
    explicit DiaryPage(Workbench& workbench, QWidget* parent = nullptr);
    void refresh() override;
    bool busy() const override { return sheets_.busy(); }
    /// A day ("2026-11-20") is chosen; "enter" opens the entry of the running day.
    void show_part(const QString& part) override;

    DiaryView* view() const { return view_; }
    DayEntry* entry() const { return entry_; }
    /// What stands in the line beneath.
    QString explained() const;

    /// Opens the preview of a file; it writes when it is accepted. Null where nobody is chosen or the file
    /// cannot be opened (the reason is shown).
    ImportDialog* open_import(const QString& path);
    /// Asks for a reason and takes back what is chosen. Does nothing where no dose or rating is chosen.
    void take_back();

  private:
    QWidget* make_header();
    QWidget* make_content();
    void show_sheet(Sheet sheet);
    void choose_file();
    void write_import(const ImportDialog& dialog);
    void open_entry(Day day);
    void explain_choice();
    SheetRequest request(const PatientRecord& record);

    QStackedWidget* stack_;
    EmptyState* empty_;
    DiaryView* view_;
    DayEntry* entry_;
    PatientId entry_of_;  ///< whose day is being entered
    ExplainLine* line_;
    QTableView* table_;
    QPushButton* as_table_;
    QPushButton* take_back_;
    DaysTable days_;
    std::optional<Day> wanted_;
    Latest<Sheet> sheets_;
};

}  // namespace evenfall::ui
