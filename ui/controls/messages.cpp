// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/messages.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPainter>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/label.h"
#include "controls/why.h"
#include "shell/workbench.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

void clear_layout(QLayout* layout) {
    while (QLayoutItem* item = layout->takeAt(0)) {
        if (item->widget()) item->widget()->deleteLater();
        if (item->layout()) clear_layout(item->layout());
        delete item;
    }
}

}  // namespace

SavedNote::SavedNote(QWidget* parent)
    : QWidget(parent), label_(new Label({}, Type::note, Tone::soft_ink, this)) {
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(label_);
}

void SavedNote::say_saved(const QString& time) {
    label_->setText(tr("Saved %1").arg(time));
    label_->setAccessibleName(label_->text());
    QAccessibleEvent told(label_, QAccessible::NameChanged);
    QAccessible::updateAccessibility(&told);
}

FaultPanel::FaultPanel(QWidget* parent) : QFrame(parent) {
    auto* card = new Card(this);
    card->set_meaning(Tone::danger_fill, Tone::danger);
    list_ = card->body();
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(card);
    hide();
}

void FaultPanel::show_faults(const std::vector<std::pair<QString, QString>>& faults,
                             std::function<void(const QString&)> jump) {
    clear_layout(list_);
    const QString count =
        faults.size() == 1 ? tr("One thing to put right") : tr("%1 things to put right").arg(faults.size());
    list_->addWidget(new Label(count, Type::strong, Tone::danger));
    for (const auto& [place, sentence] : faults) {
        auto* row = new QHBoxLayout;
        auto* says = new Label(sentence);
        row->addWidget(says->wrapped(), 1);
        if (jump) {
            auto* go = make_button(tr("Go there"), ButtonKind::quiet);
            go->setAccessibleName(tr("Go there: %1").arg(sentence));
            connect(go, &QPushButton::clicked, this, [jump, where = place] { jump(where); });
            row->addWidget(go, 0, Qt::AlignTop);
        }
        list_->addLayout(row);
    }
    show();
    QAccessibleEvent told(this, QAccessible::Alert);
    QAccessible::updateAccessibility(&told);
}

void FaultPanel::clear() {
    clear_layout(list_);
    hide();
}

QuietDialog::QuietDialog(const QString& title, const QString& lead, QWidget* parent)
    : QDialog(parent), body_(new QVBoxLayout), outer_(new QVBoxLayout(this)) {
    setWindowTitle(title);
    setAccessibleName(title);
    setMinimumWidth(460);
    outer_->setContentsMargins(kSpace6, kSpace6, kSpace6, kSpace4);
    outer_->setSpacing(kSpace3);
    auto* heading = new Label(title, Type::heading);
    outer_->addWidget(heading->wrapped());
    if (!lead.isEmpty()) {
        auto* about = new Label(lead, Type::text, Tone::soft_ink);
        outer_->addWidget(about->wrapped());
    }
    body_->setSpacing(kSpace3);
    outer_->addLayout(body_);
}

QPushButton* QuietDialog::set_buttons(const QString& commit, const QString& leave) {
    auto* row = new QHBoxLayout;
    auto* go = make_button(commit, ButtonKind::primary);
    go->setDefault(true);
    auto* back = make_button(leave);
    row->addStretch();
    row->addWidget(back);
    row->addWidget(go);
    outer_->addSpacing(kSpace1);
    outer_->addLayout(row);
    connect(go, &QPushButton::clicked, this, &QDialog::accept);
    connect(back, &QPushButton::clicked, this, &QDialog::reject);
    return go;
}

OverrideDialog::OverrideDialog(const Workbench& workbench, const std::vector<Objection>& objections,
                               QWidget* parent)
    : QuietDialog(objections.size() == 1 ? tr("Write this in spite of a rule?")
                                         : tr("Write this in spite of %1 rules?").arg(objections.size()),
                  tr("Your reasons go on the record beside the entry, under your name."), parent) {
    least_letters_ = static_cast<std::size_t>(workbench.desk().rules().whole("override-reason", "letters"));
    bool possible = true;
    for (const Objection& objection : objections) {
        auto* card = new Card;
        card->set_meaning(Tone::presses_fill, Tone::presses);
        card->body()->addWidget(new FlagRow(workbench, objection.flag, Weight::presses));
        auto* source =
            new Label(tr("Source: %1").arg(workbench.source(objection.flag)), Type::note, Tone::soft_ink);
        card->body()->addWidget(source->wrapped());
        if (objection.can_be_overridden) {
            auto* reason = new QLineEdit;
            reason->setPlaceholderText(tr("Reason"));
            reason->setAccessibleName(
                tr("Reason for going beyond: %1").arg(workbench.sentence(objection.flag)));
            connect(reason, &QLineEdit::textChanged, this, &OverrideDialog::judge);
            card->body()->addWidget(reason);
            reasons_.emplace_back(objection.flag.rule, reason);
        } else {
            possible = false;
            card->body()->addWidget(
                new Label(tr("This one cannot be overridden."), Type::strong, Tone::presses));
        }
        body()->addWidget(card);
    }
    commit_ = set_buttons(tr("Write with these reasons"), tr("Leave it unwritten"));
    commit_->setProperty("possible", possible);
    judge();
    if (!reasons_.empty()) reasons_.front().second->setFocus();
}

void OverrideDialog::judge() {
    const std::size_t least = least_letters_;
    const bool all = std::all_of(reasons_.begin(), reasons_.end(), [least](const auto& reason) {
        return to_utf8(reason.second->text().trimmed()).size() >= least;
    });
    const bool possible = commit_->property("possible").toBool();
    set_reason_disabled(
        commit_, !possible ? tr("One of these rules cannot be overridden.")
                 : all     ? QString()
                           : tr("Write a reason for each rule, in at least %1 letters.").arg(least_letters_));
}

std::vector<Override> OverrideDialog::overrides() const {
    std::vector<Override> given;
    for (const auto& [rule, reason] : reasons_) given.push_back({rule, to_utf8(reason->text().trimmed())});
    return given;
}

std::optional<std::vector<Override>> OverrideDialog::ask(const Workbench& workbench,
                                                         const std::vector<Objection>& objections,
                                                         QWidget* parent) {
    OverrideDialog dialog(workbench, objections, parent);
    if (dialog.exec() != QDialog::Accepted) return std::nullopt;
    return dialog.overrides();
}

bool ask_once(const QString& question, const QString& consequence, const QString& commit, QWidget* parent) {
    QuietDialog dialog(question, consequence, parent);
    // What cannot be undone is not what a stray Enter does.
    QPushButton* go = dialog.set_buttons(commit, QObject::tr("Go back"));
    go->setDefault(false);
    for (QPushButton* button : dialog.findChildren<QPushButton*>())
        if (button != go) {
            button->setDefault(true);
            button->setFocus();
        }
    return dialog.exec() == QDialog::Accepted;
}

}  // namespace evenfall::ui
