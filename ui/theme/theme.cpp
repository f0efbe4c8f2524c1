// SPDX-License-Identifier: GPL-3.0-or-later
#include "theme/theme.h"

#include <QFontDatabase>
#include <QPointer>
#include <QWidget>
#include <algorithm>

#include "theme/style.h"

namespace evenfall::ui {
namespace {

struct State {
    ThemeKind kind = ThemeKind::light;
    QString family;
    qreal base_points = 10;
    bool set_up = false;
};

State& state() {
    static State the_state;
    return the_state;
}

/// The face and base size: Inter where it is present, in the system's size within what the layout was drawn
/// for.
void choose_face() {
    const QFont system = QFontDatabase::systemFont(QFontDatabase::GeneralFont);
    const QString inter = QStringLiteral("Inter");
    state().family = QFontDatabase::families().contains(inter) ? inter : system.family();
    state().base_points = std::clamp(system.pointSizeF(), 10.0, 13.0);
}

QPalette palette_of(ThemeKind kind) {
    const auto colour = [kind](Tone which) { return tone(which, kind); };
    QPalette palette;
    const std::pair<QPalette::ColorRole, Tone> roles[] = {{QPalette::Window, Tone::surface},
                                                          {QPalette::WindowText, Tone::ink},
                                                          {QPalette::Base, Tone::card},
                                                          {QPalette::AlternateBase, Tone::surface},
                                                          {QPalette::Text, Tone::ink},
                                                          {QPalette::Button, Tone::card},
                                                          {QPalette::ButtonText, Tone::ink},
                                                          {QPalette::Highlight, Tone::planned},
                                                          {QPalette::HighlightedText, Tone::on_planned},
                                                          {QPalette::Link, Tone::planned},
                                                          {QPalette::LinkVisited, Tone::planned},
                                                          {QPalette::PlaceholderText, Tone::soft_ink},
                                                          {QPalette::BrightText, Tone::danger},
                                                          {QPalette::ToolTipBase, Tone::ink},
                                                          {QPalette::ToolTipText, Tone::card},
                                                          {QPalette::Light, Tone::card},
                                                          {QPalette::Midlight, Tone::sunken},
                                                          {QPalette::Mid, Tone::line},
                                                          {QPalette::Dark, Tone::edge},
                                                          {QPalette::Shadow, Tone::edge}};
    for (const auto& [role, which] : roles) palette.setColor(role, colour(which));
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
        palette.setColor(QPalette::Disabled, role, colour(Tone::disabled_ink));
    return palette;
}

/// A focus ring that is drawn into a frame has to be drawn again when the focus moves.
void repaint_on_focus(QApplication& app) {
    QObject::connect(&app, &QApplication::focusChanged, &app, [](QWidget* old, QWidget* now) {
        if (old) old->update();
        if (now) now->update();
    });
}

}  // namespace

QFont type(Type type) {
    if (state().family.isEmpty()) choose_face();
    QFont font(state().family);
    static constexpr qreal kScale[] = {0.9, 1.0, 1.0, 1.2, 1.56, 2.0};
    font.setPointSizeF(state().base_points * kScale[static_cast<int>(type)]);
    const bool heavy = type != Type::note && type != Type::text;
    font.setWeight(!heavy ? QFont::Normal : type == Type::strong ? QFont::DemiBold : QFont::Bold);
    return font;
}

qreal structure_line() {
    return state().kind == ThemeKind::contrast ? 2 : 1;
}

qreal data_line() {
    return state().kind == ThemeKind::contrast ? 3 : 2;
}

ThemeNotifier& theme_notifier() {
    static ThemeNotifier notifier;
    return notifier;
}

ThemeKind theme_in_force() {
    return state().kind;
}

void apply_theme(QApplication& app, ThemeKind kind) {
    state().kind = kind;
    if (!state().set_up) {
        choose_face();
        app.setStyle(new Style);
        app.setFont(type(Type::text));
        app.setCursorFlashTime(0);  // nothing blinks
        repaint_on_focus(app);
        state().set_up = true;
    }
    app.setPalette(palette_of(kind));
    emit theme_notifier().changed();
}

ThemeKind theme_of_system(const QPalette& palette) {
    const QColor ground = palette.color(QPalette::Window);
    const QColor ink = palette.color(QPalette::WindowText);
    if (contrast_ratio(ground, ink) > 20.9 && ground.lightness() < 5) return ThemeKind::contrast;
    return ground.lightness() < ink.lightness() ? ThemeKind::dark : ThemeKind::light;
}

}  // namespace evenfall::ui
