// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/main_window.h"

#include <QApplication>
#include <QCoreApplication>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QShortcut>
#include <QTimer>
#include <QVBoxLayout>
#include <functional>

#include "clinic/clinic_window.h"
#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/messages.h"
#include "reference/reference_window.h"
#include "shell/caseload_pane.h"
#include "shell/keys_overview.h"
#include "shell/new_person.h"
#include "shell/next_column.h"
#include "shell/patient_band.h"
#include "shell/users_dialog.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {

MainWindow::MainWindow(Workbench& workbench, std::vector<PageMaker> pages, WindowServices services,
                       QWidget* parent)
    : QWidget(parent),
      workbench_(workbench),
      makers_(std::move(pages)),
      made_(makers_.size(), nullptr),
      services_(std::move(services)),
      caseload_(new CaseloadPane(workbench)),
      band_(new PatientBand(workbench)),
      tabs_(new QTabBar),
      stack_(new QStackedWidget),
      next_(new NextColumn(workbench, this)),
      unfold_(make_button({}, ButtonKind::quiet)),
      saved_(new SavedNote),
      faults_(new FaultPanel),
      nobody_(new EmptyState(tr("Nobody is chosen"),
                             tr("Choose a person in the caseload, or press / and type a name."))) {
    setWindowTitle(QStringLiteral("Evenfall"));
    resize(1440, 900);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(caseload_);
    row->addWidget(make_right_side(), 1);
    if (services_.prove) {
        cover_ = new LockCover(workbench_.texts(), to_text(workbench_.desk().worker().name),
                               services_.lock.unlock ? services_.lock : Lock::of(services_.prove), this);
        connect(new IdleWatch(services_.cover_after, this), &IdleWatch::idle, this, &MainWindow::cover);
    }
    if (!services_.prove)
        band_->forbid_lock(tr("Nothing is sealed here: there is no passphrase to uncover it with."));
    if (!services_.users || !services_.grant)
        caseload_->forbid_users(tr("Nothing is sealed here: nobody needs to be let in."));
    if (!services_.make_trust)
        caseload_->forbid_trust(tr("Nothing is sealed here: there is nothing to keep safe."));
    workbench_.prove = services_.prove;
    connect_workbench();
    add_keys();
    refresh();
    caseload_->list()->setFocus();
    looked_at_ = workbench_.now();
    auto* minute = new QTimer(this);
    connect(minute, &QTimer::timeout, this, &MainWindow::look_at_the_clock);
    minute->start(std::chrono::minutes(1));
    if (cover_)
        connect(cover_, &LockCover::uncovered, this, [this] {
            look_at_list();  // it waited while the keys were away
            look_at_the_clock();
        });
}

MainWindow::~MainWindow() {
    workbench_.ask_overrides = {};
    workbench_.prove = {};
    workbench_.show_faults = {};
}

QWidget* MainWindow::make_right_side() {
    auto* side = new QWidget;
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(band_);
    auto* middle = new QVBoxLayout;
    middle->setContentsMargins(kSpace4, kSpace1, kSpace3, kSpace3);
    middle->setSpacing(kSpace2);
    middle->addWidget(make_tab_row());
    middle->addWidget(faults_);
    middle->addWidget(stack_, 1);
    auto* columns = new QHBoxLayout;
    columns->setSpacing(0);
    columns->addLayout(middle, 1);
    columns->addWidget(next_);
    column->addLayout(columns, 1);
    stack_->addWidget(nobody_);
    auto* add = make_button(tr("New person"), ButtonKind::primary);
    connect(add, &QPushButton::clicked, this, &MainWindow::add_person);
    nobody_->add_action(add);
    return side;
}

QWidget* MainWindow::make_tab_row() {
    auto* holder = new QWidget;
    auto* row = new QHBoxLayout(holder);
    row->setContentsMargins(0, 0, 0, 0);
    tabs_->setAccessibleName(tr("Pages"));
    tabs_->setExpanding(false);
    tabs_->setDrawBase(false);
    for (std::size_t at = 0; at < makers_.size(); ++at) {
        tabs_->addTab(makers_[at].title);
        tabs_->setTabToolTip(static_cast<int>(at), tr("%1 (Ctrl+%2)").arg(makers_[at].title).arg(at + 1));
    }
    row->addWidget(tabs_);
    row->addStretch();
    row->addWidget(saved_);
    row->addWidget(unfold_);
    connect(unfold_, &QPushButton::clicked, this, [this] { fold_next(false); });
    connect(next_, &NextColumn::fold_wanted, this, [this] { fold_next(true); });
    connect(tabs_, &QTabBar::currentChanged, this, &MainWindow::open_tab);
    return holder;
}

void MainWindow::connect_workbench() {
    connect(&workbench_, &Workbench::patient_selected, this, &MainWindow::refresh);
    connect(&workbench_, &Workbench::record_changed, this, &MainWindow::refresh);
    connect(&workbench_, &Workbench::clinic_changed, this, &MainWindow::refresh);
    connect(&workbench_, &Workbench::page_wanted, this, &MainWindow::show_page);
    connect(&workbench_, &Workbench::saved, this, [this] {
        faults_->clear();
        saved_->say_saved(text_of(clock_of(workbench_.now())));
    });
    connect(band_, &PatientBand::lock_wanted, this, &MainWindow::cover);
    connect(caseload_, &CaseloadPane::new_person_wanted, this, &MainWindow::add_person);
    connect(caseload_, &CaseloadPane::reference_wanted, this, &MainWindow::show_reference);
    connect(caseload_, &CaseloadPane::clinic_wanted, this, &MainWindow::show_clinic);
    connect(caseload_, &CaseloadPane::theme_wanted, this, &MainWindow::next_theme);
    connect(caseload_, &CaseloadPane::keys_wanted, this, &MainWindow::show_keys);
    connect(caseload_, &CaseloadPane::users_wanted, this, &MainWindow::show_users);
    connect(caseload_, &CaseloadPane::trust_wanted, this, &MainWindow::show_trust);
    workbench_.ask_overrides = [this](const std::vector<Objection>& objections) {
        return OverrideDialog::ask(workbench_, objections, this);
    };
    workbench_.show_faults = [this](const Faults& faults) { show_faults(faults); };
    if (services_.users)
        workbench_.name_of_user = [users = services_.users](const UserId& id) {
            for (const User& user : users())
                if (user.grant.id == id)
                    return user.grant.recovery ? tr("the recovery key") : to_text(user.grant.name);
            return to_text(id).left(8);
        };
}

void MainWindow::add_keys() {
    const auto key = [this](const QKeySequence& keys, auto act) {
        auto* shortcut = new QShortcut(keys, this);
        connect(shortcut, &QShortcut::activated, this, [this, act] {
            if (cover_ && cover_->is_covering()) return;  // nothing answers beneath the cover
            std::invoke(act, this);
        });
    };
    for (std::size_t at = 0; at < makers_.size(); ++at)
        key(QKeySequence(Qt::CTRL | static_cast<Qt::Key>(Qt::Key_1 + static_cast<int>(at))),
            [at](MainWindow* window) {
                window->tabs_->setCurrentIndex(static_cast<int>(at));
                // A page that begins somewhere takes the keys, also where it was in front already.
                if (window->page() && window->page()->focusProxy()) window->page()->setFocus();
            });
    key(QKeySequence(Qt::CTRL | Qt::Key_F), [](MainWindow* window) { window->caseload_->start_search(); });
    // A shortcut, since a list would take the key for its own search; a line of text keeps it.
    key(QKeySequence(Qt::Key_Slash), [](MainWindow* window) { window->caseload_->start_search(); });
    key(QKeySequence(Qt::CTRL | Qt::Key_N), &MainWindow::add_person);
    key(QKeySequence(Qt::CTRL | Qt::Key_L), &MainWindow::cover);
    key(QKeySequence(Qt::CTRL | Qt::Key_R), &MainWindow::show_reference);
    key(QKeySequence(Qt::CTRL | Qt::Key_K), &MainWindow::show_clinic);
    key(QKeySequence(Qt::CTRL | Qt::Key_B), &MainWindow::show_trust);
    key(QKeySequence(Qt::CTRL | Qt::Key_T), &MainWindow::next_theme);
    key(QKeySequence(Qt::Key_F1), &MainWindow::show_keys);
}

void MainWindow::refresh() {
    const bool someone = workbench_.record() != nullptr;
    faults_->clear();
    tabs_->setVisible(someone);
    if (caseload_->model().people() == 0)
        nobody_->set_texts(tr("Nobody is here yet"),
                           tr("A new person begins with a name and a reference. Then you record what "
                              "is really taken, and why."));
    else
        nobody_->set_texts(tr("Nobody is chosen"),
                           tr("Choose a person in the caseload, or press / and type a name."));
    band_->refresh();
    next_->refresh();
    if (someone)
        open_tab(std::max(0, tabs_->currentIndex()));
    else
        stack_->setCurrentWidget(nobody_);
    fit_next();
}

/// A page that compares things side by side needs the room of what is next in a narrow window; how many
/// things there are to do stays in sight, and a press brings them back.
void MainWindow::fit_next() {
    constexpr int kRoomForAll = 1500;
    const auto at = static_cast<std::size_t>(std::max(0, tabs_->currentIndex()));
    const bool someone = workbench_.record() != nullptr;
    const bool fold =
        someone && width() < kRoomForAll && at < makers_.size() && makers_[at].wide && !next_->has_danger();
    const int acts = next_->acts();
    unfold_->setText(acts == 0 ? tr("Next") : tr("Next: %1 to do").arg(acts));
    next_->set_foldable(fold);
    // One goes before the other comes: both beside each other would widen the window.
    QWidget* comes = fold && folded_ ? static_cast<QWidget*>(unfold_) : next_;
    QWidget* goes = comes == next_ ? static_cast<QWidget*>(unfold_) : next_;
    goes->hide();
    QCoreApplication::sendPostedEvents(nullptr, QEvent::LayoutRequest);  // its room is given back first
    comes->setVisible(someone);
}

void MainWindow::fold_next(bool away) {
    folded_ = away;
    fit_next();
}

void MainWindow::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fit_next();
}

void MainWindow::look_at_list() {
    caseload_->model().reload();
    caseload_->list()->setCurrentIndex(caseload_->model().find(workbench_.patient()));
}

/// What presses changes with the hour though nobody writes anything: the list is derived again, and on a new
/// day all that is shown.
void MainWindow::look_at_the_clock() {
    constexpr std::chrono::minutes often(15);
    if (cover_ && cover_->is_covering()) return;  // nothing can be read now
    const LocalTime now = workbench_.now();
    const bool new_day = day_of(now) != day_of(looked_at_);
    if (!new_day && now >= looked_at_ && now < looked_at_ + often) return;
    looked_at_ = now;
    look_at_list();
    if (!new_day || !workbench_.record()) return;
    refresh();
    if (Page* shown = page()) shown->refresh();
}

void MainWindow::open_tab(int at) {
    if (at < 0 || static_cast<std::size_t>(at) >= makers_.size() || workbench_.patient().empty()) return;
    Page*& page = made_[static_cast<std::size_t>(at)];
    if (!page) {
        page = makers_[static_cast<std::size_t>(at)].make(workbench_, stack_);
        stack_->addWidget(page);
    }
    if (makers_[static_cast<std::size_t>(at)].wide) fit_next();  // room is made before it is taken
    stack_->setCurrentWidget(page);
    fit_next();
}

Page* MainWindow::page() const {
    return qobject_cast<Page*>(stack_->currentWidget());
}

void MainWindow::show_page(const QString& wanted) {
    const QString id = wanted.section(u'/', 0, 0);
    for (std::size_t at = 0; at < makers_.size(); ++at) {
        if (makers_[at].id != id) continue;
        tabs_->setCurrentIndex(static_cast<int>(at));
        open_tab(static_cast<int>(at));
        if (page() && wanted.contains(u'/')) page()->show_part(wanted.section(u'/', 1));
    }
}

void MainWindow::show_faults(const Faults& faults) {
    std::vector<std::pair<QString, QString>> lines;
    for (const Fault& fault : faults) lines.emplace_back(to_text(fault.place), workbench_.text(fault));
    faults_->show_faults(lines);
}

void MainWindow::cover() {
    if (!cover_ || cover_->is_covering()) return;
    caseload_->model().rest();
    cover_->cover();
}

void MainWindow::add_person() {
    NewPersonDialog dialog(workbench_, this);
    if (dialog.exec() == QDialog::Accepted) show_page(QStringLiteral("record/regimen"));
}

namespace {

void bring_to_front(QWidget& window) {
    window.show();
    window.raise();
    window.activateWindow();
}

}  // namespace

void MainWindow::show_reference() {
    if (!reference_) reference_ = new ReferenceWindow(workbench_, this);
    bring_to_front(*reference_);
}

void MainWindow::show_clinic() {
    if (!clinic_) clinic_ = new ClinicWindow(workbench_, this);
    bring_to_front(*clinic_);
}

void MainWindow::show_users() {
    if (!services_.users || !services_.grant) return;
    UsersDialog dialog(workbench_, services_, this);
    dialog.exec();
}

void MainWindow::show_trust() {
    if (!services_.make_trust) return;
    if (!trust_) trust_ = services_.make_trust(workbench_, this);
    bring_to_front(*trust_);
}

void MainWindow::show_keys() {
    KeysOverview dialog(makers_, this);
    dialog.exec();
}

void MainWindow::next_theme() {
    const auto next = static_cast<ThemeKind>((static_cast<int>(theme_in_force()) + 1) % 3);
    apply_theme(*qApp, next);
}

}  // namespace evenfall::ui
