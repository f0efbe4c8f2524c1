// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/write_pdf.h"

#include <QFileInfo>
#include <QPainter>
#include <QPdfWriter>
#include <QPrinter>
#include <QSaveFile>
#include <algorithm>

#include "papers/paper_text.h"

namespace evenfall::ui {
namespace {

constexpr int kDotsPerInch = 1200;
constexpr double kPointsPerInch = 72;

Fault not_written(const QString& path, const QString& why) {
    return {"paper-file-not-written", path.toStdString(), {{"why", why.toStdString()}}};
}

}  // namespace

QString file_name_of(const std::string& reference) {
    QString name = QString::fromStdString(reference);
    for (QChar& each : name)
        if (!each.isLetterOrNumber() && each != u'.' && each != u'-') each = u'_';
    if (name.startsWith(u'.')) name[0] = u'_';
    return name;
}

Result<Done> write_pdf(const PaperPainter& paper, const QString& path, bool replace) {
    if (!replace && QFileInfo::exists(path)) return Fault{"paper-file-exists", path.toStdString(), {}};
    QSaveFile file(path);
    if (!file.open(QIODevice::WriteOnly)) return not_written(path, file.errorString());
    file.setPermissions(QFileDevice::ReadOwner | QFileDevice::WriteOwner);
    {
        QPdfWriter writer(&file);
        writer.setResolution(kDotsPerInch);
        writer.setTitle(paper.options().name_in_metadata
                            ? paper_string(paper.document().patient) + QStringLiteral(" · ") +
                                  paper_title(paper.document())
                            : paper_title(paper.document()));
        writer.setCreator(QStringLiteral("Evenfall"));
        // The whole layout before the first page: later changes would act from the next page on only.
        if (!writer.setPageLayout(paper.page_layout())) return not_written(path, QStringLiteral("page size"));
        QPainter painter;
        if (!painter.begin(&writer)) return not_written(path, file.errorString());
        painter.scale(kDotsPerInch / kPointsPerInch, kDotsPerInch / kPointsPerInch);
        for (int page = 0; page < paper.page_count(); ++page) {
            if (page > 0 && !writer.newPage()) return not_written(path, file.errorString());
            paper.paint(painter, page);
        }
        if (!painter.end()) return not_written(path, file.errorString());
    }
    if (file.error() != QFileDevice::NoError || !file.commit()) return not_written(path, file.errorString());
    return Done{};
}

Result<Done> write_pdf(const papers::Document& document, const PaperOptions& options, const QString& path,
                       bool replace) {
    const auto paper = PaperPainter::set(document, options);
    if (!paper) return paper.faults();
    return write_pdf(*paper, path, replace);
}

Result<Done> print_paper(const PaperPainter& paper, QPrinter& printer) {
    printer.setFullPage(true);
    printer.setPageLayout(paper.page_layout());
    printer.setDocName(paper_title(paper.document()));
    const int first = printer.fromPage() > 0 ? printer.fromPage() : 1;
    const int last =
        printer.toPage() > 0 ? std::min(printer.toPage(), paper.page_count()) : paper.page_count();
    QPainter painter;
    if (!painter.begin(&printer)) return Fault{"paper-not-printed", {}, {}};
    const double scale = printer.resolution() / kPointsPerInch;
    painter.scale(scale, scale);
    for (int page = first; page <= last; ++page) {
        if (page > first && !printer.newPage()) return Fault{"paper-not-printed", {}, {}};
        paper.paint(painter, page - 1);
    }
    if (!painter.end() || printer.printerState() == QPrinter::Error)
        return Fault{"paper-not-printed", {}, {}};
    return Done{};
}

}  // namespace evenfall::ui
