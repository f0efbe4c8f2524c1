// SPDX-License-Identifier: GPL-3.0-or-later
#include "trust/trust_window.h"

#include <QFileDialog>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/label.h"
#include "texts/render.h"
#include "theme/theme.h"
#include "trust/backup_keeper.h"
#include "trust/exchange_card.h"
#include "trust/list_line.h"
#include "trust/passphrase_dialog.h"
#include "trust/proof_run.h"
#include "trust/restore_card.h"

namespace evenfall::ui {
namespace {

/// The newest lines of the access log that are shown.
constexpr std::size_t kLinesShown = 40;

QString when(Instant at, const QString& never) {
    return at == Instant{} ? never : text_of_minute(at);
}

}  // namespace

TrustWindow::TrustWindow(Workbench& workbench, Store& store, BackupKeeper& keeper,
                         std::function<void(const std::filesystem::path&)> restore, QWidget* parent)
    : QWidget(parent, Qt::Window),
      workbench_(workbench),
      store_(store),
      keeper_(keeper),
      column_(new QVBoxLayout),
      restore_(new RestoreCard(workbench, store, keeper, std::move(restore))) {
    setWindowTitle(tr("Evenfall: safe keeping"));
    resize(880, 760);
    auto* inside = new QWidget;
    inside->setLayout(column_);
    column_->setContentsMargins(kSpace6, kSpace4, kSpace6, kSpace4);
    column_->setSpacing(kSpace3);
    column_->addWidget(new Label(words("trust-title"), Type::title));
    auto* lead = new Label(words("trust-lead"), Type::text, Tone::soft_ink);
    column_->addWidget(lead->wrapped());
    says_ = new Label({}, Type::text, Tone::danger);
    column_->addWidget(says_->wrapped());
    reminders_ = add_card("trust-reminders");
    reminders_->set_meaning(Tone::presses_fill, Tone::presses);
    remind_ = new Label;
    reminders_->body()->addWidget(remind_->wrapped());
    add_backups();
    add_exchange();
    add_proof();
    column_->addWidget(restore_);
    connect(restore_, &RestoreCard::failed, this, &TrustWindow::show_faults);
    add_passphrase();
    add_list("trust-protected", "trust-protected-");
    add_list("trust-not-protected", "trust-not-protected-");
    add_list("trust-you", "trust-you-");
    add_accesses();
    column_->addStretch();
    auto* scroll = new QScrollArea;
    scroll->setAccessibleName(words("trust-title"));
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->viewport()->setAutoFillBackground(false);
    inside->setAutoFillBackground(false);
    scroll->setWidget(inside);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(scroll);
    connect(&keeper_, &BackupKeeper::progressed, this, &TrustWindow::refresh);
    connect(&keeper_, &BackupKeeper::finished, this, &TrustWindow::refresh);
    connect(&keeper_, &BackupKeeper::failed, this, &TrustWindow::show_faults);
    connect(&keeper_, &BackupKeeper::looked, this, &TrustWindow::refresh);
    connect(&workbench_, &Workbench::clinic_changed, this, &TrustWindow::refresh);
    // Later: who was opened is noted after everything else was told of it.
    connect(&workbench_, &Workbench::patient_selected, this, &TrustWindow::fill_accesses,
            Qt::QueuedConnection);
    refresh();
    fill_accesses();
}

TrustWindow::~TrustWindow() = default;

QString TrustWindow::words(const char* id, const Args& args) const {
    return to_text(workbench_.texts().text(id, args));
}

Card* TrustWindow::add_card(const char* heading) {
    auto* card = new Card;
    card->body()->addWidget(new Label(words(heading), Type::heading));
    column_->addWidget(card);
    return card;
}

void TrustWindow::add_words(Card& card, const char* id) {
    auto* label = new Label(words(id), Type::text, Tone::soft_ink);
    card.body()->addWidget(label->wrapped());
}

void TrustWindow::add_list(const char* heading, const char* prefix) {
    Card* card = add_card(heading);
    for (int number = 1;; ++number) {
        const std::string id = prefix + std::to_string(number);
        if (!workbench_.texts().has(id)) return;
        card->body()->addLayout(list_line(words(id.c_str())));
    }
}

void TrustWindow::add_backups() {
    Card* card = add_card("trust-backups");
    schedule_ = new Label({}, Type::text, Tone::soft_ink);
    card->body()->addWidget(schedule_->wrapped());
    last_backup_ = new Label({}, Type::strong);
    folder_ = new Label;
    card->body()->addWidget(last_backup_->wrapped());
    card->body()->addWidget(folder_->wrapped());
    auto* row = new QHBoxLayout;
    back_up_ = make_button(tr("Back up now"), ButtonKind::primary);
    auto* choose = make_button(tr("Choose the folder…"));
    row->addWidget(back_up_);
    row->addWidget(choose);
    row->addStretch();
    card->body()->addLayout(row);
    connect(back_up_, &QPushButton::clicked, &keeper_, &BackupKeeper::back_up_now);
    connect(choose, &QPushButton::clicked, this, [this] {
        const QString folder = QFileDialog::getExistingDirectory(this, tr("Where back-ups go"));
        if (!folder.isEmpty()) choose_folder(to_utf8(folder));
    });
}

void TrustWindow::choose_folder(const std::filesystem::path& folder) {
    says_->clear();
    keeper_.choose_folder(folder);
}

void TrustWindow::add_proof() {
    Card* card = add_card("trust-proof");
    add_words(*card, "trust-proof-about");
    last_proof_ = new Label({}, Type::strong);
    proof_says_ = new Label;
    marks_ = new Label({}, Type::note, Tone::soft_ink);
    marks_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    card->body()->addWidget(last_proof_->wrapped());
    card->body()->addWidget(proof_says_->wrapped());
    auto* row = new QHBoxLayout;
    prove_ = make_button(tr("Prove now"));
    row->addWidget(prove_);
    row->addStretch();
    card->body()->addLayout(row);
    card->body()->addWidget(marks_->wrapped());
    connect(prove_, &QPushButton::clicked, this, &TrustWindow::prove_now);
}

void TrustWindow::prove_now() {
    Heads known;
    QStringList lines;
    if (const auto newest = newest_backup(store_, keeper_.kept().folder)) {
        auto heads = store_.heads_of_file(*newest);
        if (heads)
            known = std::move(*heads);
        else
            lines << workbench_.text(heads.faults().front());
    }
    const auto report = prove_with_progress(store_, known, this);
    if (!report) return show_faults(report.faults());
    if (report->complete) keeper_.note_proof(report->whole());
    if (report->whole()) lines << words("trust-proof-whole");
    lines << words("app-store-checked", {{"rows", std::to_string(report->rows)},
                                         {"damaged", std::to_string(report->damage.size())},
                                         {"voided", std::to_string(report->voided.size())},
                                         {"forks", std::to_string(report->forks)}});
    for (const Fault& fault : report->damage) lines << workbench_.text(fault);
    if (!report->complete) lines << words("trust-proof-stopped");
    lines << words(known.empty() ? "check-without-head" : "trust-proof-compared");
    proof_says_->setText(lines.join(u'\n'));
    proof_says_->set_tone(report->damage.empty() ? Tone::ink : Tone::danger);
    refresh();
}

void TrustWindow::add_exchange() {
    exchange_ = new ExchangeCard(workbench_, store_);
    column_->addWidget(exchange_);
    connect(exchange_, &ExchangeCard::failed, this, &TrustWindow::show_faults);
    connect(exchange_, &ExchangeCard::taken, this, [this] {
        says_->clear();
        fill_accesses();
        refresh();
    });
    connect(exchange_, &ExchangeCard::written, says_, &QLabel::clear);
    connect(exchange_, &ExchangeCard::person_wanted, this, &TrustWindow::show_person);
}

/// Chooses somebody in the main window and gives it the front.
void TrustWindow::show_person(const PatientId& patient) {
    workbench_.select(patient);
    if (!parentWidget()) return;
    parentWidget()->window()->raise();
    parentWidget()->window()->activateWindow();
}

void TrustWindow::offer_restore(const std::filesystem::path& backup) {
    says_->clear();
    restore_->offer(backup);
}

void TrustWindow::add_passphrase() {
    Card* card = add_card("trust-passphrase");
    add_words(*card, "trust-passphrase-about");
    auto* row = new QHBoxLayout;
    auto* change = make_button(tr("Change my passphrase…"));
    row->addWidget(change);
    row->addStretch();
    card->body()->addLayout(row);
    connect(change, &QPushButton::clicked, this, &TrustWindow::change_passphrase);
}

void TrustWindow::change_passphrase() {
    PassphraseDialog dialog(workbench_.texts(), store_.passphrase_change(), this);
    dialog.exec();
}

void TrustWindow::add_accesses() {
    Card* card = add_card("trust-accesses");
    add_words(*card, "trust-accesses-about");
    accesses_ = new Label({}, Type::note);
    accesses_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    card->body()->addWidget(accesses_->wrapped());
}

void TrustWindow::fill_accesses() {
    const auto lines = store_.accesses();
    if (!lines) return show_faults(lines.faults());
    QStringList shown;
    for (auto each = lines->rbegin(); each != lines->rend() && shown.size() < static_cast<int>(kLinesShown);
         ++each)
        shown << words("trust-access-line",
                       {{"at", to_utf8(text_of_minute(each->stamp.at))},
                        {"name", to_utf8(workbench_.worker_name(each->stamp.author))},
                        {"reference", to_utf8(name_in_lists(workbench_, each->patient))}});
    if (shown.isEmpty()) shown << words("trust-accesses-none");
    accesses_->setText(shown.join(u'\n'));
}

void TrustWindow::show_marks() {
    const auto heads = store_.heads();
    if (!heads) return;  // the proof says what is wrong
    QStringList lines;
    for (const auto& [log, head] : *heads)
        lines << words("app-store-mark", {{"mark", print_mark(log, head)}});
    marks_->setText(lines.join(u'\n'));
}

void TrustWindow::show_reminders() {
    QStringList lines;
    for (const Flag& flag : keeper_.reminders()) lines << workbench_.sentence(flag);
    if (const auto notice = store_.clock_notice()) lines << words(notice->id.c_str(), notice->args);
    remind_->setText(lines.join(u'\n'));
    reminders_->setVisible(!lines.isEmpty());
}

void TrustWindow::show_faults(const Faults& faults) {
    QStringList lines;
    for (const Fault& fault : faults) lines << workbench_.text(fault);
    says_->setText(lines.join(u'\n'));
    refresh();
}

void TrustWindow::refresh() {
    const Safekeeping kept = keeper_.kept();
    const bool running = keeper_.is_running();
    // It stays enabled and does nothing: disabled, it would hand the focus to the next button.
    back_up_->setText(running ? tr("Backing up… %1 %").arg(keeper_.percent()) : tr("Back up now"));
    schedule_->setText(workbench_.sentence({"backup-rotation", {}, {}}));
    last_backup_->setText(tr("Last back-up: %1").arg(when(kept.last_backup, tr("none yet"))));
    folder_->setText(kept.folder.empty() ? tr("No folder has been chosen.")
                                         : tr("Folder: %1").arg(to_text(kept.folder)));
    last_proof_->setText(tr("Last proved: %1").arg(when(kept.last_proof, tr("never"))));
    show_reminders();
    show_marks();
}

void TrustWindow::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    fill_accesses();
    exchange_->refresh();
}

void TrustWindow::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) close();
    QWidget::keyPressEvent(event);
}

void TrustWindow::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), tone(Tone::surface));
}

}  // namespace evenfall::ui
