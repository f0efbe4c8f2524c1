// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFrame>
#include <QVBoxLayout>

#include "theme/tones.h"

class QLabel;

namespace evenfall::ui {

/// A rounded ground for what belongs together. With a bar on its left edge it is something to act on.
class Card : public QFrame {
    Q_OBJECT
  public:
    explicit Card(QWidget* parent = nullptr);
    QVBoxLayout* body() const { return body_; }
    /// Ground and bar in the tones of a meaning (`presses_fill` with `presses`).
    void set_meaning(Tone fill, Tone bar);

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    QVBoxLayout* body_;
    Tone fill_ = Tone::card;
    Tone bar_ = Tone::line;
    bool has_bar_ = false;
};

/// A heading with a note beneath and room for a few buttons at its right.
class SectionHeader : public QWidget {
    Q_OBJECT
  public:
    explicit SectionHeader(const QString& title, const QString& note = {}, QWidget* parent = nullptr);
    void add_action(QWidget* control);
    void set_note(const QString& note);

  private:
    QLabel* note_;
    QHBoxLayout* row_;
};

/// What an empty page says: what would be here, and how to begin.
class EmptyState : public QWidget {
    Q_OBJECT
  public:
    EmptyState(const QString& what, const QString& how, QWidget* parent = nullptr);
    void add_action(QWidget* control);
    void set_texts(const QString& what, const QString& how);

  private:
    QLabel* what_;
    QLabel* how_;
    QVBoxLayout* column_;
};

}  // namespace evenfall::ui
