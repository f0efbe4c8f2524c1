// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>

#include "papers/papers.h"
#include "papers/preview.h"
#include "shell/workbench.h"

class QCheckBox;
class QComboBox;
class QListWidget;
class QPushButton;
class QToolButton;

namespace evenfall::ui {

class FaultPanel;
class Label;
class MissingPanel;
class PaperCheck;

/// The papers of one person: which, how large, in which language; a preview page by page; print and PDF. What
/// stands in the way of a paper is said in words in its place.
class PapersPage : public Page {
    Q_OBJECT

  public:
    explicit PapersPage(Workbench& workbench, QWidget* parent = nullptr);
    void refresh() override;

    /// The name of the file to write; empty where the person left. Tests answer for themselves.
    std::function<QString(const QString& suggested)> ask_for_file;
    /// Whether a file that is there may be replaced. Tests answer for themselves.
    std::function<bool(const QString& path)> ask_to_replace;
    /// Prints; false where it was left. Tests answer for themselves.
    std::function<bool(const PaperPainter&)> print;

    /// Shows another paper of the same person.
    void choose(Paper paper);
    Paper chosen() const;

    /// The parts of the page, for the window's tests.
    PaperPreview* preview() const { return preview_; }
    QComboBox* size_choice() const { return size_; }
    QComboBox* language_choice() const { return language_; }
    QCheckBox* large_print() const { return large_; }
    QPushButton* print_button() const { return print_; }
    QPushButton* pdf_button() const { return pdf_; }
    MissingPanel* missing() const { return missing_; }
    PaperCheck* check() const { return check_; }
    /// What stands in the way of the chosen paper; empty where nothing does.
    const Faults& faults() const { return faults_; }

  private:
    QWidget* make_left();
    QWidget* make_right();
    QWidget* make_preview_bar();
    const Texts* texts_in(const std::string& language);
    void make();
    void show_missing(const Faults& faults);
    void show_faults(const Faults& faults);
    void show_state();
    void save_pdf();
    void print_now();
    void judge();
    /// Writes into the record that a schedule left the room.
    void note_issued();

    QListWidget* list_;
    QComboBox* size_;
    QComboBox* language_;
    QCheckBox* large_;
    QPushButton* print_;
    QPushButton* pdf_;
    PaperPreview* preview_;
    FaultPanel* in_the_way_;
    MissingPanel* missing_;
    PaperCheck* check_;
    QWidget* bar_;
    Label* page_of_;
    QToolButton* back_;
    QToolButton* forth_;
    PatientId shown_for_;
    Faults faults_;
    std::optional<papers::PaperSource> source_;
    std::map<std::string, Texts> texts_;
};

}  // namespace evenfall::ui
