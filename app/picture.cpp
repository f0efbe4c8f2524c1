// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/picture.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QFileInfo>
#include <QImage>
#include <QPainter>
#include <QSvgGenerator>
#include <QThread>

#include "shell/workbench.h"

namespace evenfall::app {
namespace {

constexpr qint64 kLongest = 20'000;  // milliseconds; what is computed for a picture takes a second or two
constexpr qint64 kSettling = 150;    // for delayed layout

bool is_busy(const QWidget& widget) {
    if (const auto* page = qobject_cast<const ui::Page*>(&widget); page && page->busy()) return true;
    for (const auto* page : widget.findChildren<ui::Page*>())
        if (page->isVisible() && page->busy()) return true;
    return false;
}

void settle(const QWidget& widget) {
    QElapsedTimer since_start;
    QElapsedTimer since_quiet;
    since_start.start();
    since_quiet.start();
    while (since_start.elapsed() < kLongest && since_quiet.elapsed() < kSettling) {
        QApplication::processEvents(QEventLoop::AllEvents, 20);
        if (is_busy(widget)) since_quiet.restart();
        QThread::msleep(5);
    }
}

Fault fault(const char* id, const QString& file) {
    return {id, file.toStdString(), {{"text", file.toStdString()}}};
}

bool save_png(QWidget& widget, const QString& file, double scale) {
    QImage image(widget.size() * scale, QImage::Format_ARGB32_Premultiplied);
    image.setDevicePixelRatio(scale);
    image.fill(Qt::transparent);
    widget.render(&image);
    return image.save(file, "PNG");
}

bool save_svg(QWidget& widget, const QString& file) {
    QSvgGenerator generator;
    generator.setFileName(file);
    generator.setSize(widget.size());
    generator.setViewBox(widget.rect());
    generator.setTitle(QStringLiteral("Evenfall"));
    QPainter painter;
    if (!painter.begin(&generator)) return false;
    widget.render(&painter);
    return painter.end();
}

}  // namespace

Result<Done> save_picture(QWidget& widget, const QString& file, const PictureOptions& options) {
    const QString kind = QFileInfo(file).suffix().toLower();
    if (kind != QStringLiteral("png") && kind != QStringLiteral("svg"))
        return fault("app-picture-kind", file);
    if (QFileInfo::exists(file) && !options.replace) return fault("app-file-exists", file);
    widget.resize(options.width, options.height);
    widget.show();
    settle(widget);
    const bool saved =
        kind == QStringLiteral("png") ? save_png(widget, file, options.scale) : save_svg(widget, file);
    widget.hide();
    if (!saved) return fault("app-cannot-write", file);
    return Done{};
}

}  // namespace evenfall::app
