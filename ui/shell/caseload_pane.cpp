// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/caseload_pane.h"

#include <QAbstractItemView>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QRegularExpression>
#include <QScrollBar>
#include <QVBoxLayout>

#include "controls/buttons.h"
#include "controls/label.h"
#include "shell/caseload_delegate.h"
#include "shell/morning_list.h"
#include "texts/render.h"
#include "theme/icons.h"
#include "theme/theme.h"

namespace evenfall::ui {

namespace {
constexpr int kPaneWidth = 292;
constexpr int kByRole = Qt::UserRole;
constexpr int kValueRole = Qt::UserRole + 1;
}  // namespace

/// A rule in a few words, as a filter names it: its caption without what stands in braces.
QString CaseloadPane::reason_name(const Workbench& workbench, const std::string& rule) {
    const std::string id = "filter-" + rule;
    if (workbench.texts().has(id)) return to_text(workbench.texts().text(id));
    const std::string caption = "short-" + rule;
    if (workbench.texts().has(caption)) {
        QString text = to_text(workbench.texts().text(caption));
        static const QRegularExpression braces(QStringLiteral("\\{[^}]*\\}"));
        return text.replace(braces, QStringLiteral("…"));
    }
    return to_text(rule);
}

CaseloadList::CaseloadList(QWidget* parent) : QListView(parent) {
    setFrameShape(QFrame::NoFrame);
    setMouseTracking(true);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setAccessibleName(tr("Caseload"));
    viewport()->setAutoFillBackground(false);
    setAutoFillBackground(false);
}

void CaseloadList::keyPressEvent(QKeyEvent* event) {
    const QString typed = event->text();
    const bool plain = !(event->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
    if (plain && !typed.isEmpty() && typed[0].isLetterOrNumber()) {
        emit letter_typed(typed);
        return;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        if (currentIndex().isValid()) emit activated(currentIndex());
        return;
    }
    QListView::keyPressEvent(event);
}

QModelIndex CaseloadList::person_from(int row, int step) const {
    for (; row >= 0 && row < model()->rowCount(); row += step)
        if (const QModelIndex index = model()->index(row, 0); index.flags() & Qt::ItemIsSelectable)
            return index;
    return {};
}

/// A list view stays where it is when it would land on a row that cannot be chosen: Home on the first group's
/// heading would leave the highlight on somebody else.
QModelIndex CaseloadList::moveCursor(CursorAction action, Qt::KeyboardModifiers modifiers) {
    if (action == MoveHome) return person_from(0, 1);
    if (action == MoveEnd) return person_from(model()->rowCount() - 1, -1);
    const QModelIndex to = QListView::moveCursor(action, modifiers);
    if (!to.isValid() || to.flags() & Qt::ItemIsSelectable) return to;
    const bool up = action == MoveUp || action == MovePrevious;
    const QModelIndex person = person_from(to.row(), up ? -1 : 1);
    return person.isValid() ? person : currentIndex();
}

CaseloadPane::CaseloadPane(Workbench& workbench, QWidget* parent)
    : QWidget(parent),
      workbench_(workbench),
      model_(new CaseloadModel(workbench, this)),
      count_(new Label({}, Type::note, Tone::soft_ink)),
      nobody_(new Label({}, Type::text, Tone::soft_ink)),
      hidden_(make_button({})),
      looking_(new Label({}, Type::note, Tone::presses)),
      search_(new QLineEdit),
      filter_(new QComboBox),
      print_(make_button(tr("Print"))),
      list_(new CaseloadList) {
    setFixedWidth(kPaneWidth);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(kSpace2, kSpace4, kSpace2, kSpace2);
    column->setSpacing(kSpace2);
    column->addWidget(make_head());
    list_->setModel(model_);
    list_->setItemDelegate(new CaseloadDelegate(workbench_, list_));
    nobody_->wrapped()->setContentsMargins(kSpace3, kSpace3, kSpace3, 0);
    column->addWidget(nobody_);
    column->addWidget(list_, 1);
    column->addWidget(make_foot());
    connect(list_, &QListView::clicked, this, &CaseloadPane::open);
    connect(list_, &QListView::activated, this, &CaseloadPane::open);
    connect(list_, &CaseloadList::letter_typed, this, &CaseloadPane::start_search);
    connect(&workbench_, &Workbench::patient_selected, this, &CaseloadPane::show_selected);
    connect(&workbench_, &Workbench::record_changed, this, [this](const PatientId& patient) {
        model_->reload(patient);
        fill_filters();
        show_selected();
    });
    connect(&workbench_, &Workbench::clinic_changed, this, [this] {
        model_->reload();
        fill_filters();
        show_selected();
    });
    connect(model_, &CaseloadModel::looked_on, this, [this] {
        const int at = list_->verticalScrollBar()->value();
        fill_filters();
        show_selected();
        list_->verticalScrollBar()->setValue(at);
    });
    fill_filters();
    tell_count();
}

QWidget* CaseloadPane::make_head() {
    auto* head = new QWidget;
    auto* column = new QVBoxLayout(head);
    column->setContentsMargins(kSpace3, 0, kSpace3, 0);
    column->setSpacing(kSpace3);
    auto* row = new QHBoxLayout;
    row->addWidget(new Label(tr("Caseload"), Type::title));
    row->addStretch();
    row->addWidget(count_, 0, Qt::AlignBottom);
    column->addLayout(row);
    search_->setPlaceholderText(tr("Find a person"));
    search_->setAccessibleName(tr("Find a person by name, reference or agent"));
    search_->setClearButtonEnabled(false);
    search_->installEventFilter(this);
    connect(search_, &QLineEdit::textChanged, this, [this](const QString& words) {
        model_->search(words);
        show_selected();
    });
    column->addWidget(search_);
    filter_->setAccessibleName(tr("Show only a reason, an agent, a clinician or a nurse"));
    filter_->setToolTip(filter_->accessibleName());
    filter_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    connect(filter_, &QComboBox::activated, this, &CaseloadPane::apply_filter);
    auto* second = new QHBoxLayout;
    second->setSpacing(kSpace2);
    second->addWidget(filter_, 1);
    print_->setAccessibleName(tr("Print the morning list of those shown"));
    connect(print_, &QPushButton::clicked, this,
            [this] { show_morning_list(workbench_, model_->shown(), model_->unreadable(), window()); });
    second->addWidget(print_);
    column->addLayout(second);
    hidden_->setIcon(icon(QStringLiteral("flag"), Tone::danger));
    hidden_->hide();
    connect(hidden_, &QPushButton::clicked, this, [this] {
        search_->clear();
        filter_->setCurrentIndex(0);
        apply_filter();
    });
    column->addWidget(hidden_);
    column->addWidget(looking_->wrapped());
    return head;
}

QWidget* CaseloadPane::make_foot() {
    auto* foot = new QWidget;
    auto* column = new QVBoxLayout(foot);
    column->setContentsMargins(kSpace1, kSpace1, kSpace1, 0);
    column->setSpacing(kSpace1);
    auto* add = make_button(tr("New person"));
    add->setIcon(icon(QStringLiteral("plus")));
    connect(add, &QPushButton::clicked, this, &CaseloadPane::new_person_wanted);
    column->addWidget(add);
    auto* row = new QHBoxLayout;
    row->setSpacing(kSpace1);
    column->addLayout(row);
    const auto small = [this, row](const char* drawing, const QString& name, auto signal) {
        auto* button = make_icon_button(QLatin1String(drawing), name);
        connect(button, &QToolButton::clicked, this, signal);
        row->addWidget(button);
        return button;
    };
    small("book", tr("Reference of agents"), &CaseloadPane::reference_wanted);
    small("clinic", tr("The clinic and its rules"), &CaseloadPane::clinic_wanted);
    if (workbench_.desk().worker().role == Role::prescriber)
        small("person", tr("People who work here"), &CaseloadPane::users_wanted)
            ->setObjectName(QStringLiteral("users"));
    small("safe", tr("Safe keeping: back-ups, proofs, who opened whom"), &CaseloadPane::trust_wanted)
        ->setObjectName(QStringLiteral("trust"));
    small("theme", tr("Light, dark or high contrast"), &CaseloadPane::theme_wanted);
    small("keys", tr("Keys"), &CaseloadPane::keys_wanted);
    row->addStretch();
    return foot;
}

/// Everyone first; then what the people here have, by kind.
void CaseloadPane::fill_filters() {
    using By = CaseloadModel::By;
    const QVariant by = filter_->currentData(kByRole), value = filter_->currentData(kValueRole);
    filter_->clear();
    filter_->addItem(tr("Everyone"));
    const auto add = [this](By kind, const QString& name) {
        for (const std::string& each : model_->values(kind)) {
            const QString shown = kind == By::reason ? reason_name(workbench_, each) : to_text(each);
            filter_->addItem(name.arg(shown));
            filter_->setItemData(filter_->count() - 1, static_cast<int>(kind), kByRole);
            filter_->setItemData(filter_->count() - 1, to_text(each), kValueRole);
        }
    };
    add(By::reason, tr("Why: %1"));
    add(By::agent, tr("Agent: %1"));
    add(By::clinician, tr("Clinician: %1"));
    add(By::nurse, tr("Nurse: %1"));
    for (int at = 1; at < filter_->count(); ++at)
        if (filter_->itemData(at, kByRole) == by && filter_->itemData(at, kValueRole) == value)
            filter_->setCurrentIndex(at);
    if (filter_->currentIndex() == 0 && by.isValid()) apply_filter();  // nobody has it any more
    // The box is as narrow as the pane; what it opens is as wide as its words.
    QAbstractItemView* view = filter_->view();
    view->setMinimumWidth(view->sizeHintForColumn(0) + 2 * kSpace4);
    view->setTextElideMode(Qt::ElideNone);
}

void CaseloadPane::apply_filter() {
    model_->filter(static_cast<CaseloadModel::By>(filter_->currentData(kByRole).toInt()),
                   to_utf8(filter_->currentData(kValueRole).toString()));
    show_selected();
}

void CaseloadPane::forbid_trust(const QString& reason) {
    for (QToolButton* button : findChildren<QToolButton*>(QStringLiteral("trust")))
        set_reason_disabled(button, reason);
}

void CaseloadPane::add_notice(QWidget* notice) {
    QWidget* foot = layout()->itemAt(layout()->count() - 1)->widget();
    static_cast<QVBoxLayout*>(foot->layout())->insertWidget(0, notice);
}

void CaseloadPane::forbid_users(const QString& reason) {
    for (QToolButton* button : findChildren<QToolButton*>(QStringLiteral("users")))
        set_reason_disabled(button, reason);
}

void CaseloadPane::start_search(const QString& typed) {
    search_->setFocus();
    if (typed.isEmpty())
        search_->selectAll();
    else
        search_->setText(typed);
}

bool CaseloadPane::eventFilter(QObject* watched, QEvent* event) {
    if (watched != search_ || event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (key == Qt::Key_Escape) {
        search_->clear();
        list_->setFocus();
        return true;
    }
    if (key != Qt::Key_Down && key != Qt::Key_Return && key != Qt::Key_Enter) return false;
    for (int at = 0; at < model_->rowCount(); ++at) {
        if (!model_->line(model_->index(at))) continue;
        list_->setCurrentIndex(model_->index(at));
        list_->setFocus();
        if (key != Qt::Key_Down) open(model_->index(at));
        break;
    }
    return true;
}

void CaseloadPane::open(const QModelIndex& index) {
    const CaseloadLine* line = model_->line(index);
    if (!line) return;
    workbench_.select(PatientId(line->patient));
    search_->clear();  // what was looked for is found: the list is whole again
    emit opened();
}

void CaseloadPane::show_selected() {
    const QModelIndex chosen = model_->find(workbench_.patient());
    if (chosen.isValid())
        list_->setCurrentIndex(chosen);
    else
        list_->clearSelection();
    tell_count();
}

void CaseloadPane::tell_count() {
    const int missing = model_->missing();
    const int unreadable = model_->unreadable();
    looking_->setVisible(missing > 0 || unreadable > 0);
    set_reason_disabled(print_,
                        missing > 0 ? tr("A list that lacks people must not be printed.") : QString());
    if (missing == 0) print_->setToolTip(print_->accessibleName());
    QStringList lacks;
    if (missing > 0)
        lacks << tr("Reading the records: %1 of %2. Whoever is missing here may still press.")
                     .arg(model_->people())
                     .arg(model_->people() + missing);
    if (unreadable > 0)
        lacks << (unreadable == 1 ? tr("The record of 1 person cannot be read. They are not in this list.")
                                  : tr("The records of %1 people cannot be read. They are not in this list.")
                                        .arg(unreadable)) +
                     tr(" Safe keeping (Ctrl+B) tells why; a back-up may hold them.");
    looking_->setText(lacks.join(QLatin1Char('\n')));
    const int people = model_->people() + missing + unreadable;
    const bool narrowed = !search_->text().isEmpty() || filter_->currentIndex() > 0;
    const QString all = people == 1 ? tr("1 person") : tr("%1 people").arg(people);
    count_->setText(narrowed ? tr("%1 of %2").arg(QString::number(model_->people_shown()), all) : all);
    const int dangers = model_->hidden_dangers();
    hidden_->setVisible(dangers > 0);
    hidden_->setText(dangers == 1 ? tr("1 danger is not shown: show all")
                                  : tr("%1 dangers are not shown: show all").arg(dangers));
    hidden_->setAccessibleName(hidden_->text());
    nobody_->setVisible(model_->rowCount() == 0 && missing == 0 && unreadable == 0);
    nobody_->setText(people == 0 ? tr("Nobody yet. A new person begins with a name and a reference.")
                                 : tr("Nobody by that name, reference or agent."));
}

void CaseloadPane::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), tone(Tone::surface));
    painter.fillRect(QRectF(width() - structure_line(), 0, structure_line(), height()), tone(Tone::line));
}

}  // namespace evenfall::ui
