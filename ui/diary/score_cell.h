// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>

namespace evenfall::ui {

/// A symptom's numeral, 0 to 10, set by one key: 0 to 9, X or + for 10; Backspace or Delete takes it out. A
/// key that sets it asks for the next cell.
class ScoreCell : public QWidget {
    Q_OBJECT

  public:
    explicit ScoreCell(const std::string& item, QWidget* parent = nullptr);
    const std::string& item() const { return item_; }
    std::optional<int> score() const { return score_; }
    void set_score(std::optional<int> score);
    QSize sizeHint() const override;

  signals:
    void scored();             ///< by a key
    void taken_out();          ///< by Backspace or Delete
    void step_wanted(int by);  ///< arrow keys

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    void take_out();
    std::string item_;
    QString name_;
    std::optional<int> score_;
};

}  // namespace evenfall::ui
