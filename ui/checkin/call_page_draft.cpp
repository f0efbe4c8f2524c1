// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPushButton>
#include <QScrollArea>

#include "checkin/call_page.h"
#include "checkin/call_parts.h"
#include "checkin/day_strip.h"
#include "checkin/older_call.h"
#include "controls/card.h"
#include "controls/label.h"
#include "controls/messages.h"
#include "texts/render.h"

namespace evenfall::ui {

/// What was answered is sealed away at once. What was taken out again does not come back.
void CallPage::keep() {
    typing_.stop();
    if (shown_.empty() || filling_) return;
    form_.beside = beside_.unwritten();
    form_.beside.insert(set_aside_.begin(), set_aside_.end());
    std::string text = form_.empty() && form_.beside.empty() ? std::string() : print_call(form_);
    if (text == kept_) return;
    Desk& desk = workbench().desk();
    const auto done = text.empty() ? desk.drop_draft(shown_, kDraft) : desk.put_draft(shown_, kDraft, text);
    if (done)
        kept_ = std::move(text);
    else if (workbench().show_faults)
        workbench().show_faults(done.faults());
}

void CallPage::take_up() {
    form_ = {};
    kept_.clear();
    day_kept_ = false;
    asked_back_ = false;
    asks_back_->hide();
    set_aside_.clear();
    draft_->setText({});
    for (QGridLayout* grid : {symptom_grid_, function_grid_}) clear_layout(*grid);
    symptoms_.clear();
    functions_.clear();
    const auto kept = workbench().desk().read_draft(shown_, kDraft);
    if (!kept) {
        if (workbench().show_faults) workbench().show_faults(kept.faults());
        return;
    }
    if (!kept->has_value() || (*kept)->empty()) return;
    auto read = read_call(**kept);
    if (!read) {
        if (workbench().show_faults) workbench().show_faults(read.faults());
        return;
    }
    form_ = std::move(*read);
    kept_ = **kept;
    std::erase_if(form_.beside, [this](const auto& each) {
        return each.first.starts_with(kSetAside) && set_aside_.insert(each).second;
    });
    tell_draft({});
    if (!form_.empty())
        tell_draft(tr("Taken up again: the call begun on %1 at %2, not saved yet.")
                       .arg(text_with_weekday(day_of(form_.begun), workbench().today()),
                            text_of(clock_of(form_.begun))));
}

/// Whether it is not clear on which day the answers were given.
bool CallPage::is_of_another_day() {
    return !day_kept_ && !form_.empty() && day_of(form_.begun) != workbench().today();
}

/// Until it is known what becomes of a call of another day, its talk takes no answer.
void CallPage::show_older() {
    const bool older = is_of_another_day();
    const bool had_focus = scroll_->isAncestorOf(focusWidget());
    if (older) {
        const QString day = text_with_weekday(day_of(form_.begun), workbench().today());
        older_->tell(tr("%1 at %2").arg(day, text_of(clock_of(form_.begun))), day);
        draft_->setVisible(!set_aside_.empty());
    }
    older_->setVisible(older);
    scroll_->setEnabled(!older);
    findChild<QPushButton*>(QStringLiteral("anew"))->setVisible(!older && !form_.empty());
    setFocusProxy(older ? static_cast<QWidget*>(older_->first()) : strip_);
    if (older && had_focus) setFocus();
}

void CallPage::go_on_today() {
    const QString day = text_with_weekday(day_of(form_.begun), workbench().today());
    form_ = gone_on(std::move(form_), asks_.dangers, workbench().now());
    tell_draft(tr("Goes on from the call begun on %1, dated today.").arg(day));
    keep();
    refresh();
    setFocus();
}

void CallPage::keep_its_day() {
    day_kept_ = true;
    tell_draft(
        tr("This call keeps its day: %1.").arg(text_with_weekday(day_of(form_.begun), workbench().today())));
    refresh();
    setFocus();
}

/// A danger that was told stays in the record: only what was typed of the call is thrown away.
void CallPage::begin_anew() {
    const PatientId asked_of = shown_;
    QString words = tr("What was answered and typed of this call is thrown away.");
    if (!form_.dangers_written.empty())
        words +=
            tr(" The danger that was told stays in the record, and stands until a call asks and hears no.");
    if (!ask_once(tr("Begin this call anew?"), words, tr("Begin anew"), this) || shown_ != asked_of) return;
    start_over();
    setFocus();
}

/// The next call of the same person: what stands in the cards beside the talk stays.
void CallPage::start_over() {
    form_ = {};
    keep();
    take_up();
    refresh();
}

}  // namespace evenfall::ui
