// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/caseload_model.h"

#include <QApplication>
#include <QEvent>
#include <algorithm>
#include <set>

#include "texts/render.h"

namespace evenfall::ui {
namespace {

/// So few people are all read at once.
constexpr std::size_t kAtOnce = 50;
/// Milliseconds: between two looks once nobody is missing, that a look may take, and between two showings.
constexpr int kPause = 60, kSlice = 12, kShowEvery = 400;
/// Milliseconds without a key or the mouse after which looking goes on.
constexpr int kLeftAlone = 1500;

/// Red flags stand first among what presses today.
int group_of(const CaseloadLine& line) {
    if (line.standing != CareStanding::in_care) return 3;
    if (line.reasons.empty()) return 2;
    const Urgency urgency = line.reasons.front().urgency;
    return urgency == Urgency::steady ? 2 : urgency == Urgency::this_week ? 1 : 0;
}

std::vector<std::string> values_of(const CaseloadLine& line, CaseloadModel::By by) {
    using By = CaseloadModel::By;
    if (by == By::agent) return {line.drug};
    if (by == By::clinician) return {line.clinician};
    if (by == By::nurse) return {line.nurse};
    std::vector<std::string> rules;
    for (const Reason& reason : line.reasons)
        if (reason.urgency != Urgency::steady) rules.push_back(reason.flag.rule);
    return rules;
}

}  // namespace

CaseloadModel::CaseloadModel(Workbench& workbench, QObject* parent)
    : QAbstractListModel(parent), workbench_(workbench) {
    connect(&look_, &QTimer::timeout, this, &CaseloadModel::look_on);
    qApp->installEventFilter(this);
    reload();
}

int CaseloadModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

QVariant CaseloadModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) return {};
    const Row& row = rows_[static_cast<std::size_t>(index.row())];
    const CaseloadLine* person = line(index);
    switch (role) {
        case kIsHeading:
            return person == nullptr;
        case kCount:
            return row.count;
        case kPatient:
            return person ? to_text(person->patient) : QString();
        case Qt::DisplayRole:
            return person ? to_text(person->name) : row.heading;
        case Qt::ToolTipRole:
            return person && !person->reasons.empty() ? workbench_.caption(person->reasons.front().flag)
                                                      : QString();
        case Qt::AccessibleTextRole:
            return person ? spoken(*person)
                          : (row.count == 1 ? tr("%1, 1 person").arg(row.heading)
                                            : tr("%1, %2 people").arg(row.heading).arg(row.count));
        default:
            return {};
    }
}

Qt::ItemFlags CaseloadModel::flags(const QModelIndex& index) const {
    return line(index) ? Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren
                       : Qt::ItemFlags();
}

const CaseloadLine* CaseloadModel::line(const QModelIndex& index) const {
    if (!index.isValid() || index.row() >= rowCount()) return nullptr;
    const Row& row = rows_[static_cast<std::size_t>(index.row())];
    return row.heading.isEmpty() ? &lines_[row.line] : nullptr;
}

QModelIndex CaseloadModel::find(const PatientId& patient) const {
    for (int at = 0; at < rowCount(); ++at)
        if (const CaseloadLine* person = line(index(at)); person && person->patient == patient)
            return index(at);
    return {};
}

void CaseloadModel::reload() {
    Desk& desk = workbench_.desk();
    Faults faults;
    auto known = desk.known_caseload(workbench_.now());
    const bool first = lines_.empty();
    if (desk.patients().size() <= kAtOnce && (known.missing > 0 || !first)) {
        known = {desk.caseload(workbench_.now(), faults), 0, 0};
        known.unreadable = desk.patients().size() - known.lines.size();
    }
    beginResetModel();
    take_lines(std::move(known.lines));
    missing_ = static_cast<int>(known.missing);
    unreadable_ = static_cast<int>(known.unreadable);
    arrange();
    endResetModel();
    shown_.start();
    look_.start(missing_ > 0 ? 0 : kPause);
    if (!faults.empty() && workbench_.show_faults) workbench_.show_faults(faults);
}

bool CaseloadModel::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::KeyPress || event->type() == QEvent::MouseButtonPress ||
        event->type() == QEvent::Wheel)
        touched_.start();
    return QAbstractListModel::eventFilter(watched, event);
}

/// Looks at a few people more. Whoever types, or is asked something, is not disturbed.
void CaseloadModel::look_on() {
    if (QApplication::activeModalWidget() || QApplication::activePopupWidget()) return;
    if (missing_ == 0 && touched_.isValid() && touched_.elapsed() < kLeftAlone) return;
    QElapsedTimer slice;
    slice.start();
    Faults faults;
    bool more = true;
    while (more && slice.elapsed() < kSlice) more = workbench_.desk().look_on(workbench_.now(), faults);
    if (!more) look_.stop();
    if (!more || shown_.elapsed() > kShowEvery) show_known();
    if (!faults.empty() && workbench_.show_faults) workbench_.show_faults(faults);
}

void CaseloadModel::take_lines(std::vector<CaseloadLine> lines) {
    lines_ = std::move(lines);
    sought_.clear();
    for (const CaseloadLine& line : lines_)
        sought_.push_back(to_text(line.name + ' ' + line.reference + ' ' + line.drug).toCaseFolded());
}

void CaseloadModel::show_known() {
    shown_.restart();
    auto known = workbench_.desk().known_caseload(workbench_.now());
    missing_ = static_cast<int>(known.missing);
    unreadable_ = static_cast<int>(known.unreadable);
    if (look_.isActive()) look_.setInterval(missing_ > 0 ? 0 : kPause);
    if (known.lines != lines_) {
        beginResetModel();
        take_lines(std::move(known.lines));
        arrange();
        endResetModel();
    }
    emit looked_on();
}

void CaseloadModel::reload(const PatientId& patient) {
    const auto fresh = workbench_.desk().line(patient, workbench_.now());
    if (!fresh) return;
    std::vector<CaseloadLine> lines = lines_;
    const auto known = std::ranges::find(lines, patient, &CaseloadLine::patient);
    if (known == lines.end())
        lines.push_back(**fresh);
    else
        *known = **fresh;
    sort_caseload(lines);
    beginResetModel();
    take_lines(std::move(lines));
    arrange();
    endResetModel();
    if (!look_.isActive()) look_.start(kPause);
}

void CaseloadModel::search(const QString& words) {
    beginResetModel();
    words_ = words.simplified().toCaseFolded().split(u' ', Qt::SkipEmptyParts);
    arrange();
    endResetModel();
}

void CaseloadModel::filter(By by, const std::string& value) {
    beginResetModel();
    by_ = value.empty() ? By::nothing : by;
    value_ = value;
    arrange();
    endResetModel();
}

std::vector<std::string> CaseloadModel::values(By by) const {
    std::set<std::string> values;
    for (const CaseloadLine& line : lines_) {
        if (line.standing != CareStanding::in_care) continue;
        const auto of_line = values_of(line, by);
        values.insert(of_line.begin(), of_line.end());
    }
    values.erase(std::string());
    return {values.begin(), values.end()};
}

std::vector<CaseloadLine> CaseloadModel::shown() const {
    std::vector<CaseloadLine> lines;
    for (const Row& row : rows_)
        if (row.heading.isEmpty()) lines.push_back(lines_[row.line]);
    return lines;
}

int CaseloadModel::people_shown() const {
    return static_cast<int>(
        std::ranges::count(rows_, true, [](const Row& row) { return row.heading.isEmpty(); }));
}

bool CaseloadModel::matches(std::size_t at) const {
    const CaseloadLine& line = lines_[at];
    if (line.standing != CareStanding::in_care && words_.isEmpty()) return false;
    if (by_ != By::nothing && words_.isEmpty()) {  // a name is looked for among everyone
        const auto of_line = values_of(line, by_);
        if (std::ranges::find(of_line, value_) == of_line.end()) return false;
    }
    return std::ranges::all_of(words_,
                               [&all = sought_[at]](const QString& each) { return all.contains(each); });
}

void CaseloadModel::arrange() {
    const QString names[] = {tr("Today"), tr("This week"), tr("Going steadily"), tr("No longer in care")};
    rows_.clear();
    for (int group = 0; group < 4; ++group) {
        const std::size_t heading = rows_.size();
        rows_.push_back({names[group], 0, 0});
        for (std::size_t at = 0; at < lines_.size(); ++at)
            if (group_of(lines_[at]) == group && matches(at)) rows_.push_back({{}, 0, at});
        rows_[heading].count = static_cast<int>(rows_.size() - heading - 1);
        if (rows_[heading].count == 0) rows_.pop_back();
    }
}

int CaseloadModel::hidden_dangers() const {
    int hidden = 0;
    for (std::size_t at = 0; at < lines_.size(); ++at) {
        const auto& reasons = lines_[at].reasons;
        if (!reasons.empty() && reasons.front().urgency == Urgency::red_flag && !matches(at)) ++hidden;
    }
    return hidden;
}

QString CaseloadModel::spoken(const CaseloadLine& line) const {
    const QString reason = line.reasons.empty() ? QString() : workbench_.caption(line.reasons.front().flag);
    const bool danger = !line.reasons.empty() && line.reasons.front().urgency == Urgency::red_flag;
    QString said = danger ? tr("Danger. %1. %2").arg(to_text(line.name), reason)
                          : tr("%1. %2").arg(to_text(line.name), reason);
    if (!line.drug.empty()) said += tr(" %1 a day of %2.").arg(text_of(line.daily), to_text(line.drug));
    return said;
}

}  // namespace evenfall::ui
