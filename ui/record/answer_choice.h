// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "model/person.h"

namespace evenfall::ui {

/// "Not asked", "no" or "yes" in three segments. N, Y and Backspace answer; left and right move.
class AnswerChoice : public QWidget {
    Q_OBJECT
  public:
    explicit AnswerChoice(const QString& question, QWidget* parent = nullptr);
    Answer answer() const { return answer_; }
    void set_answer(Answer answer);
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override { return sizeHint(); }

  signals:
    void answered();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void choose(Answer answer);
    void tell_name();
    QString question_;
    Answer answer_ = Answer::not_asked;
};

}  // namespace evenfall::ui
