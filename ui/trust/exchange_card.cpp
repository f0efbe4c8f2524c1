// SPDX-License-Identifier: GPL-3.0-or-later
#include "trust/exchange_card.h"

#include <QFileDialog>
#include <QHBoxLayout>
#include <QVBoxLayout>
#include <algorithm>
#include <chrono>
#include <map>

#include "casework/conflicts.h"
#include "casework/safekeeping.h"
#include "controls/buttons.h"
#include "controls/label.h"
#include "texts/render.h"
#include "theme/theme.h"
#include "trust/copy_in_parts.h"
#include "trust/list_line.h"
#include "trust/restore_card.h"

namespace evenfall::ui {
namespace {

QString files() {
    return QObject::tr("Exchange files (*.evenfall-exchange);;All files (*)");
}

}  // namespace

ExchangeCard::ExchangeCard(Workbench& workbench, Store& store, QWidget* parent)
    : Card(parent),
      workbench_(workbench),
      store_(store),
      copy_(new CopyInParts(store, this)),
      write_(make_button(tr("Write an exchange file…"))),
      says_(new Label({}, Type::strong)),
      open_(new QVBoxLayout) {
    body()->addWidget(new Label(words("trust-exchange"), Type::heading));
    body()->addWidget((new Label(words("trust-exchange-about"), Type::text, Tone::soft_ink))->wrapped());
    auto* row = new QHBoxLayout;
    auto* take = make_button(tr("Take an exchange file in…"));
    row->addWidget(write_);
    row->addWidget(take);
    row->addStretch();
    body()->addLayout(row);
    body()->addWidget(says_->wrapped());
    says_->hide();
    open_->setSpacing(kSpace2);
    body()->addLayout(open_);
    connect(write_, &QPushButton::clicked, this, &ExchangeCard::choose_target);
    connect(take, &QPushButton::clicked, this, &ExchangeCard::choose_source);
    connect(copy_, &CopyInParts::progressed, this, &ExchangeCard::show_progress);
    connect(copy_, &CopyInParts::failed, this, [this](const Faults& faults) {
        show_progress();
        emit failed(faults);
    });
    connect(copy_, &CopyInParts::finished, this, [this] {
        show_progress();
        says_->setText(words("trust-exchange-written", {{"file", to_.string()}}));
        says_->show();
        emit written();
    });
}

ExchangeCard::~ExchangeCard() = default;

QString ExchangeCard::words(const char* id, const Args& args) const {
    return to_text(workbench_.texts().text(id, args));
}

void ExchangeCard::choose_target() {
    if (copy_->is_running()) return;
    const Instant now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
    const QString file = QFileDialog::getSaveFileName(this, tr("Where the exchange file goes"),
                                                      to_text(exchange_name(store_, now)), files());
    if (!file.isEmpty()) write_to(to_utf8(file));
}

void ExchangeCard::choose_source() {
    const QString file = QFileDialog::getOpenFileName(this, tr("Which exchange file"), {}, files());
    if (!file.isEmpty()) take_in(to_utf8(file));
}

void ExchangeCard::write_to(const std::filesystem::path& to) {
    says_->hide();
    to_ = to;
    copy_->begin(to, {BackupRun::For::exchange, true});
}

void ExchangeCard::show_progress() {
    // It stays enabled and does nothing: disabled, it would hand the focus to the next button.
    write_->setText(copy_->is_running() ? tr("Writing… %1 %").arg(copy_->percent())
                                        : tr("Write an exchange file…"));
}

void ExchangeCard::take_in(const std::filesystem::path& from) {
    says_->hide();
    const auto report = store_.merge(from);
    if (!report) {
        emit failed(report.faults());
        return;
    }
    if (const auto read = workbench_.take_up(report->patients); !read) {
        emit failed(read.faults());
        return;
    }
    for (const PatientId& patient : report->patients)
        if (!patient.empty() && patient != kAccessLog)
            if (const auto line = workbench_.desk().line(patient, workbench_.now()); !line)
                emit failed(line.faults());
    says_->setText(
        report->gained == 0 && report->forks.empty()
            ? words("trust-exchange-nothing")
            : words("trust-exchange-taken", {{"rows", std::to_string(report->gained)},
                                             {"people", std::to_string(std::ranges::count_if(
                                                            report->patients, [](const PatientId& each) {
                                                                return !each.empty() && each != kAccessLog;
                                                            }))}}));
    says_->show();
    refresh();
    emit taken();
}

void ExchangeCard::refresh() {
    while (QLayoutItem* item = open_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    show_conflicts();
    show_forks();
}

/// A line with the way to the person that it is about; without a person there is no way.
void ExchangeCard::add_line(const QString& words, const PatientId& patient) {
    auto* line = new QWidget;
    auto* row = new QHBoxLayout(line);
    row->setContentsMargins(0, 0, 0, 0);
    row->addLayout(list_line(words), 1);
    if (!patient.empty() && patient != kAccessLog) {
        auto* open = make_button(tr("Open"));
        open->setAccessibleName(tr("Open: %1").arg(words));
        connect(open, &QPushButton::clicked, this, [this, patient] { emit person_wanted(patient); });
        row->addWidget(open, 0, Qt::AlignTop);
    }
    open_->addWidget(line);
}

void ExchangeCard::show_conflicts() {
    // What is known without reading every record; whom a file changed was looked at when it was taken in.
    const auto conflicts = conflicts_of(workbench_.desk().known_caseload(workbench_.now()).lines);
    if (!conflicts.empty()) open_->addWidget(new Label(words("trust-exchange-settle"), Type::strong));
    for (const Conflict& each : conflicts)
        add_line(tr("%1: %2").arg(to_text(each.reference), workbench_.sentence(each.flag)), each.patient);
}

/// Rows of which two stories are told, person by person: the other story's entries are kept, and never
/// counted.
void ExchangeCard::show_forks() {
    const auto forked = store_.forked();
    if (!forked || forked->empty()) return;
    std::map<PatientId, int> counts;
    for (const StoredEvent& each : *forked) ++counts[each.event.patient];
    auto* about = new Label(words("trust-exchange-forks"), Type::strong);
    open_->addWidget(about->wrapped());
    for (const auto& [patient, count] : counts)
        add_line(words("trust-exchange-fork", {{"who", to_utf8(name_in_lists(workbench_, patient))},
                                               {"count", std::to_string(count)}}),
                 patient);
}

}  // namespace evenfall::ui
