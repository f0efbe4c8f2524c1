// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QListWidget>
#include <QScrollArea>
#include <map>

#include "record/section.h"
#include "shell/workbench.h"

class QHBoxLayout;

namespace evenfall::ui {

/// The parts of one person's record, each made when it is first opened.
class RecordParts : public QWidget {
    Q_OBJECT
  public:
    RecordParts(Workbench& workbench, QWidget* parent = nullptr);
    void show_part(const QString& id);
    /// Reads again whatever holds no unsaved words.
    void read_again();
    bool has_unsaved() const;
    QListWidget* list() const { return list_; }
    RecordSection* section(const QString& id);

  private:
    void open(int row);
    void mark(int row);
    Workbench& workbench_;
    QListWidget* list_;
    QScrollArea* scroll_;
    QWidget* holder_;
    std::vector<RecordSection*> made_;
};

/// Intake and everything that is known of a person. Unsaved words survive the choice of another person for as
/// long as the window is open.
class RecordPage : public Page {
    Q_OBJECT
  public:
    explicit RecordPage(Workbench& workbench, QWidget* parent = nullptr);
    void refresh() override;
    void show_part(const QString& part) override;
    RecordParts* parts() { return parts_; }

  private:
    void swap_parts();
    QHBoxLayout* row_;
    RecordParts* parts_ = nullptr;
    PatientId shown_;
    std::map<PatientId, RecordParts*> kept_;
    QString part_ = QStringLiteral("person");
};

}  // namespace evenfall::ui
