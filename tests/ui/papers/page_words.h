// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRectF>
#include <QString>
#include <set>
#include <string>
#include <vector>

#include "papers/document.h"

// What stands where on the pages of a PDF, as poppler reads it, and what is wrong with it.

namespace evenfall::ui {

struct PageWord {
    QString text;
    QRectF box;  ///< in points, from the page's upper left corner
};

struct PageWords {
    QSizeF size;
    std::vector<PageWord> words;
};

/// The words of each page with their boxes (pdftotext -bbox).
std::vector<PageWords> words_of_pages(const QString& file);

/// Every word that the paper may show: those of its texts, its page numbers, the head of its later pages.
std::set<QString> words_of_document(const papers::Document& document, int pages);

/// Texts that must stand on one page: each step of a table, each day, each small box to write in.
std::vector<std::vector<std::string>> wholes_of(const papers::Document& document);

/// What the part that begins the last page break says: everything that stands on its pages, without spaces
/// and hyphens. Empty where no part begins a page.
QString words_of_last_part(const papers::Document& document, const QString& file);

/// What is wrong with the pages, in words; empty where nothing is. `large`: of large print.
std::vector<std::string> layout_faults(const papers::Document& document, const QString& file, bool large);

}  // namespace evenfall::ui
