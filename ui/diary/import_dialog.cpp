// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/import_dialog.h"

#include <QHeaderView>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

#include "controls/buttons.h"
#include "controls/label.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

struct Say {
    Q_DECLARE_TR_FUNCTIONS(ImportDialog)
};

QString standing_words(ImportStanding standing) {
    switch (standing) {
        case ImportStanding::added:
            return Say::tr("Will be added");
        case ImportStanding::duplicate:
            return Say::tr("Already there");
        case ImportStanding::faulty:
            break;
    }
    return Say::tr("Faulty");
}

QString answer_of(const DiaryImport& import) {
    const auto fresh = import.intake.size() + import.ratings.size();
    if (import.faulty > 0)
        return Say::tr(
                   "Nothing will be imported. Faulty rows: %1. Mend them in the file and choose it again.")
            .arg(import.faulty);
    if (fresh == 0) return Say::tr("Every row is already there: nothing to add.");
    return Say::tr("Entries to be added: %1. Already there: %2.").arg(fresh).arg(import.duplicates);
}

}  // namespace

ImportModel::ImportModel(DiaryImport import, const Texts& texts, QObject* parent)
    : QAbstractTableModel(parent), import_(std::move(import)), texts_(texts) {
}

int ImportModel::first_faulty() const {
    for (std::size_t i = 0; i < import_.rows.size(); ++i)
        if (import_.rows[i].standing == ImportStanding::faulty) return static_cast<int>(i);
    return -1;
}

int ImportModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(import_.rows.size());
}

int ImportModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : column_count;
}

QString ImportModel::cell(const ImportRow& row, int column) const {
    switch (column) {
        case line_column:
            return row.line == 0 ? tr("Whole file") : QString::number(row.line);
        case standing_column:
            return standing_words(row.standing);
        case entry_column:
            return to_text(row.entry);
        case place_column:
            return to_text(row.column);
        default:
            break;
    }
    QStringList says;
    for (const Message& message : row.says) says << to_text(texts_.text(message));
    return says.join(QLatin1Char(' '));
}

QVariant ImportModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const ImportRow& row = import_.rows[static_cast<std::size_t>(index.row())];
    if (role == Qt::DisplayRole || role == Qt::AccessibleTextRole ||
        (role == Qt::ToolTipRole && index.column() == reason_column))
        return cell(row, index.column());
    if (role == Qt::ForegroundRole && row.standing == ImportStanding::faulty) return tone(Tone::presses);
    if (role == Qt::ForegroundRole && row.standing == ImportStanding::duplicate) return tone(Tone::soft_ink);
    return {};
}

QVariant ImportModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
    switch (section) {
        case line_column:
            return tr("Row");
        case standing_column:
            return tr("What happens");
        case entry_column:
            return tr("Entry");
        case place_column:
            return tr("Column");
        default:
            return tr("Reason");
    }
}

ImportDialog::ImportDialog(DiaryImport import, const QString& file, const Texts& texts, QWidget* parent)
    : QuietDialog(tr("Import a diary"),
                  tr("From %1. Nothing is written until you say so; all of it or none.").arg(file), parent),
      model_(std::move(import), texts),
      table_(new QTableView) {
    auto* answer = new Label(answer_of(this->import()), Type::strong,
                             this->import().faulty > 0 ? Tone::presses : Tone::ink);
    body()->addWidget(answer->wrapped());
    table_->setModel(&model_);
    table_->setAccessibleName(tr("Rows of the file and what happens to each"));
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setTabKeyNavigation(false);
    table_->setShowGrid(false);
    table_->verticalHeader()->hide();
    table_->horizontalHeader()->setStretchLastSection(true);
    setMinimumWidth(1040);
    table_->setMinimumHeight(320);
    const int widths[] = {84, 120, 270, 100};
    for (int column = 0; column < 4; ++column) table_->setColumnWidth(column, widths[column]);
    body()->addWidget(table_, 1);
    if (const int faulty = model_.first_faulty(); faulty >= 0) table_->selectRow(faulty);
    const auto fresh = this->import().intake.size() + this->import().ratings.size();
    commit_ = set_buttons(this->import().faulty > 0 ? tr("Add the entries")
                          : fresh == 1              ? tr("Add the entry")
                                                    : tr("Add %1 entries").arg(fresh),
                          tr("Leave it"));
    if (!this->import().can_be_imported()) set_reason_disabled(commit_, answer_of(this->import()));
}

}  // namespace evenfall::ui
