// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/morning_list.h"

#include <QFileDialog>
#include <QHBoxLayout>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QVBoxLayout>

#include "controls/buttons.h"
#include "controls/messages.h"
#include "papers/preview.h"
#include "papers/write_pdf.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

constexpr int kLeastWidth = 720;
constexpr int kLeastHeight = 480;

papers::MorningLine line_of(Workbench& workbench, const CaseloadLine& line) {
    papers::MorningLine listed;
    listed.reference = line.reference;
    listed.name = line.name;
    listed.phone = line.phone;
    listed.urgent = line.reasons.front().urgency == Urgency::red_flag;
    for (const Reason& reason : line.reasons)
        if (reason.urgency != Urgency::steady)
            listed.reasons.push_back(to_utf8(workbench.caption(reason.flag)));
    if (!line.drug.empty())
        listed.dose = to_utf8(QObject::tr("%1 %2 a day").arg(to_text(line.drug), text_of(line.daily)));
    listed.safe_times = line.safe_times;
    return listed;
}

class MorningDialog : public QuietDialog {
  public:
    MorningDialog(Workbench& workbench, PaperPainter paper, QWidget* parent)
        : QuietDialog(QObject::tr("Morning list"),
                      QObject::tr("It names many people: it stays in the clinic and is shredded tonight."),
                      parent),
          workbench_(workbench),
          preview_(new PaperPreview) {
        // The page fits its view, and the dialog is never made narrower than its words can be read at.
        setMinimumWidth(kLeastWidth);
        preview_->setMinimumHeight(kLeastHeight);
        preview_->set_paper(std::move(paper));
        preview_->setAccessibleName(QObject::tr("The morning list, page by page"));
        body()->addWidget(preview_, 1);
        auto* row = new QHBoxLayout;
        auto* pdf = make_button(QObject::tr("Save as PDF"));
        connect(pdf, &QPushButton::clicked, this, [this] { save(); });
        row->addWidget(pdf);
        row->addStretch();
        body()->addLayout(row);
        set_buttons(QObject::tr("Print"), QObject::tr("Leave"));
    }
    void accept() override {
        QPrinter printer(QPrinter::HighResolution);
        printer.setPageLayout(preview_->paper()->page_layout());
        QPrintDialog dialog(&printer, this);
        if (dialog.exec() != QDialog::Accepted) return;
        const auto printed = print_paper(*preview_->paper(), printer);
        if (printed) return QuietDialog::accept();
        if (workbench_.show_faults) workbench_.show_faults(printed.faults());
    }

  private:
    void save() {
        const QString path =
            QFileDialog::getSaveFileName(this, QObject::tr("Save the paper as PDF"),
                                         QStringLiteral("morning.pdf"), QObject::tr("PDF (*.pdf)"));
        if (path.isEmpty()) return;
        const auto written = write_pdf(*preview_->paper(), path, true);
        if (!written && workbench_.show_faults) workbench_.show_faults(written.faults());
    }

    Workbench& workbench_;
    PaperPreview* preview_;
};

}  // namespace

papers::MorningList morning_list(Workbench& workbench, const std::vector<CaseloadLine>& lines,
                                 int unreadable) {
    papers::MorningList list;
    list.unreadable = unreadable;
    list.clinic = workbench.desk().clinic();
    list.day = workbench.today();
    list.made_by = workbench.desk().worker().name;
    list.parts = papers::PartsOfDay::from(workbench.desk().rules());
    for (const CaseloadLine& line : lines)
        if (line.standing == CareStanding::in_care && line.reasons.front().urgency != Urgency::steady)
            list.lines.push_back(line_of(workbench, line));
    return list;
}

void show_morning_list(Workbench& workbench, const std::vector<CaseloadLine>& lines, int unreadable,
                       QWidget* parent) {
    const auto document = papers::make_morning(morning_list(workbench, lines, unreadable), workbench.texts());
    if (!document) {
        if (workbench.show_faults) workbench.show_faults(document.faults());
        return;
    }
    auto paper = PaperPainter::set(*document, {PaperSize::a4, false});
    if (!paper) {
        if (workbench.show_faults) workbench.show_faults(paper.faults());
        return;
    }
    MorningDialog dialog(workbench, std::move(*paper), parent);
    dialog.exec();
}

}  // namespace evenfall::ui
