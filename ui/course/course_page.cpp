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
#include <QTimer>

#include "casework/drawn_course.h"
#include "controls/buttons.h"
#include "controls/card.h"
#include "course/course_view.h"
#include "course/explain_line.h"
#include "course/level_curve.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {
// Milliseconds: longer than the first shows progress, which then moves on with the second.
constexpr int kPatience = 500, kGlance = 100;
}  // namespace

CoursePage::CoursePage(Workbench& workbench, QWidget* parent)
    : Page(workbench, parent),
      stack_(new QStackedWidget),
      empty_(new EmptyState(tr("No course yet"), {})),
      view_(new CourseView),
      line_(new ExplainLine(workbench)),
      table_(new QTableView),
      as_table_(make_button(tr("Show as table"))),
      level_button_(make_button({}, ButtonKind::quiet)),
      ranges_(new QButtonGroup(this)),
      patience_(new QTimer(this)),
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
    connect(patience_, &QTimer::timeout, this, &CoursePage::follow_level);
    connect(level_button_, &QPushButton::clicked, this,
            [this] { computing() ? stop_level() : start_level(); });
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
    level_button_->hide();
    row->addWidget(level_button_);
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
    patience_->stop();
    level_button_->hide();
    const PatientRecord* record = workbench().record();
    if (!record) {
        empty_->set_texts(tr("No person is chosen"),
                          tr("Choose someone in the caseload; their course is shown here."));
        return stack_->setCurrentIndex(0);
    }
    const auto say = [this](const Message& message) {
        return QString::fromStdString(workbench().texts().text(message));
    };
    const Course& course = workbench().course();
    const bool trade = agents_trade_places(course);
    const Course drawn =
        trade ? drawn_as_diazepam(course, *record, workbench().desk().formulary(), workbench().desk().rules())
              : course;
    CourseScene scene = make_scene(*record, drawn, workbench().today(), say);
    scene.as_diazepam = trade;
    empty_->set_texts(tr("No course yet"), tr("The taper, the doses taken, the modelled level, symptoms and "
                                              "contacts will stand here on one time "
                                              "axis. It begins with what is really taken now."));
    stack_->setCurrentIndex(scene.is_empty() ? 0 : 1);
    if (scene.is_empty()) return;
    view_->show_scene(scene);
    start_level();
    if (as_table_->isChecked()) fill_table();
}

void CoursePage::start_level() {
    const PatientRecord* record = workbench().record();
    if (!record) return;
    view_->show_level({}, true);
    level_button_->hide();
    level_done_ = std::make_shared<std::atomic<int>>(0);
    const Desk& desk = workbench().desk();
    levels_.start([request = level_request(*record, workbench().course(), desk.formulary(), desk.rules(),
                                           workbench().now()),
                   done = level_done_](std::stop_token stop) {
        return compute_level_curve(request, stop,
                                   [done](double share) { *done = static_cast<int>(100 * share); });
    });
    patience_->start(kPatience);
}

void CoursePage::follow_level() {
    if (!computing()) return patience_->stop();
    patience_->setInterval(kGlance);
    level_button_->setText(tr("Stop modelling the level"));
    level_button_->show();
    view_->show_level_progress(*level_done_);
}

void CoursePage::stop_level() {
    levels_.stop();
    patience_->stop();
    LevelCurve none;
    none.fault = tr("Stopped before it was computed.");
    view_->show_level(none, false);
    level_button_->setText(tr("Model the level"));
}

void CoursePage::show_level(LevelCurve curve) {
    patience_->stop();
    level_button_->hide();
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
