// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/danger_questions.h"

#include <QGridLayout>
#include <algorithm>

#include "controls/label.h"
#include "record/answer_choice.h"
#include "shell/workbench.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {

DangerQuestions::DangerQuestions(Workbench& workbench, QWidget* parent)
    : QWidget(parent), workbench_(workbench), grid_(new QGridLayout(this)) {
    grid_->setContentsMargins(0, 0, 0, 0);
    grid_->setHorizontalSpacing(kSpace3);
    grid_->setVerticalSpacing(2);
    grid_->setColumnStretch(0, 1);
}

void DangerQuestions::set_questions(const std::vector<std::string>& questions,
                                    const std::map<std::string, std::string>& answers) {
    if (questions != questions_) {
        while (QLayoutItem* item = grid_->takeAt(0)) {
            delete item->widget();
            delete item;
        }
        choices_.clear();
        questions_ = questions;
        for (std::size_t at = 0; at < questions_.size(); ++at) {
            std::string id = "call-ask-" + questions_[at];
            std::ranges::replace(id, ' ', '-');
            const QString asks = to_text(workbench_.texts().text(id));
            auto* choice = new AnswerChoice(asks);
            grid_->addWidget((new Label(asks))->wrapped(), static_cast<int>(at), 0, Qt::AlignVCenter);
            grid_->addWidget(choice, static_cast<int>(at), 1);
            choices_.push_back(choice);
            connect(choice, &AnswerChoice::answered, this, [this, at] { answer(at); });
        }
        // However little room there is, no question is squeezed until it cannot be read. A grid with labels
        // that wrap does not keep its rows' least heights: the whole of it does.
        const int count = static_cast<int>(questions_.size());
        setMinimumHeight(count * (kTarget + grid_->verticalSpacing()));
    }
    for (std::size_t at = 0; at < questions_.size(); ++at) {
        const auto said = answers.find(questions_[at]);
        choices_[at]->set_answer(said == answers.end()   ? Answer::not_asked
                                 : said->second == "yes" ? Answer::yes
                                 : said->second == "no"  ? Answer::no
                                                         : Answer::not_asked);
    }
}

int DangerQuestions::open() const {
    return static_cast<int>(std::ranges::count(choices_, Answer::not_asked, &AnswerChoice::answer));
}

std::vector<QWidget*> DangerQuestions::rows() const {
    return {choices_.begin(), choices_.end()};
}

void DangerQuestions::ask_next() {
    for (AnswerChoice* each : choices_)
        if (each->answer() == Answer::not_asked) return each->setFocus();
}

void DangerQuestions::answer(std::size_t at) {
    const Answer said = choices_[at]->answer();
    if (said != Answer::not_asked && choices_[at]->hasFocus()) focusNextChild();
    emit answered(to_text(questions_[at]), said == Answer::not_asked ? QString() : to_text(word(said)));
}

}  // namespace evenfall::ui
