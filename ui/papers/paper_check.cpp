// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/paper_check.h"

#include <QLineEdit>
#include <QVBoxLayout>
#include <set>

#include "controls/form.h"
#include "controls/label.h"

namespace evenfall::ui {
namespace {

constexpr std::size_t kMostListed = 3;

QString in_short(const papers::PaperStanding& standing, const papers::Wording& say) {
    const auto dated = [&](const QString& words) {
        return standing.since
                   ? words + QLatin1Char(' ') + QString::fromStdString(say.short_date(*standing.since))
                   : words;
    };
    switch (standing.state) {
        case papers::PaperState::current:
            return QObject::tr("current");
        case papers::PaperState::replaced:
            return dated(QObject::tr("replaced"));
        case papers::PaperState::ended:
            return dated(QObject::tr("plan ended"));
        case papers::PaperState::unknown:
            break;
    }
    return QObject::tr("replaced");
}

}  // namespace

PaperCheck::PaperCheck(Workbench& workbench, QWidget* parent)
    : QWidget(parent),
      workbench_(workbench),
      search_(workbench),
      field_(make_line(tr("Check a paper in hand"), tr("its code, or scan its mark"))),
      answer_(new Label({}, Type::note)),
      list_title_(new Label(tr("Schedules that went out"), Type::strong)),
      list_(new QVBoxLayout) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(kSpace2);
    add_field(*column, tr("Check a paper in hand"), field_);
    answer_->wrapped();
    answer_->hide();
    column->addWidget(answer_);
    list_->setSpacing(kSpace1);
    column->addWidget(list_title_);
    column->addLayout(list_);
    connect(&search_, &CodeSearch::changed, this, [this] { look_up(false); });
    connect(field_, &QLineEdit::textChanged, this, [this] { look_up(false); });
    connect(field_, &QLineEdit::returnPressed, this, [this] {
        look_up(true);
        field_->selectAll();  // the next scan writes over this one
    });
}

void PaperCheck::refresh() {
    while (QLayoutItem* item = list_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    const PatientRecord* record = workbench_.record();
    const auto issued =
        record ? papers::issued_papers(*record, Zone::of_machine()) : std::vector<papers::IssuedPaper>{};
    const papers::Wording say(workbench_.texts(), {});
    std::set<std::string> listed;  // a version that went out twice is one line
    for (const papers::IssuedPaper& paper : issued) {
        if (listed.size() == kMostListed) break;
        if (!listed.insert(paper.issued.code).second) continue;
        auto* line = new Label(
            QString::fromStdString(paper.issued.code + " · " + say.short_date(paper.issued.on) + " · ") +
                in_short(paper.standing, say),
            Type::note);
        list_->addWidget(line->wrapped());
    }
    list_title_->setVisible(!issued.empty());
    look_up(false);
}

QString PaperCheck::answer() const {
    return answer_->text();
}

QStringList PaperCheck::went_out() const {
    QStringList lines;
    for (int i = 0; i < list_->count(); ++i)
        if (const auto* label = qobject_cast<Label*>(list_->itemAt(i)->widget())) lines << label->text();
    return lines;
}

void PaperCheck::look_up(bool finished) {
    if (const auto paper = papers::read_mark(field_->text().toStdString())) {
        show_answer(told(*paper));
        return;
    }
    search_.leave_off();
    const bool empty = field_->text().trimmed().isEmpty();
    show_answer(finished && !empty ? QString::fromStdString(workbench_.texts().text("standing-not-a-code"))
                                   : QString());
}

void PaperCheck::show_answer(const QString& words) {
    answer_->setText(words);
    answer_->setVisible(!words.isEmpty());
    answer_->setAccessibleName(words);
    if (!words.isEmpty()) emit answered(answer_);
}

QString PaperCheck::told(const papers::MarkText& paper) {
    const PatientRecord* record = workbench_.record();
    if (!record) return {};
    const papers::Wording say(workbench_.texts(), {});
    const auto standing = papers::standing_of(*record, paper, Zone::of_machine());
    if (standing.state == papers::PaperState::unknown) return told_of_others(paper);
    search_.leave_off();
    std::string words = papers::standing_in_words(standing, say);
    if (standing.went_out)
        words += " " + say("standing-went-out", {{"date", say.short_date(*standing.went_out)}});
    return QString::fromStdString(words);
}

/// The code of another person of the caseload is told as such: a paper in the wrong hands is a danger.
QString PaperCheck::told_of_others(const papers::MarkText& paper) {
    const Texts& texts = workbench_.texts();
    search_.look_for(paper);
    if (search_.busy())
        return QString::fromStdString(
            texts.text("standing-looking", {{"count", std::to_string(search_.people())}}));
    if (search_.reference())
        return QString::fromStdString(
            texts.text("standing-other-person", {{"reference", *search_.reference()}}));
    std::string words = texts.text("standing-unknown");
    if (search_.unreadable() > 0)
        words += " " + texts.text("standing-unread", {{"count", std::to_string(search_.unreadable())}});
    return QString::fromStdString(words);
}

}  // namespace evenfall::ui
