// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/forms_card.h"

#include <QComboBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>

#include "checkin/call_parts.h"
#include "checkin/form_item.h"
#include "controls/buttons.h"
#include "controls/form.h"
#include "controls/label.h"
#include "shell/workbench.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {

FormsCard::FormsCard(Workbench& workbench, QWidget* parent)
    : Card(parent),
      workbench_(workbench),
      which_(make_choice(tr("Form"), {})),
      grid_(new QGridLayout),
      licence_(new Label({}, Type::note, Tone::soft_ink)),
      total_(new Label({}, Type::strong)) {
    setAccessibleName(tr("Forms"));
    body()->addWidget(new SectionHeader(
        tr("Forms"), tr("A form is kept with its answers. Where its owner does not let it be shown, only the "
                        "total is taken down.")));
    which_->addItem(tr("Choose a form"));
    for (const Scale& scale : workbench_.desk().scales().all) which_->addItem(to_text(scale.id));
    auto* row = new QHBoxLayout;
    row->addWidget(which_);
    row->addWidget(total_->wrapped(), 1);
    auto* keep = make_button(tr("Save the form"));
    connect(keep, &QPushButton::clicked, this, &FormsCard::save);
    row->addWidget(keep);
    body()->addLayout(row);
    body()->addLayout(grid_);
    body()->addWidget(licence_->wrapped());
    grid_->setColumnStretch(0, 1);
    connect(which_, &QComboBox::currentIndexChanged, this, &FormsCard::show_form);
    show_form();
}

void FormsCard::refresh() {
    if (shown_ == workbench_.patient()) return;
    shown_ = workbench_.patient();
    which_->setCurrentIndex(0);
}

const Scale* FormsCard::chosen() const {
    const auto& all = workbench_.desk().scales().all;
    const int at = which_->currentIndex() - 1;
    return at < 0 ? nullptr : &all[static_cast<std::size_t>(at)];
}

void FormsCard::show_form() {
    clear_layout(*grid_);
    items_.clear();
    whole_ = nullptr;
    const Scale* scale = chosen();
    licence_->setVisible(scale != nullptr);
    total_->setText({});
    if (!scale) return;
    const Texts& texts = workbench_.texts();
    licence_->setText(tr("%1 Source: %2").arg(to_text(texts.text(scale->licence)), to_text(scale->source)));
    if (scale->entry == ScaleEntry::total) {
        whole_ = make_line(tr("Total of the form, 0 to %1").arg(scale->most));
        whole_->setFixedWidth(96);
        grid_->addWidget(new Label(tr("Total, 0 to %1").arg(scale->most)), 0, 0);
        grid_->addWidget(whole_, 0, 1);
        connect(whole_, &QLineEdit::textEdited, this, &FormsCard::tell_total);
        return tell_total();
    }
    QStringList choices;
    for (const std::string& each : scale->choices) choices << to_text(texts.text(each));
    auto* legend = new Label(choices.join(QStringLiteral(" · ")), Type::note, Tone::soft_ink);
    grid_->addWidget(legend->wrapped(), 0, 0, 1, 2);
    QWidget* before = which_;
    for (const std::string& item : scale->items) {
        const QString asks = to_text(texts.text(item));
        auto* answer = new FormItem(asks, choices);
        const int at = static_cast<int>(items_.size()) + 1;
        grid_->addWidget((new Label(tr("%1. %2").arg(at).arg(asks)))->wrapped(), at, 0);
        grid_->addWidget(answer, at, 1);
        setTabOrder(before, answer);
        before = answer;
        items_.push_back(answer);
        connect(answer, &FormItem::answered, this, [this] {
            tell_total();
            focusNextChild();
        });
    }
    tell_total();
}

ScaleAnswers FormsCard::answers() const {
    ScaleAnswers answers{chosen()->id, workbench_.today(), {}};
    for (const FormItem* item : items_) answers.items.push_back(item->answer());
    if (whole_) {
        bool is_number = false;
        const int total = whole_->text().trimmed().toInt(&is_number);
        answers.items.push_back(is_number ? total : kBlankItem);
    }
    return answers;
}

void FormsCard::tell_total() {
    const auto scored = score(answers(), workbench_.desk().scales(), chosen()->id);
    if (!scored) return total_->setText(to_text(workbench_.texts().text(scored.faults().front())));
    QString words = scored->total ? tr("Total %1").arg(*scored->total) : tr("Not complete yet");
    if (scored->band) {
        std::string id = "scale-band-" + *scored->band;
        for (char& each : id)
            if (each == ' ') each = '-';
        words += tr(": %1").arg(workbench_.texts().has(id) ? to_text(workbench_.texts().text(id))
                                                           : to_text(*scored->band));
    }
    total_->setText(words);
}

void FormsCard::save() {
    if (!chosen()) return;
    const ScaleAnswers given = answers();
    const auto scored = score(given, workbench_.desk().scales(), given.scale);
    if (!scored) {
        if (workbench_.show_faults) workbench_.show_faults(scored.faults());
        return;
    }
    if (!workbench_.carry_out({given})) return;
    which_->setCurrentIndex(0);
    emit written({this});
}

}  // namespace evenfall::ui
