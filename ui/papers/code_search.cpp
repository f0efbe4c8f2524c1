// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/code_search.h"

#include <QApplication>
#include <QElapsedTimer>

#include "papers/standing.h"
#include "papers/wording.h"

namespace evenfall::ui {
namespace {

constexpr int kSlice = 12;   // milliseconds that a turn may take
constexpr int kAtOnce = 0;   // milliseconds between two turns
constexpr int kLater = 250;  // the same while the store is locked or a question is open
constexpr std::string_view kLocked = "store-locked";

}  // namespace

CodeSearch::CodeSearch(Workbench& workbench, QObject* parent) : QObject(parent), workbench_(workbench) {
    connect(&turns_, &QTimer::timeout, this, &CodeSearch::take_turn);
    connect(&workbench_, &Workbench::record_changed, this, &CodeSearch::look_again_at);
    // Others may have come in with an exchange file.
    connect(&workbench_, &Workbench::clinic_changed, this, [this] {
        if (!paper_) return;
        forget();
        emit changed();
    });
}

void CodeSearch::look_for(const papers::MarkText& paper) {
    if (paper_ == paper) return;
    forget();
    paper_ = paper;
    const auto& patients = workbench_.desk().patients();
    left_.assign(patients.begin(), patients.end());
    people_ = patients.size();
    turns_.start(kAtOnce);
    go_on();  // a few people are looked through at once
}

void CodeSearch::leave_off() {
    if (busy()) forget();
}

void CodeSearch::forget() {
    turns_.stop();
    paper_.reset();
    left_.clear();
    found_.reset();
    reference_.reset();
    unreadable_ = 0;
}

void CodeSearch::take_turn() {
    if (QApplication::activeModalWidget() || QApplication::activePopupWidget()) {
        turns_.setInterval(kLater);
        return;
    }
    go_on();
    if (!busy()) emit changed();
}

void CodeSearch::go_on() {
    QElapsedTimer turn;
    turn.start();
    while (look_at_next() && turn.elapsed() < kSlice) {
    }
}

bool CodeSearch::look_at_next() {
    if (left_.empty() || reference_) {
        turns_.stop();
        return false;
    }
    Desk& desk = workbench_.desk();
    // The desk keeps a few records at hand, and lets the one go that was asked for longest ago: never the one
    // that is shown.
    [[maybe_unused]] const auto shown = desk.record(workbench_.patient());
    const PatientId patient = left_.front();
    const auto record = desk.record(patient);
    if (!record && record.faults().front().id == kLocked) {
        turns_.setInterval(kLater);  // goes on once the window is unlocked
        return false;
    }
    turns_.setInterval(kAtOnce);
    left_.pop_front();
    if (!record) {
        ++unreadable_;
        return true;
    }
    const auto standing = papers::standing_of(**record, *paper_, Zone::of_machine());
    if (standing.state == papers::PaperState::unknown) return true;
    found_ = patient;
    reference_ = (*record)->person ? papers::printable((*record)->person->value.reference) : std::string();
    return true;
}

void CodeSearch::look_again_at(const PatientId& patient) {
    if (!paper_) return;
    if (found_ == patient) {
        forget();
        emit changed();
        return;
    }
    if (found_) return;
    left_.push_back(patient);
    turns_.start(kAtOnce);
}

}  // namespace evenfall::ui
