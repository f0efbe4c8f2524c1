// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractListModel>
#include <QElapsedTimer>
#include <QTimer>
#include <vector>

#include "shell/workbench.h"

namespace evenfall::ui {

/// The people of the desk in groups by what presses, as far as a search lets them through.
class CaseloadModel : public QAbstractListModel {
    Q_OBJECT
  public:
    enum Roles { kPatient = Qt::UserRole, kIsHeading, kCount };

    explicit CaseloadModel(Workbench& workbench, QObject* parent = nullptr);
    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

    /// The line of a row, or null for a heading.
    const CaseloadLine* line(const QModelIndex& index) const;
    /// The row of a patient; invalid where they are not shown.
    QModelIndex find(const PatientId& patient) const;
    int people() const { return static_cast<int>(lines_.size()); }

    /// How many with a danger the search or the filter leaves out.
    int hidden_dangers() const;

    /// Reads everyone again. Where there are many, what is known is shown at once and the rest is looked at
    /// person by person while the window works.
    void reload();
    /// People who are not in the list yet, since their records have to be read first.
    int missing() const { return missing_; }
    /// People who are not in the list, since their records cannot be read.
    int unreadable() const { return unreadable_; }
    /// Looks at nobody until it is loaded again: the window is locked.
    void rest() { look_.stop(); }
    /// Reads one person again; the others stay as they are.
    void reload(const PatientId& patient);
    /// Keeps those whose name, reference or agent holds every word of `words`. Who is no longer in care is
    /// never listed, but can be found.
    void search(const QString& words);
    /// Keeps those of one agent, clinician, nurse, or with one reason; an empty value keeps all.
    enum class By { nothing, reason, agent, clinician, nurse };
    void filter(By by, const std::string& value);
    /// What may be filtered by, as the people here have it.
    std::vector<std::string> values(By by) const;
    /// The lines as they are shown, top to bottom.
    std::vector<CaseloadLine> shown() const;
    int people_shown() const;

  signals:
    /// The list was filled or put in order while nobody asked for it.
    void looked_on();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void look_on();
    void show_known();
    void take_lines(std::vector<CaseloadLine> lines);
    struct Row {
        QString heading;  ///< empty for a person
        int count = 0;
        std::size_t line = 0;
    };
    void arrange();
    bool matches(std::size_t at) const;
    QString spoken(const CaseloadLine& line) const;

    Workbench& workbench_;
    std::vector<CaseloadLine> lines_;
    std::vector<QString> sought_;  ///< of each line, in what a search looks
    int missing_ = 0;
    int unreadable_ = 0;
    QTimer look_;
    QElapsedTimer touched_;  ///< since somebody used the keys or the mouse
    QElapsedTimer shown_;    ///< since the list was last brought up to what is known
    std::vector<Row> rows_;
    QStringList words_;
    By by_ = By::nothing;
    std::string value_;
};

}  // namespace evenfall::ui
