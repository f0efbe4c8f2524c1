// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include "papers/paper_painter.h"

class QPrinter;

namespace evenfall::ui {

/// A reference as a part of a file's name: what could name a folder, or hide, becomes a line.
QString file_name_of(const std::string& reference);

/// Writes a paper as a PDF with its typeface embedded; its metadata names the paper, and the patient only
/// where the options say so. The file appears whole or not at all. Faults: `paper-file-exists` (unless
/// `replace`), `paper-file-not-written`.
Result<Done> write_pdf(const PaperPainter& paper, const QString& path, bool replace = false);
/// The same from a document. Faults as PaperPainter::set too.
Result<Done> write_pdf(const papers::Document& document, const PaperOptions& options, const QString& path,
                       bool replace = false);

/// Prints a paper on a printer that is set up already (from and to page are kept). Fault:
/// `paper-not-printed`.
Result<Done> print_paper(const PaperPainter& paper, QPrinter& printer);

}  // namespace evenfall::ui
