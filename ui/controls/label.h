// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLabel>

#include "theme/theme.h"

namespace evenfall::ui {

/// A label of the type scale in a tone; follows the theme. Plain text only: what a person typed is never
/// markup.
class Label : public QLabel {
    Q_OBJECT
  public:
    explicit Label(const QString& text = {}, Type size = Type::text, Tone colour = Tone::ink,
                   QWidget* parent = nullptr);
    void set_tone(Tone colour);
    void set_type(Type size);
    /// Wraps over lines rather than being cut off.
    Label* wrapped();

  private:
    void follow_theme();
    Type size_;
    Tone tone_;
};

/// A label that shortens from the end and tells the whole text as a tool tip and to a screen reader.
class ElidedLabel : public Label {
    Q_OBJECT
  public:
    using Label::Label;
    QSize minimumSizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;
};

}  // namespace evenfall::ui
