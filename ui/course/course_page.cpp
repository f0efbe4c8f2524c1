// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/course_page.h"

#include <QButtonGroup>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QPushButton>
#include <QScrollArea>
#include <QSplitter>
#include <QStackedWidget>
#include <QTableView>

#include "controls/buttons.h"
#include "controls/card.h"
#include "course/course_view.h"
#include "course/explain_line.h"
#include "course/level_curve.h"
#include "theme/theme.h"

namespace evenfall::ui {

CoursePage::CoursePage(Workbench& workbench, QWidget* parent)
    : Page(workbench, parent),
      stack_(new QStackedWidget),
      empty_(new EmptyState(tr("No course yet"), {})),
      view_(new CourseView),
      line_(new ExplainLine(workbench)),
      table_(new QTableView),
      as_table_(make_button(tr("Show as table"))),
      ranges_(new QButtonGroup(this)),
      levels_([this](LevelCurve curve) { show_level(std::move(curve)); }) {
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(kSpace4, kSpace3, kSpace4, kSpace3);
    outer->addWidget(stack_);
    stack_->addWidget(empty_);
    stack_->addWidget(make_content());
    auto* begin = make_button(tr("Record what is taken"), ButtonKind::primary);
    empty_->add_action(begin);
    connect(begin, &QPushButton::clicked, this,
            [this] { emit this->workbench().page_wanted(QStringLiteral("record")); });
    setFocusProxy(view_);
    connect(view_, &CourseView::choice_changed, this, &CoursePage::explain_choice);
    connect(view_, &CourseView::axis_changed, this, [this] {
        ranges_->setExclusive(false);
        for (QAbstractButton* button : ranges_->buttons())
            button->setChecked(view_->range() && ranges_->id(button) == static_cast<int>(*view_->range()));
        ranges_->setExclusive(true);
    });
}

QWidget* CoursePage::make_header() {
    auto* header = new QWidget;
    auto* row = new QHBoxLayout(header);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(kSpace1);
    row->addStretch();
    const std::pair<CourseRange, QString> choices[] = {{CourseRange::weeks_13, tr("13 weeks")},
                                                       {CourseRange::year, tr("Year")},
                                                       {CourseRange::all, tr("All")}};
    for (const auto& [range, words] : choices) {
        auto* button = make_button(words);
        button->setCheckable(true);
        button->setAccessibleName(tr("Show %1").arg(words));
        ranges_->addButton(button, static_cast<int>(range));
        row->addWidget(button);
        connect(button, &QPushButton::clicked, this, [this, shown = range] { view_->show_range(shown); });
    }
    row->addSpacing(kSpace3);
    as_table_->setCheckable(true);
    row->addWidget(as_table_);
    return header;
}

QWidget* CoursePage::make_content() {
    auto* content = new QWidget;
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(kSpace2);
    column->addWidget(make_header());
    auto* scroll = new QScrollArea;
    scroll->setWidget(view_);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    auto* split = new QSplitter;
    split->addWidget(scroll);
    split->addWidget(table_);
    split->setStretchFactor(0, 3);
    split->setStretchFactor(1, 3);
    column->addWidget(split, 1);
    column->addWidget(line_);

    table_->setModel(&numbers_);
    table_->setAccessibleName(tr("The same numbers as a table"));
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setTabKeyNavigation(false);
    table_->verticalHeader()->hide();
    table_->horizontalHeader()->setStretchLastSection(true);
    table_->setMinimumWidth(380);
    table_->setWordWrap(true);
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table_->hide();
    // Sentences wrap: rows follow the width of their column.
    connect(table_->horizontalHeader(), &QHeaderView::sectionResized, this, [this](int section) {
        if (section == NumbersTable::what_column) table_->resizeRowsToContents();
    });
    connect(as_table_, &QPushButton::toggled, this, [this](bool shown) {
        table_->setVisible(shown);
        if (shown) fill_table();
    });
    return content;
}

void CoursePage::refresh() {
    levels_.stop();
    const PatientRecord* record = workbench().record();
    if (!record) {
        empty_->set_texts(tr("No person is chosen"),
                          tr("Choose someone in the caseload; their course is shown here."));
        return stack_->setCurrentIndex(0);
    }
    const auto say = [this](const Message& message) {
        return QString::fromStdString(workbench().texts().text(message));
    };
    const CourseScene scene = make_scene(*record, workbench().course(), workbench().today(), say);
    empty_->set_texts(tr("No course yet"), tr("The taper, the doses taken, the modelled level, symptoms and "
                                              "contacts will stand here on one time "
                                              "axis. It begins with what is really taken now."));
    stack_->setCurrentIndex(scene.is_empty() ? 0 : 1);
    if (scene.is_empty()) return;
    view_->show_scene(scene);
    view_->show_level({}, true);
    levels_.start([request = level_request(*record, workbench().course(), workbench().desk().formulary(),
                                           workbench().now())](std::stop_token stop) {
        return compute_level_curve(request, stop);
    });
    if (as_table_->isChecked()) fill_table();
}

void CoursePage::show_level(LevelCurve curve) {
    view_->show_level(curve, false);
    if (as_table_->isChecked()) fill_table();
}

void CoursePage::fill_table() {
    std::vector<NumbersTable::Row> rows;
    for (const Lane* lane : view_->lanes())
        for (const LaneItem& item : lane->items()) rows.push_back({lane->title(), item});
    numbers_.set_rows(std::move(rows));
    table_->resizeColumnToContents(NumbersTable::lane_column);
    table_->resizeColumnToContents(NumbersTable::from_column);
    table_->resizeRowsToContents();
}

void CoursePage::explain_choice() {
    line_->explain(view_->chosen_item());
}

}  // namespace evenfall::ui
