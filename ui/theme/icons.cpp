// SPDX-License-Identifier: GPL-3.0-or-later
#include "theme/icons.h"

#include <QFile>
#include <QIconEngine>
#include <QImage>
#include <QPixmap>
#include <QPixmapCache>
#include <QSvgRenderer>
#include <cmath>

#include "rules/texts.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

QString path_of(const QString& name) {
    static const QString folder = QString::fromStdString((resources_folder() / "icons").string());
    return folder + QLatin1Char('/') + name + QStringLiteral(".svg");
}

/// The drawing in one colour, in device pixels.
QPixmap tinted(const QString& name, const QSize& pixels, const QColor& colour) {
    const QString key =
        QStringLiteral("%1/%2x%3/%4").arg(name).arg(pixels.width()).arg(pixels.height()).arg(colour.name());
    QPixmap found;
    if (QPixmapCache::find(key, &found)) return found;
    QImage image(pixels, QImage::Format_ARGB32_Premultiplied);
    image.fill(Qt::transparent);
    QSvgRenderer drawing(path_of(name));
    QPainter painter(&image);
    drawing.setAspectRatioMode(Qt::KeepAspectRatio);
    drawing.render(&painter);
    painter.setCompositionMode(QPainter::CompositionMode_SourceIn);
    painter.fillRect(image.rect(), colour);
    painter.end();
    found = QPixmap::fromImage(image);
    QPixmapCache::insert(key, found);
    return found;
}

class ToneIcon : public QIconEngine {
  public:
    ToneIcon(QString name, Tone colour) : name_(std::move(name)), tone_(colour) {}
    void paint(QPainter* painter, const QRect& where, QIcon::Mode mode, QIcon::State) override {
        draw_icon(*painter, name_, where, mode == QIcon::Disabled ? Tone::disabled_ink : tone_);
    }
    QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State) override {
        return tinted(name_, size, tone(mode == QIcon::Disabled ? Tone::disabled_ink : tone_));
    }
    QIconEngine* clone() const override { return new ToneIcon(name_, tone_); }

  private:
    QString name_;
    Tone tone_;
};

}  // namespace

void draw_icon(QPainter& painter, const QString& name, const QRectF& where, Tone which) {
    const qreal scale = painter.device() ? painter.device()->devicePixelRatioF() : 1;
    const QSize pixels(static_cast<int>(std::ceil(where.width() * scale)),
                       static_cast<int>(std::ceil(where.height() * scale)));
    if (pixels.isEmpty()) return;
    painter.save();
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawPixmap(where, tinted(name, pixels, tone(which)), QRectF(QPointF(0, 0), pixels));
    painter.restore();
}

QIcon icon(const QString& name, Tone which) {
    return QIcon(new ToneIcon(name, which));
}

}  // namespace evenfall::ui
