// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace evenfall::ui {

/// The answer to one item of a form, 0 to `most`, by one key; Backspace leaves it blank.
class FormItem : public QWidget {
    Q_OBJECT
  public:
    FormItem(const QString& item, const QStringList& choices, QWidget* parent = nullptr);
    int answer() const { return answer_; }  ///< kBlankItem where nothing was answered
    void set_answer(int answer);
    QSize sizeHint() const override;

  signals:
    void answered();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;

  private:
    QRectF segment(int at) const;
    QString item_;
    QStringList choices_;
    int answer_ = -1;
};

}  // namespace evenfall::ui
