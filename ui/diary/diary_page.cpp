// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/diary_page.h"

#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QHeaderView>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QSplitter>
#include <QStackedWidget>
#include <QTableView>

#include "casework/record_check.h"
#include "controls/buttons.h"
#include "controls/card.h"
#include "course/day_words.h"
#include "course/explain_line.h"
#include "diary/day_entry.h"
#include "diary/diary_view.h"
#include "diary/diary_words.h"
#include "diary/dose_marks.h"
#include "diary/import_dialog.h"
#include "diary/take_back.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr qint64 kMostBytes =
    33 << 20;  // a little over what the reader takes, so that it says what is too large

std::map<Day, QString> marks_of(const Course& course) {
    std::map<Day, QString> marks;
    for (const Stretch& stretch : course.stretches) {
        if (stretch.kind == Stretch::Kind::outlook) break;
        const QString daily = daily_text(stretch.daily);
        if (stretch.kind == Stretch::Kind::hold)
            marks[stretch.from] = QObject::tr("hold, %1").arg(daily);
        else if (stretch.kind == Stretch::Kind::off)
            marks[stretch.from] = QObject::tr("OFF");
        else if (stretch.step > 0)
            marks[stretch.from] = QObject::tr("step %1, %2").arg(stretch.step).arg(daily);
        else
            marks[stretch.from] = QObject::tr("recorded, %1").arg(daily);
    }
    return marks;
}

}  // namespace

DiaryPage::DiaryPage(Workbench& workbench, QWidget* parent)
    : Page(workbench, parent),
      stack_(new QStackedWidget),
      empty_(new EmptyState({}, {})),
      view_(new DiaryView),
      entry_(new DayEntry(workbench)),
      line_(new ExplainLine(workbench)),
      table_(new QTableView),
      as_table_(make_button(tr("Show as table"))),
      take_back_(make_button(tr("Take back…"))),
      days_(workbench.texts()),
      sheets_([this](Sheet sheet) { show_sheet(std::move(sheet)); }) {
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, kSpace1, 0, 0);
    outer->setSpacing(kSpace2);
    outer->addWidget(make_header());
    outer->addWidget(entry_);
    outer->addWidget(stack_, 1);
    stack_->addWidget(empty_);
    stack_->addWidget(make_content());
    connect(view_, &DiaryView::choice_changed, this, &DiaryPage::explain_choice);
    connect(view_, &DiaryView::day_opened, this, &DiaryPage::open_entry);
    connect(entry_, &DayEntry::left, this, [this] {
        entry_->hide();
        view_->setFocus();
    });
}

QWidget* DiaryPage::make_header() {
    auto* header = new QWidget;
    auto* row = new QHBoxLayout(header);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(kSpace2);
    auto* enter = make_button(tr("Enter a day"), ButtonKind::primary);
    enter->setToolTip(tr("Ctrl+E"));
    auto* import = make_button(tr("Import…"));
    import->setAccessibleName(tr("Import a diary from a CSV file"));
    take_back_->setAccessibleName(tr("Take back the chosen dose or rating, with a reason"));
    as_table_->setCheckable(true);
    row->addWidget(enter);
    row->addWidget(import);
    row->addWidget(take_back_);
    row->addStretch();
    row->addWidget(as_table_);
    connect(enter, &QPushButton::clicked, this, [this] { open_entry(entry_->running_day()); });
    connect(import, &QPushButton::clicked, this, &DiaryPage::choose_file);
    connect(take_back_, &QPushButton::clicked, this, &DiaryPage::take_back);
    auto* key = new QShortcut(QKeySequence(Qt::CTRL | Qt::Key_E), this);
    key->setContext(Qt::WidgetWithChildrenShortcut);
    connect(key, &QShortcut::activated, this, [this] { open_entry(entry_->running_day()); });
    return header;
}

QWidget* DiaryPage::make_content() {
    auto* content = new QWidget;
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(kSpace2);
    column->addWidget(new MarkLegend(workbench().texts()));
    auto* split = new QSplitter;
    split->addWidget(view_);
    split->addWidget(table_);
    split->setStretchFactor(0, 3);
    split->setStretchFactor(1, 2);
    column->addWidget(split, 1);
    column->addWidget(line_);
    table_->setModel(&days_);
    table_->setAccessibleName(tr("The diary as a table"));
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setTabKeyNavigation(false);
    table_->setShowGrid(false);
    table_->verticalHeader()->hide();
    table_->horizontalHeader()->setStretchLastSection(true);
    table_->setColumnWidth(DaysTable::day_column, 120);
    table_->setColumnWidth(DaysTable::doses_column, 300);
    table_->setMinimumWidth(320);
    table_->hide();
    connect(as_table_, &QPushButton::toggled, table_, &QTableView::setVisible);
    connect(table_, &QTableView::clicked, this,
            [this](const QModelIndex& index) { view_->choose_day(days_.day(index.row())); });
    connect(table_, &QTableView::activated, this,
            [this](const QModelIndex& index) { view_->choose_day(days_.day(index.row())); });
    return content;
}

SheetRequest DiaryPage::request(const PatientRecord& record) {
    return {check_input_of(record, workbench().course(), workbench().now()),
            std::make_shared<const Formulary>(workbench().desk().formulary()),
            std::make_shared<const Rules>(workbench().desk().rules()), marks_of(workbench().course())};
}

void DiaryPage::refresh() {
    sheets_.stop();
    if (entry_of_ != workbench().patient()) entry_->hide();  // one person's day is never saved for another
    const PatientRecord* record = workbench().record();
    if (!record) {
        show_sheet({});
        return empty_->set_texts(tr("No person is chosen"),
                                 tr("Choose someone in the caseload; their diary is shown here."));
    }
    empty_->set_texts(tr("No diary yet"), tr("Every day's doses over 24 hours and the symptoms beside them "
                                             "will stand here. Enter a day from a call, or import "
                                             "a CSV file with the columns taken_at, drug, amount_mg (doses) "
                                             "or rated_at, item, severity (symptoms)."));
    sheets_.start([wanted = request(*record)](std::stop_token stop) { return make_sheet(wanted, stop); });
}

void DiaryPage::show_sheet(Sheet sheet) {
    const bool empty = sheet.is_empty();
    days_.set_sheet(nullptr);
    view_->show_sheet(std::move(sheet));
    days_.set_sheet(&view_->sheet());
    stack_->setCurrentIndex(empty ? 0 : 1);
    as_table_->setVisible(!empty);
    take_back_->setVisible(!empty);
    if (wanted_) view_->choose_day(*wanted_);
    wanted_.reset();
    explain_choice();
}

void DiaryPage::show_part(const QString& part) {
    if (part == QStringLiteral("enter")) return open_entry(entry_->running_day());
    const auto day = parse_day(to_utf8(part), {});
    if (!day) return;
    if (busy() || !view_->choose_day(*day)) wanted_ = *day;
    view_->setFocus();
}

QString DiaryPage::explained() const {
    return line_->text();
}

void DiaryPage::explain_choice() {
    const auto& chosen = view_->chosen();
    const bool can =
        chosen && (chosen->kind == DiarySpot::Kind::dose || chosen->kind == DiarySpot::Kind::score);
    set_reason_disabled(take_back_, can ? QString() : tr("Choose a dose or a rating first."));
    if (!chosen) {
        line_->explain(nullptr);
        return view_->set_said({});
    }
    const LaneItem item = explain_spot(view_->sheet(), *chosen, workbench().texts());
    line_->explain(&item);
    view_->set_said(item.says);
    if (table_->isVisible()) table_->selectRow(days_.row_of(chosen->day));
}

void DiaryPage::open_entry(Day day) {
    if (!workbench().record()) return;
    entry_of_ = workbench().patient();
    entry_->open(day);
}

void DiaryPage::choose_file() {
    const QString path =
        QFileDialog::getOpenFileName(this, tr("Import a diary"), {}, tr("Tables (*.csv);;All files (*)"));
    if (!path.isEmpty()) open_import(path);
}

ImportDialog* DiaryPage::open_import(const QString& path) {
    const PatientRecord* record = workbench().record();
    if (!record) return nullptr;
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        if (workbench().show_faults)
            workbench().show_faults({{"file-unreadable", {}, {{"file", to_utf8(path)}}}});
        return nullptr;
    }
    const QByteArray text = file.read(kMostBytes);
    const QString name = QFileInfo(path).fileName();
    const Diary diary = diary_of(*record);
    const Zone zone = Zone::of_machine();
    DiaryImport import =
        preview_diary_csv({text.constData(), static_cast<std::size_t>(text.size())}, to_utf8(name),
                          {diary, workbench().desk().formulary(), zone, workbench().now(),
                           record->person ? record->person->value.born : std::nullopt});
    auto* dialog = new ImportDialog(std::move(import), name, workbench().texts(), this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog] { write_import(*dialog); });
    dialog->open();
    return dialog;
}

void DiaryPage::write_import(const ImportDialog& dialog) {
    const DiaryImport& import = dialog.import();
    if (!import.can_be_imported()) return;
    std::vector<Change> changes;
    if (!import.intake.empty()) changes.emplace_back(IntakeNoted{import.intake, {}});
    if (!import.ratings.empty()) changes.emplace_back(SymptomsNoted{import.ratings});
    workbench().carry_out(std::move(changes));
}

void DiaryPage::take_back() {
    const PatientRecord* record = workbench().record();
    const auto& chosen = view_->chosen();
    if (!record || !chosen) return;
    const Sheet& sheet = view_->sheet();
    const DayRow& row = sheet.rows[*sheet.row_of(chosen->day)];
    std::optional<WrittenEntry> written;
    if (chosen->kind == DiarySpot::Kind::dose)
        written = written_entry(*record, sheet.diary.intake[row.entries[chosen->index].intake]);
    if (chosen->kind == DiarySpot::Kind::score)
        for (const auto at : row.ratings)
            if (sheet.diary.ratings[at].item == sheet.items[chosen->index].item)
                written = written_entry(*record, sheet.diary.ratings[at]);
    if (!written) return;
    const QString author = workbench().worker_name(written->stamp.author);
    auto* dialog = new TakeBackDialog(std::move(*written), author, this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog] { workbench().carry_out(dialog->changes()); });
    dialog->open();
}

}  // namespace evenfall::ui
