// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <map>
#include <string>
#include <vector>

class QGridLayout;

namespace evenfall::ui {

class AnswerChoice;
class Workbench;

/// The questions that are never left out, a row each: N and Y answer and go on to the next one. There is no
/// key that answers several.
class DangerQuestions : public QWidget {
    Q_OBJECT
  public:
    explicit DangerQuestions(Workbench& workbench, QWidget* parent = nullptr);
    void set_questions(const std::vector<std::string>& questions,
                       const std::map<std::string, std::string>& answers);
    /// Goes to the first one that is not answered.
    void ask_next();
    int open() const;
    /// The rows in order, for the order of the focus.
    std::vector<QWidget*> rows() const;

  signals:
    /// "yes", "no" or nothing where an answer was taken back.
    void answered(const QString& question, const QString& answer);

  private:
    void answer(std::size_t at);
    Workbench& workbench_;
    QGridLayout* grid_;
    std::vector<std::string> questions_;
    std::vector<AnswerChoice*> choices_;
};

}  // namespace evenfall::ui
