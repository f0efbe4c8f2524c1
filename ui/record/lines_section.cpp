// SPDX-License-Identifier: GPL-3.0-or-later
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <map>

#include "controls/buttons.h"
#include "controls/form.h"
#include "controls/messages.h"
#include "papers/standing.h"
#include "record/sections.h"
#include "texts/render.h"
#include "theme/numerals.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

QString words_of(Standing standing) {
    switch (standing) {
        case Standing::counts:
            return QObject::tr("counts");
        case Standing::amended:
            return QObject::tr("taken back");
        case Standing::without_right:
            return QObject::tr("void: no right to write it");
        case Standing::unreadable:
            break;
    }
    return QObject::tr("kept, cannot be read");
}

/// How a paper that went out stands now, by the entry that says it went out.
std::map<EventId, QString> standings_of_papers(const PatientRecord& record) {
    std::map<EventId, QString> words;
    for (const auto& issued : record.papers) {
        const auto standing = papers::standing_of(record, {issued.value.code, {}}, Zone::of_machine());
        words[issued.id] =
            standing.state == papers::PaperState::current ? QObject::tr("counts: current paper")
            : standing.state == papers::PaperState::ended ? QObject::tr("counts: paper no longer holds")
                                                          : QObject::tr("counts: paper replaced");
    }
    return words;
}

class LinesSection : public RecordSection {
  public:
    explicit LinesSection(Workbench& workbench)
        : RecordSection(
              workbench, tr("History of everything"),
              tr("Who did what when. Nothing is lost: what was wrong is taken back, with a reason.")),
          table_(new QTableWidget(0, 5)),
          amend_(make_button(tr("Take this entry back"))) {
        hide_save();
        table_->setAccessibleName(tr("History of everything"));
        table_->setHorizontalHeaderLabels({tr("When"), tr("Who"), tr("What"), tr("Standing"), tr("Reason")});
        table_->verticalHeader()->hide();
        table_->verticalHeader()->setDefaultSectionSize(kTarget);
        table_->setShowGrid(false);
        table_->setSelectionBehavior(QAbstractItemView::SelectRows);
        table_->setSelectionMode(QAbstractItemView::SingleSelection);
        table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
        table_->setTabKeyNavigation(false);
        table_->setMinimumHeight(420);
        table_->setItemDelegate(new TabularDelegate(table_));
        table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
        table_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
        table_->horizontalHeader()->setStretchLastSection(true);
        body().addWidget(table_);
        body().addWidget(amend_, 0, Qt::AlignLeft);
        connect(table_, &QTableWidget::itemSelectionChanged, this, &LinesSection::judge);
        connect(amend_, &QPushButton::clicked, this, &LinesSection::amend);
    }

  protected:
    void load(const PatientRecord& record) override {
        lines_.assign(record.lines.rbegin(), record.lines.rend());
        const auto papers = standings_of_papers(record);
        table_->setRowCount(static_cast<int>(lines_.size()));
        for (int row = 0; row < table_->rowCount(); ++row) {
            const HistoryLine& line = lines_[static_cast<std::size_t>(row)];
            const QString cells[] = {text_of_minute(line.stamp.at),
                                     workbench().worker_name(line.stamp.author),
                                     sentence_case(to_text(line.kind).replace(u'-', u' ')),
                                     papers.contains(line.id) ? papers.at(line.id) : words_of(line.standing),
                                     to_text(line.reason)};
            for (int column = 0; column < 5; ++column)
                table_->setItem(row, column, new QTableWidgetItem(cells[column]));
        }
        judge();
    }
    std::optional<std::vector<Change>> collect() override { return std::nullopt; }

  private:
    const HistoryLine* chosen() const {
        const int row = table_->currentRow();
        return row >= 0 && static_cast<std::size_t>(row) < lines_.size() &&
                       table_->selectionModel()->hasSelection()
                   ? &lines_[static_cast<std::size_t>(row)]
                   : nullptr;
    }

    void judge() {
        const HistoryLine* line = chosen();
        const bool can = line && line->standing == Standing::counts && line->kind != "entry-amended";
        set_reason_disabled(amend_, can    ? QString()
                                    : line ? tr("This entry cannot be taken back.")
                                           : tr("Choose an entry first."));
    }

    void amend() {
        const HistoryLine* line = chosen();
        if (!line) return;
        QuietDialog dialog(tr("Take “%1” back?").arg(to_text(line->kind).replace(u'-', u' ')),
                           tr("It stays in the history and counts no more. Your reason stands beside it."),
                           window());
        QLineEdit* reason = make_line(tr("Reason"));
        add_field(*dialog.body(), tr("Reason"), reason);
        dialog.set_buttons(tr("Take it back"), tr("Leave it"));
        reason->setFocus();
        if (dialog.exec() == QDialog::Accepted)
            workbench().carry_out({EntryAmended{line->id, to_utf8(reason->text().trimmed())}});
    }

    QTableWidget* table_;
    QPushButton* amend_;
    std::vector<HistoryLine> lines_;
};

}  // namespace

RecordSection* make_lines_section(Workbench& workbench) {
    return new LinesSection(workbench);
}

}  // namespace evenfall::ui
