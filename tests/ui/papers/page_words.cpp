// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/papers/page_words.h"

#include <QProcess>
#include <QRegularExpression>
#include <QXmlStreamReader>
#include <algorithm>
#include <functional>

#include "rules/texts.h"

namespace evenfall::ui {
namespace {

constexpr double kEdge = 20;     // points that most printers cannot reach
constexpr double kTouch = 1.0;   // points by which boxes may touch
constexpr double kEmpty = 0.22;  // of the room of a page: less is a nearly empty page
constexpr std::size_t kFewLines = 3;
constexpr double kMuchBefore = 0.42;    // of a page, from its top to the date of its first day
constexpr qsizetype kDayAndMonth = 7;   // characters of "Mon4Jan"
constexpr std::ptrdiff_t kFewDays = 3;  // of a step, at least, on the last of its pages
constexpr double kThin = 18 * 1.1;      // points of a line of 18-point type from its ascent to its descent
constexpr qsizetype kLong = 4;          // letters of a word that is surely longer than it is high
constexpr qsizetype kBetween = 80;      // characters of headings between the parts of a step

QString plain(QString text) {
    return text.replace(QChar(0x00A0), u' ').normalized(QString::NormalizationForm_KC);
}

QString without_spaces(QString text) {
    return plain(std::move(text)).remove(u' ');
}

void take_words(std::set<QString>& words, const QString& text) {
    for (const QString& word : plain(text).split(u' ', Qt::SkipEmptyParts)) {
        words.insert(word);
        // A line may end behind a hyphen or a slash that the text itself has.
        static const QRegularExpression kInside(QStringLiteral("(?<=[-/])(?=.)"));
        const QStringList parts = word.split(kInside);
        for (qsizetype from = 0; from < parts.size(); ++from)
            for (qsizetype to = from + 1; to <= parts.size(); ++to)
                words.insert(parts.mid(from, to - from).join(QString()));
    }
}

/// The lines of a page: the tops of words that do not stand beside one another.
std::size_t line_count(const std::vector<PageWord>& words) {
    std::vector<double> tops;
    for (const PageWord& word : words)
        if (std::ranges::none_of(tops, [&](double top) { return std::abs(top - word.box.top()) < 4; }))
            tops.push_back(word.box.top());
    return tops.size();
}

/// Where the foot begins: the highest of the words "Page x of y" at the page's right.
double foot_top(const PageWords& page) {
    double top = 0;
    for (const PageWord& word : page.words) top = std::max(top, word.box.top());
    // The foot holds at most a symbol's height.
    double first = top;
    for (const PageWord& word : page.words)
        if (word.box.top() > page.size.height() - 105) first = std::min(first, word.box.top());
    return first;
}

/// The text of each page in the order in which it is drawn, line by line.
QStringList drawn_pages(const QString& file) {
    QProcess process;
    process.start(QStringLiteral("pdftotext"), {QStringLiteral("-raw"), file, QStringLiteral("-")});
    process.waitForFinished(30'000);
    QString all = QString::fromUtf8(process.readAllStandardOutput());
    if (all.endsWith(u'\f')) all.chop(1);
    return all.split(u'\f');
}

/// The same without spaces and ends of lines.
QStringList raw_pages(const QString& file) {
    QStringList pages;
    for (const QString& page : drawn_pages(file))
        pages << plain(page).remove(QRegularExpression(QStringLiteral("\\s")));
    return pages;
}

/// The first texts of the rows of a table that has many in one group: the days of a schedule.
QStringList days_of_table(const papers::Document& document) {
    QStringList days;
    for (const papers::Block& block : document.blocks)
        if (const auto* table = std::get_if<papers::Table>(&block.content))
            for (const papers::Group& group : table->groups)
                for (const papers::Row& row : group.rows)
                    if (group.rows.size() > 1 && !row.front().strong.empty())
                        days << without_spaces(QString::fromStdString(row.front().strong.front()));
    return days;
}

/// The doses that a list of the paper says: those until a plan begins.
QStringList listed_doses(const papers::Document& document) {
    QStringList doses;
    for (const papers::Block& block : document.blocks)
        if (const auto* list = std::get_if<papers::List>(&block.content))
            for (const std::string& item : list->items)
                if (item.find(" mg") != std::string::npos)
                    doses << without_spaces(QString::fromStdString(item));
    return doses;
}

/// The heading that begins the last part of a paper that begins a page.
QString last_part(const papers::Document& document) {
    const papers::Heading* heading = nullptr;
    for (std::size_t i = 1; i < document.blocks.size(); ++i)
        if (std::holds_alternative<papers::PageBreak>(document.blocks[i - 1].content))
            heading = std::get_if<papers::Heading>(&document.blocks[i].content);
    return heading ? without_spaces(QString::fromStdString(heading->text)) : QString();
}

/// Whether a page says these texts one after the other, with little between them.
bool stands_whole(const QString& page, const std::vector<std::string>& whole) {
    const QString first = without_spaces(QString::fromStdString(whole.front()));
    for (qsizetype begin = page.indexOf(first); begin >= 0; begin = page.indexOf(first, begin + 1)) {
        qsizetype at = begin;
        qsizetype length = 0;
        for (const std::string& text : whole) {
            const QString wanted = without_spaces(QString::fromStdString(text));
            at = page.indexOf(wanted, at);
            if (at < 0) return false;
            at += wanted.size();
            length += wanted.size();
        }
        if (at - begin <= 2 * length + kBetween) return true;
    }
    return false;
}

/// Every heading of a paper, without spaces.
QStringList headings_of(const papers::Document& document) {
    QStringList headings;
    const auto take = [&](const std::string& text) {
        if (!text.empty()) headings << without_spaces(QString::fromStdString(text));
    };
    for (const papers::Block& block : document.blocks) {
        if (const auto* heading = std::get_if<papers::Heading>(&block.content)) take(heading->text);
        if (const auto* sides = std::get_if<papers::Sides>(&block.content))
            for (const papers::Side& side : sides->sides) take(side.title);
    }
    return headings;
}

struct Checker {
    const papers::Document& document;
    std::vector<PageWords> pages;
    bool large;
    std::vector<std::string> faults;

    void say(std::size_t page, const QString& what) {
        faults.push_back("page " + std::to_string(page + 1) + " of " + std::to_string(pages.size()) + ": " +
                         what.toStdString());
    }

    void edges() {
        for (std::size_t i = 0; i < pages.size(); ++i)
            for (const PageWord& word : pages[i].words)
                if (word.box.left() < kEdge || word.box.top() < kEdge ||
                    word.box.right() > pages[i].size.width() - kEdge ||
                    word.box.bottom() > pages[i].size.height() - kEdge)
                    say(i, QStringLiteral("leaves the page: ") + word.text);
    }

    void overlaps() {
        for (std::size_t i = 0; i < pages.size(); ++i) {
            auto words = pages[i].words;
            std::ranges::sort(words, {}, [](const PageWord& word) { return word.box.top(); });
            for (std::size_t a = 0; a < words.size(); ++a)
                for (std::size_t b = a + 1; b < words.size(); ++b) {
                    if (words[b].box.top() >= words[a].box.bottom()) break;
                    const QRectF both = words[a].box.intersected(words[b].box);
                    if (both.width() > kTouch && both.height() > kTouch)
                        say(i, QStringLiteral("overlap: ") + words[a].text + QStringLiteral(" and ") +
                                   words[b].text);
                }
        }
    }

    void broken_words() {
        const std::set<QString> known = words_of_document(document, static_cast<int>(pages.size()));
        for (std::size_t i = 0; i < pages.size(); ++i)
            for (const PageWord& word : pages[i].words)
                for (const QString& part : plain(word.text).split(u' ', Qt::SkipEmptyParts))
                    if (!known.contains(part)) say(i, QStringLiteral("broken word: ") + part);
    }

    /// The words between the head of a later page and its foot.
    std::vector<PageWord> content_of(std::size_t i) const {
        const double from = i == 0 ? 0 : kEdge + (large ? 34 : 30);
        const double to = foot_top(pages[i]);
        std::vector<PageWord> content;
        for (const PageWord& word : pages[i].words)
            if (word.box.top() >= from && word.box.bottom() < to + 2) content.push_back(word);
        return content;
    }

    /// Words below 18 points on a page of large print, upright or turned.
    void small_words() {
        if (!large) return;
        for (std::size_t i = 0; i < pages.size(); ++i)
            for (const PageWord& word : content_of(i))
                if (word.text.size() >= kLong && std::min(word.box.width(), word.box.height()) < kThin)
                    say(i, QStringLiteral("is small: ") + word.text);
    }

    void empty_pages() {
        for (std::size_t i = 0; i < pages.size(); ++i) {
            const auto content = content_of(i);
            if (line_count(content) < kFewLines) {
                say(i, QStringLiteral("holds only a line or two"));
                continue;
            }
            double low = 0;
            for (const PageWord& word : content) low = std::max(low, word.box.bottom());
            const double top = kEdge + 30;
            const double filled = (low - top) / (foot_top(pages[i]) - top);
            if (pages.size() > 1 && filled < kEmpty)
                say(i, QStringLiteral("is nearly empty (%1 %)").arg(std::lround(filled * 100)));
        }
    }

    /// Numbers at the end of a line whose unit begins the next one.
    void parted_units(const QString& file) {
        static const QRegularExpression kParted(QStringLiteral("[\\d=]\\s*\\n\\s*(mg|mL|%)(?!\\p{L})"),
                                                QRegularExpression::UseUnicodePropertiesOption);
        const QStringList texts = drawn_pages(file);
        for (qsizetype i = 0; i < texts.size(); ++i)
            if (const auto found = kParted.match(texts[i]); found.hasMatch())
                say(static_cast<std::size_t>(i), QStringLiteral("a unit stands apart: ") + found.captured());
    }

    void lone_headings(const QString& file) {
        const QString foot = without_spaces(QString::fromStdString(document.footer.patient));
        const QStringList texts = raw_pages(file);
        for (qsizetype i = 0; i < texts.size(); ++i)
            for (const QString& heading : headings_of(document))
                if (texts[i].contains(heading + foot))
                    say(static_cast<std::size_t>(i), QStringLiteral("ends with a heading: ") + heading);
    }

    /// Whether what stands above the first day of a page takes nearly half of it.
    bool much_before_first_day(std::size_t i, const QStringList& days) const {
        if (i >= pages.size()) return false;
        const std::vector<PageWord>& words = pages[i].words;
        for (std::size_t at = 0; at < words.size(); ++at) {
            QString said;
            for (std::size_t k = at; k < words.size() && said.size() < days.front().size(); ++k) {
                said += without_spaces(words[k].text);
                const bool begins =
                    said.size() >= kDayAndMonth &&
                    std::ranges::any_of(days, [&](const QString& day) { return day.startsWith(said); });
                if (begins) return words[k].box.bottom() > kMuchBefore * pages[i].size.height();
            }
        }
        return false;
    }

    /// Pages of the part with the days on which no day stands, nor what is taken until the first one.
    void pages_without_day(const QString& file) {
        QStringList days = days_of_table(document);
        const QString part = last_part(document);
        if (days.isEmpty() || part.isEmpty()) return;
        days << listed_doses(document);
        const QStringList texts = raw_pages(file);
        bool begun = false;
        for (qsizetype i = 0; i < texts.size(); ++i) {
            const bool first = !begun && texts[i].contains(part);
            begun = begun || first;
            // What is needed to be safe stands before the first day, and both together can be too much.
            if (first && large && much_before_first_day(static_cast<std::size_t>(i) + 1, days)) continue;
            if (begun &&
                std::ranges::none_of(days, [&](const QString& day) { return texts[i].contains(day); }))
                say(static_cast<std::size_t>(i), QStringLiteral("shows no day"));
        }
    }

    /// Steps whose last page holds a day or two of them while pages before hold more.
    void stranded_days(const QString& file) {
        const QStringList texts = raw_pages(file);
        for (const papers::Block& block : document.blocks)
            if (const auto* table = std::get_if<papers::Table>(&block.content))
                for (const papers::Group& group : table->groups) stranded_days_of(group, texts);
    }

    void stranded_days_of(const papers::Group& group, const QStringList& texts) {
        const auto on_page = [&](const QString& page) {
            return std::ranges::count_if(group.rows, [&](const papers::Row& row) {
                return !row.front().strong.empty() &&
                       page.contains(without_spaces(QString::fromStdString(row.front().strong.front())));
            });
        };
        std::vector<std::pair<std::size_t, std::ptrdiff_t>> pages_with;
        for (qsizetype i = 0; i < texts.size(); ++i)
            if (const auto days = on_page(texts[i]); days > 0)
                pages_with.emplace_back(static_cast<std::size_t>(i), days);
        if (std::ssize(group.rows) < kFewDays || pages_with.size() < 2) return;
        // With all that stands behind the days, three of them may be too high for a page.
        const auto ends_here = [&](const papers::Block& block) {
            const auto* list = std::get_if<papers::List>(&block.content);
            return block.may_end && list &&
                   texts[static_cast<qsizetype>(pages_with.back().first)].contains(
                       without_spaces(QString::fromStdString(list->items.back())));
        };
        if (std::ranges::any_of(document.blocks, ends_here)) return;
        // Days of many doses are too high for three on a page.
        if (std::ranges::none_of(pages_with, [](const auto& with) { return with.second >= kFewDays; }))
            return;
        if (const auto& [page, days] = pages_with.back(); days < kFewDays)
            say(page, QStringLiteral("ends a step with %1 of its days").arg(days));
    }

    /// The head of a column to write in is upright: it is wide enough for it.
    void turned_notes() {
        for (const papers::Block& block : document.blocks)
            if (const auto* grid = std::get_if<papers::Grid>(&block.content))
                for (const papers::Column& column : grid->columns)
                    for (std::size_t i = 0; column.spare && i < pages.size(); ++i)
                        for (const PageWord& word : pages[i].words)
                            if (word.text.toStdString() == column.title &&
                                word.box.height() > word.box.width())
                                say(i, QStringLiteral("is turned: ") + word.text);
    }

    void broken_steps(const QString& file) {
        const QStringList texts = raw_pages(file);
        for (const std::vector<std::string>& whole : wholes_of(document))
            if (std::ranges::none_of(texts, [&](const QString& page) { return stands_whole(page, whole); }))
                faults.push_back("is broken between pages: " + whole.front());
    }
};

void take_cell(std::vector<std::string>& texts, const papers::Cell& cell) {
    texts.insert(texts.end(), cell.strong.begin(), cell.strong.end());
    for (const papers::DoseInCell& dose : cell.doses) {
        texts.insert(texts.end(), dose.lines.begin(), dose.lines.end());
        if (!dose.was.empty()) texts.push_back(dose.was);
    }
    texts.insert(texts.end(), cell.lines.begin(), cell.lines.end());
}

void for_each_cell(const papers::Document& document, const std::function<void(const papers::Cell&)>& visit) {
    for (const papers::Block& block : document.blocks) {
        const auto* table = std::get_if<papers::Table>(&block.content);
        if (!table) continue;
        for (const papers::Group& group : table->groups) {
            for (const papers::Cell& cell : group.lead) visit(cell);
            for (const papers::Row& row : group.rows)
                for (const papers::Cell& cell : row) visit(cell);
        }
    }
}

}  // namespace

std::vector<PageWords> words_of_pages(const QString& file) {
    QProcess process;
    process.start(QStringLiteral("pdftotext"), {QStringLiteral("-bbox"), file, QStringLiteral("-")});
    process.waitForFinished(30'000);
    std::vector<PageWords> pages;
    QXmlStreamReader reader(process.readAllStandardOutput());
    const auto number = [&](const char* name) {
        return reader.attributes().value(QString::fromLatin1(name)).toDouble();
    };
    while (!reader.atEnd()) {
        if (reader.readNext() != QXmlStreamReader::StartElement) continue;
        if (reader.name() == QStringLiteral("page"))
            pages.push_back({QSizeF(number("width"), number("height")), {}});
        if (reader.name() != QStringLiteral("word")) continue;
        const QRectF box(QPointF(number("xMin"), number("yMin")), QPointF(number("xMax"), number("yMax")));
        pages.back().words.push_back({reader.readElementText(), box});
    }
    return pages;
}

std::set<QString> words_of_document(const papers::Document& document, int pages) {
    std::set<QString> words{QStringLiteral("·"), QStringLiteral("———"), QStringLiteral("–")};
    papers::for_each_text(document, [&](papers::Role, const std::string& text) {
        take_words(words, QString::fromStdString(text));
        take_words(words, QString::fromStdString(text) + QStringLiteral(","));  // a sum in a stacked row
        take_words(words, QString::fromStdString(text) + QStringLiteral(":"));  // the title of a chart
    });
    // Many pieces are drawn as one, with their number beside it.
    words.insert(QStringLiteral("×"));
    for_each_cell(document, [&](const papers::Cell& cell) {
        for (const papers::DoseInCell& dose : cell.doses)
            for (const Piece& piece : dose.pieces) words.insert(QString::number(piece.count));
    });
    for (int page = 1; page <= pages; ++page)
        take_words(words,
                   QString::fromStdString(fill(document.footer.page, {{"page", std::to_string(page)},
                                                                      {"pages", std::to_string(pages)}})));
    return words;
}

std::vector<std::vector<std::string>> wholes_of(const papers::Document& document) {
    std::vector<std::vector<std::string>> wholes;
    constexpr std::size_t kSmallBox = 5;  // rows of a box to write in that stands on one page
    for (const papers::Block& block : document.blocks) {
        if (const auto* grid = std::get_if<papers::Grid>(&block.content))
            if (grid->rows.size() > 1 && grid->rows.size() < kSmallBox) wholes.push_back(grid->rows);
        const auto* table = std::get_if<papers::Table>(&block.content);
        if (!table) continue;
        for (const papers::Group& group : table->groups)
            for (const papers::Row& row : group.rows) {
                std::vector<std::string> texts;
                for (const papers::Cell& cell : row) take_cell(texts, cell);
                wholes.push_back(std::move(texts));
            }
    }
    return wholes;
}

QString words_of_last_part(const papers::Document& document, const QString& file) {
    const QString part = last_part(document);
    if (part.isEmpty()) return {};
    const QStringList pages = raw_pages(file);
    for (qsizetype i = 0; i < pages.size(); ++i)
        if (pages[i].contains(part)) return pages.mid(i).join(QString()).remove(u'-');
    return {};
}

std::vector<std::string> layout_faults(const papers::Document& document, const QString& file, bool large) {
    Checker checker{document, words_of_pages(file), large, {}};
    if (checker.pages.empty()) return {"no page can be read"};
    checker.edges();
    checker.overlaps();
    checker.broken_words();
    checker.empty_pages();
    checker.broken_steps(file);
    checker.small_words();
    checker.parted_units(file);
    checker.lone_headings(file);
    checker.pages_without_day(file);
    checker.stranded_days(file);
    checker.turned_notes();
    return std::move(checker.faults);
}

}  // namespace evenfall::ui
