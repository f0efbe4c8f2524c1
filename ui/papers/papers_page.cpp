// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/papers_page.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QListWidget>
#include <QPrintDialog>
#include <QPrinter>
#include <QScrollArea>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

#include "casework/paper_entry.h"
#include "casework/record_check.h"
#include "controls/buttons.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/language_choice.h"
#include "controls/messages.h"
#include "papers/missing_panel.h"
#include "papers/paper_check.h"
#include "papers/write_pdf.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr int kLeftWidth = 250;

QString title_of(Paper paper) {
    switch (paper) {
        case Paper::schedule:
            return QObject::tr("Schedule");
        case Paper::caution:
            return QObject::tr("Caution sheet");
        case Paper::pharmacy:
            return QObject::tr("Pharmacy summary");
        case Paper::letter:
            return QObject::tr("Letter to the care team");
        case Paper::diary:
            return QObject::tr("Blank diary");
        case Paper::call:
            return QObject::tr("Call guide");
        case Paper::card:
            return QObject::tr("Card for hospital and emergency");
        case Paper::report:
            return QObject::tr("Stabilization report");
    }
    return {};
}

QToolButton* small_button(const QString& text, const QString& name) {
    auto* button = new QToolButton;
    button->setText(text);
    button->setToolTip(name);
    button->setAccessibleName(name);
    button->setMinimumSize(kTarget, kTarget);
    return button;
}

}  // namespace

PapersPage::PapersPage(Workbench& workbench, QWidget* parent) : Page(workbench, parent) {
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(kSpace4, kSpace4, kSpace4, kSpace4);
    row->setSpacing(kSpace4);
    row->addWidget(make_left());
    row->addWidget(make_right(), 1);
    ask_for_file = [this](const QString& suggested) {
        return QFileDialog::getSaveFileName(this, tr("Save the paper as PDF"), suggested, tr("PDF (*.pdf)"),
                                            nullptr, QFileDialog::DontConfirmOverwrite);
    };
    ask_to_replace = [this](const QString& path) {
        return ask_once(tr("Replace %1?").arg(QFileInfo(path).fileName()),
                        tr("A file of this name is there. What it holds is lost."), tr("Replace it"), this);
    };
    print = [this](const PaperPainter& paper) {
        QPrinter printer(QPrinter::HighResolution);
        printer.setPageLayout(paper.page_layout());
        QPrintDialog dialog(&printer, this);
        dialog.setMinMax(1, paper.page_count());
        if (dialog.exec() != QDialog::Accepted) return false;
        const auto printed = print_paper(paper, printer);
        if (!printed) show_faults(printed.faults());
        return printed.ok();
    };
}

QWidget* PapersPage::make_left() {
    auto* left = new QWidget;
    auto* column = new QVBoxLayout(left);
    column->setContentsMargins(0, 0, kSpace2, 0);
    column->setSpacing(kSpace3);
    list_ = new QListWidget;
    setFocusProxy(list_);
    list_->setAccessibleName(tr("Papers"));
    for (const auto& [paper, name] : Words<Paper>::table) list_->addItem(title_of(paper));
    list_->setCurrentRow(0);
    list_->setFixedHeight(list_->sizeHintForRow(0) * list_->count() + 2 * list_->frameWidth() + kSpace2);
    list_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    column->addWidget(list_);
    language_ = make_language_choice(tr("Language"));
    size_ = make_choice(tr("Page size"), {tr("A4"), tr("Letter")});
    add_field(*column, tr("Language"), language_);
    add_field(*column, tr("Page size"), size_);
    large_ = new QCheckBox(tr("Large print, 18 points"));
    column->addWidget(large_);
    print_ = make_button(tr("Print…"), ButtonKind::primary);
    pdf_ = make_button(tr("Save PDF…"));
    column->addWidget(print_);
    column->addWidget(pdf_);
    check_ = new PaperCheck(workbench());
    column->addWidget(check_);
    column->addStretch(1);
    connect(list_, &QListWidget::currentRowChanged, this, [this] {
        preview_->show_page(0);
        make();
    });
    connect(language_, &QComboBox::currentIndexChanged, this, [this] { make(); });
    connect(size_, &QComboBox::currentIndexChanged, this, [this] { make(); });
    connect(large_, &QCheckBox::toggled, this, [this] { make(); });
    connect(print_, &QPushButton::clicked, this, [this] { print_now(); });
    connect(pdf_, &QPushButton::clicked, this, [this] { save_pdf(); });
    auto* scroll = new QScrollArea;
    scroll->setFixedWidth(kLeftWidth);
    scroll->setFocusPolicy(Qt::NoFocus);  // its fields take the keys
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setWidget(left);
    connect(check_, &PaperCheck::answered, scroll, [scroll](QWidget* words) {
        scroll->widget()->layout()->activate();
        scroll->ensureWidgetVisible(words);
    });
    return scroll;
}

QWidget* PapersPage::make_right() {
    auto* right = new QWidget;
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(kSpace2);
    in_the_way_ = new FaultPanel;
    in_the_way_->hide();
    column->addWidget(in_the_way_);
    missing_ = new MissingPanel;
    missing_->hide();
    missing_->save_numbers = [this](const Clinic& clinic) { workbench().carry_out_for_clinic({clinic}); };
    missing_->open_plan = [this] { emit workbench().page_wanted(QStringLiteral("plan")); };
    column->addWidget(missing_);
    preview_ = new PaperPreview;
    bar_ = make_preview_bar();
    column->addWidget(bar_);
    column->addWidget(preview_, 1);
    column->addStretch(0);
    connect(preview_, &PaperPreview::page_changed, this, [this] { show_state(); });
    return right;
}

QWidget* PapersPage::make_preview_bar() {
    auto* bar = new QWidget;
    auto* row = new QHBoxLayout(bar);
    row->setContentsMargins(0, 0, 0, 0);
    back_ = small_button(QStringLiteral("‹"), tr("Page before"));
    forth_ = small_button(QStringLiteral("›"), tr("Next page"));
    page_of_ = new Label;
    auto* smaller = small_button(QStringLiteral("−"), tr("Smaller"));
    auto* fit = small_button(tr("Fit"), tr("Fit the width"));
    auto* larger = small_button(QStringLiteral("+"), tr("Larger"));
    connect(back_, &QToolButton::clicked, this, [this] { preview_->show_page(preview_->page() - 1); });
    connect(forth_, &QToolButton::clicked, this, [this] { preview_->show_page(preview_->page() + 1); });
    connect(smaller, &QToolButton::clicked, this, [this] { preview_->set_zoom(preview_->zoom() / 1.2); });
    connect(fit, &QToolButton::clicked, this, [this] { preview_->set_zoom(0); });
    connect(larger, &QToolButton::clicked, this, [this] { preview_->set_zoom(preview_->zoom() * 1.2); });
    row->addWidget(back_);
    row->addWidget(page_of_);
    row->addWidget(forth_);
    row->addStretch(1);
    for (QWidget* control : {smaller, fit, larger}) row->addWidget(control);
    return bar;
}

void PapersPage::choose(Paper paper) {
    list_->setCurrentRow(static_cast<int>(paper));
}

Paper PapersPage::chosen() const {
    return static_cast<Paper>(std::max(0, list_->currentRow()));
}

const Texts* PapersPage::texts_in(const std::string& language) {
    const auto found = texts_.find(language);
    if (found != texts_.end()) return &found->second;
    auto loaded = Texts::load(resources_folder(), language);
    if (!loaded) {
        show_faults(loaded.faults());
        return nullptr;
    }
    return &texts_.emplace(language, std::move(*loaded)).first->second;
}

void PapersPage::refresh() {
    const PatientRecord* record = workbench().record();
    source_.reset();
    if (!record) {
        preview_->set_paper(std::nullopt);
        return;
    }
    const Desk& desk = workbench().desk();
    source_ = papers::source_from_record(*record, desk.clinic(), desk.formulary(), desk.rules(),
                                         desk.scales(), workbench().today());
    if (shown_for_ != workbench().patient()) {
        shown_for_ = workbench().patient();
        const QSignalBlocker quiet(language_);
        choose_language(*language_, source_->person.language);
        preview_->show_page(0);
    }
    check_->refresh();
    make();
}

/// The check that the report prints: of the days that the Stabilization page judges unless told otherwise.
void PapersPage::judge() {
    const PatientRecord* record = workbench().record();
    if (!record || source_->judged) return;
    const Desk& desk = workbench().desk();
    source_->made_by = desk.worker().name;
    papers::take_check(*source_, *record, desk.rules(), Zone::of_machine(), workbench().now(),
                       usual_judged_days(desk.rules()));
}

void PapersPage::make() {
    if (!source_) return;
    const Texts* texts = texts_in(chosen_language(*language_));
    if (!texts) return preview_->set_paper(std::nullopt);
    if (chosen() == Paper::report) judge();
    const auto document = papers::make_paper(chosen(), *source_, *texts);
    if (!document) {
        preview_->set_paper(std::nullopt);
        show_missing(document.faults());
        return;
    }
    const PaperOptions options{size_->currentIndex() == 1 ? PaperSize::letter : PaperSize::a4,
                               large_->isChecked()};
    auto paper = PaperPainter::set(*document, options);
    if (!paper) {
        preview_->set_paper(std::nullopt);
        show_faults(paper.faults());
        return;
    }
    preview_->set_paper(std::move(*paper));
    show_faults({});
}

/// What is missing before the paper can be made: nothing has gone wrong yet.
void PapersPage::show_missing(const Faults& faults) {
    faults_ = faults;
    in_the_way_->hide();
    missing_->show_missing(faults, workbench().texts(), workbench().desk().clinic());
    show_state();
}

void PapersPage::show_faults(const Faults& faults) {
    faults_ = faults;
    std::vector<std::pair<QString, QString>> lines;
    for (const Fault& fault : faults)
        lines.emplace_back(QString(), QString::fromStdString(workbench().texts().text(fault.id, fault.args)));
    in_the_way_->show_faults(lines);
    in_the_way_->setVisible(!faults.empty());
    show_state();
}

void PapersPage::show_state() {
    const auto& paper = preview_->paper();
    const int pages = paper ? paper->page_count() : 0;
    preview_->setVisible(paper.has_value());
    bar_->setVisible(paper.has_value());
    missing_->setVisible(!paper && !faults_.empty() && !in_the_way_->isVisibleTo(this));
    page_of_->setText(paper ? tr("Page %1 of %2").arg(preview_->page() + 1).arg(pages) : QString());
    back_->setEnabled(paper && preview_->page() > 0);
    forth_->setEnabled(paper && preview_->page() + 1 < pages);
    for (QPushButton* button : {print_, pdf_})
        set_reason_disabled(button, paper ? QString() : tr("Something is missing for this paper."));
}

void PapersPage::save_pdf() {
    if (!preview_->paper()) return;
    // Named for whom it is: the papers of two people keep out of each other's way.
    const QString suggested = file_name_of(source_->person.reference) + QLatin1Char('-') +
                              QString::fromStdString(word(chosen())) + QStringLiteral(".pdf");
    const QString path = ask_for_file(suggested);
    if (path.isEmpty()) return;
    auto written = write_pdf(*preview_->paper(), path, false);
    if (!written && written.faults().front().id == "paper-file-exists") {
        if (!ask_to_replace(path)) return;
        written = write_pdf(*preview_->paper(), path, true);
    }
    if (!written) return show_faults(written.faults());
    show_faults({});
    note_issued();
}

void PapersPage::print_now() {
    if (preview_->paper() && print(*preview_->paper())) note_issued();
}

void PapersPage::note_issued() {
    if (!source_) return;
    const auto entry =
        paper_entry({word(chosen()), papers::code_of(*source_), source_->plan_id, workbench().today(), {}},
                    papers::valid_through(*source_));
    if (entry) workbench().carry_out({*entry});
}

}  // namespace evenfall::ui
