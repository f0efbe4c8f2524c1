// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/print_key.h"

#include <QObject>
#include <QPainter>
#include <QPrintDialog>
#include <QPrinter>

#include "theme/theme.h"

namespace evenfall::ui {

QString print_recovery_key(const QString& key, const QString& clinic, QWidget* parent) {
    QPrinter printer(QPrinter::HighResolution);
    QPrintDialog dialog(&printer, parent);
    if (dialog.exec() != QDialog::Accepted) return {};
    QPainter painter;
    if (!painter.begin(&printer))
        return QObject::tr("It could not be printed. Choose another printer, or write the key down by hand.");
    const QRectF sheet =
        QRectF(printer.pageLayout().paintRectPixels(printer.resolution()))
            .translated(-printer.pageLayout().paintRectPixels(printer.resolution()).topLeft());
    const qreal mm = printer.resolution() / 25.4;
    const auto line = [&](qreal y, const QFont& font, const QString& text) {
        painter.setFont(font);
        painter.drawText(QRectF(20 * mm, y * mm, sheet.width() - 40 * mm, 60 * mm), Qt::TextWordWrap, text);
    };
    line(25, type(Type::title), QObject::tr("Recovery key of %1").arg(clinic));
    line(45, type(Type::dose), key);
    line(95, type(Type::text),
         QObject::tr("This key alone opens the clinic's records when every passphrase is lost. Lock it away "
                     "from the computer. "
                     "Whoever holds it can read everything; it cannot sign as anyone."));
    return painter.end()
               ? QString()
               : QObject::tr(
                     "It could not be printed. Choose another printer, or write the key down by hand.");
}

}  // namespace evenfall::ui
