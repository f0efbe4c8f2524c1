// SPDX-License-Identifier: GPL-3.0-or-later
#include "clinic/rule_page.h"

#include <QPushButton>
#include <QRegularExpression>
#include <QVBoxLayout>
#include <algorithm>

#include "clinic/clinic_change.h"
#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/messages.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

/// What the rule says, with an ellipsis where a person's own figures stand.
QString sentence_of(const Workbench& workbench, const std::string& rule) {
    static const QRegularExpression open_brace(QStringLiteral("\\{[^}]*\\}"));
    return workbench.sentence({rule, {}, {}}).replace(open_brace, QStringLiteral("…"));
}

QString words_of_name(const std::string& name) {
    return sentence_case(to_text(name).replace(u'_', u' '));
}

}  // namespace

QString name_of_rule(const std::string& id) {
    return sentence_case(to_text(id).replace(u'-', u' '));
}

RulePage::RulePage(Workbench& workbench, std::string rule, QWidget* parent)
    : QWidget(parent),
      workbench_(workbench),
      rule_(std::move(rule)),
      reason_(make_line(tr("Why the clinic uses its own value"))),
      faults_(new FaultPanel) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, kSpace3, 0);
    const Rule* known = workbench_.desk().rules().find(rule_);
    if (!known) return;
    auto* card = new Card;
    column->addWidget(card);
    card->body()->addWidget(new SectionHeader(name_of_rule(rule_), tr("Rule %1").arg(to_text(rule_))));
    card->body()->addWidget((new Label(sentence_of(workbench_, rule_)))->wrapped());
    card->body()->addWidget((new Label(tr("Source: %1 (%2)").arg(to_text(known->source), to_text(known->how)),
                                       Type::note, Tone::soft_ink))
                                ->wrapped());
    add_values(*card->body(), *known);
    add_history(*column);
    column->addStretch();
}

void RulePage::add_values(QVBoxLayout& column, const Rule& rule) {
    for (const auto& [name, value] : rule.values) {
        QLineEdit* line = make_line(words_of_name(name));
        line->setText(to_text(value));
        connect(line, &QLineEdit::returnPressed, this, &RulePage::save);
        add_field(column, words_of_name(name), line);
        values_.push_back({name, value, line});
    }
    connect(reason_, &QLineEdit::returnPressed, this, &RulePage::save);
    add_field(column, reason_->accessibleName(), reason_);
    column.addWidget(faults_);
    auto* keep = make_button(tr("Use this value"), ButtonKind::primary);
    column.addWidget(keep, 0, Qt::AlignLeft);
    set_reason_disabled(keep, why_not_changed_here(workbench_));
    connect(keep, &QPushButton::clicked, this, &RulePage::save);
}

void RulePage::add_history(QVBoxLayout& column) {
    auto* card = new Card;
    card->body()->addWidget(new SectionHeader(tr("What the clinic changed here")));
    bool any = false;
    for (const auto& changed : workbench_.desk().clinic_record().rules) {
        if (changed.value.rule != rule_) continue;
        any = true;
        card->body()->addWidget(
            (new Label(tr("%1: %2 set to %3. %4 (%5)")
                           .arg(text_of_minute(changed.stamp.at), words_of_name(changed.value.name).toLower(),
                                to_text(changed.value.value), to_text(changed.value.reason),
                                workbench_.worker_name(changed.stamp.author))))
                ->wrapped());
    }
    if (!any)
        card->body()->addWidget(
            new Label(tr("Nothing: the value is as shipped."), Type::text, Tone::soft_ink));
    column.addWidget(card);
}

void RulePage::save() {
    faults_->clear();
    const std::string reason = to_utf8(reason_->text().trimmed());
    const std::vector<Value> typed = values_;
    for (const Value& value : typed) {
        const std::string wanted = to_utf8(value.line->text().trimmed());
        if (wanted == value.in_force) continue;
        if (!write_for_clinic(workbench_, {RuleChanged{rule_, value.name, wanted, reason}}, *faults_))
            return value.line->setFocus();
    }
}

}  // namespace evenfall::ui
