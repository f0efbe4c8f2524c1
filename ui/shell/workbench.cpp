// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/workbench.h"

#include <QTimer>
#include <algorithm>

#include "texts/render.h"

namespace evenfall::ui {
namespace {

/// Core names days as ISO dates; a person reads "Fri 20 Nov".
Flag with_days_in_words(Flag flag, Day today) {
    for (auto& [name, value] : flag.args)
        if (const auto day = parse_day(value, "")) value = to_utf8(text_with_weekday(*day, today));
    return flag;
}

}  // namespace

Workbench::Workbench(Desk desk, Texts texts, std::function<LocalTime()> now, QObject* parent)
    : QObject(parent), desk_(std::move(desk)), texts_(std::move(texts)), now_(std::move(now)) {
}

const PatientRecord* Workbench::record() {
    if (patient_.empty()) return nullptr;
    auto record = desk_.record(patient_);
    if (!record) {
        if (show_faults) show_faults(record.faults());
        return nullptr;
    }
    return *record;
}

const Course& Workbench::course() {
    if (!course_ || course_day_ != today()) {
        course_.emplace();
        course_day_ = today();
        if (const PatientRecord* found = record())
            course_ = derive_course(*found, desk_.formulary(), desk_.rules(), now());
    }
    return *course_;
}

void Workbench::select(const PatientId& patient) {
    if (patient == patient_) return;
    patient_ = patient;
    course_.reset();
    emit patient_selected(patient_);
    // Told after the pages have been filled: their refresh clears what was said before.
    if (const auto noted = desk_.note_opened(patient, today()); !noted && show_faults)
        show_faults(noted.faults());
}

bool Workbench::carry_out(std::vector<Change> changes) {
    const PatientId patient = patient_;  // a question in between may choose another person
    return !patient.empty() && write(patient, std::move(changes));
}

bool Workbench::carry_out(std::vector<Change> changes, const std::vector<Override>& given) {
    const PatientId patient = patient_;
    return !patient.empty() && write(patient, std::move(changes), given);
}

std::vector<Objection> Workbench::objections(const std::vector<Change>& changes) {
    std::vector<Objection> objections;
    for (const Change& change : changes)
        for (Objection& objection : desk_.objections(patient_, change, now()))
            if (std::ranges::find(objections, objection) == objections.end())
                objections.push_back(std::move(objection));
    return objections;
}

bool Workbench::carry_out_for_clinic(std::vector<Change> changes) {
    return write({}, std::move(changes));
}

bool Workbench::write(const PatientId& patient, std::vector<Change> changes,
                      const std::vector<Override>& given) {
    std::vector<Objection> objections;
    for (const Change& change : changes)
        for (Objection& objection : desk_.objections(patient, change, now()))
            if (std::ranges::find(given, objection.flag.rule, &Override::rule) == given.end())
                objections.push_back(std::move(objection));
    std::vector<Override> overrides = given;
    if (!objections.empty() && ask_overrides) {
        auto asked = ask_overrides(objections);
        if (!asked) return false;
        overrides.insert(overrides.end(), asked->begin(), asked->end());
    }
    const auto done = desk_.carry_out(patient, std::move(changes), overrides, now());
    if (!done) {
        if (show_faults) show_faults(done.faults());
        return false;
    }
    course_.reset();
    emit saved();
    if (patient.empty())
        emit clinic_changed();
    else
        emit record_changed(patient);
    return true;
}

Result<Done> Workbench::take_up(const std::vector<PatientId>& patients) {
    auto read = desk_.take_up(patients);
    if (!read) return read;
    course_.reset();
    // The list is derived anew as a whole: there may be people whom it does not know.
    emit clinic_changed();
    const bool clinic_too = std::ranges::find(patients, PatientId()) != patients.end();
    if (!patient_.empty() && (clinic_too || std::ranges::find(patients, patient_) != patients.end()))
        emit record_changed(patient_);
    return read;
}

QString Workbench::worker_name(const UserId& user) const {
    if (user == desk_.worker().id) return QString::fromStdString(desk_.worker().name);
    return name_of_user ? name_of_user(user) : QString::fromStdString(user).left(8);
}

QString Workbench::sentence(const Flag& flag) const {
    return QString::fromStdString(
        desk_.rules().sentence(with_days_in_words(flag, today()), texts_.language()));
}

QString Workbench::caption(const Flag& flag) const {
    const std::string id = "short-" + flag.rule;
    if (!texts_.has(id)) return sentence(flag);
    return QString::fromStdString(texts_.text(id, with_days_in_words(flag, today()).args));
}

QString Workbench::source(const Flag& flag) const {
    return QString::fromStdString(desk_.rules().source(flag.rule));
}

QString Workbench::text(const Fault& fault) const {
    return QString::fromStdString(texts_.text(fault));
}

Page::Page(Workbench& workbench, QWidget* parent) : QWidget(parent), workbench_(workbench) {
    const auto changed = [this] {
        if (isVisible())
            refresh();
        else
            stale_ = true;
    };
    connect(&workbench_, &Workbench::patient_selected, this, changed);
    connect(&workbench_, &Workbench::record_changed, this, changed);
    connect(&workbench_, &Workbench::clinic_changed, this, changed);
}

void Page::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (!stale_) return;
    stale_ = false;
    refresh();
}

}  // namespace evenfall::ui
