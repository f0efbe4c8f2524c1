// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/response_card.h"

#include "casework/response_of.h"
#include "checkin/call_parts.h"
#include "controls/label.h"
#include "controls/why.h"
#include "shell/workbench.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

Weight weight_of(ResponseUrgency urgency) {
    if (urgency == ResponseUrgency::emergency) return Weight::danger;
    return urgency == ResponseUrgency::today ? Weight::presses : Weight::note;
}

void add_flags(QVBoxLayout& column, const Workbench& workbench, const QString& title,
               const std::vector<Flag>& flags, Weight weight) {
    if (flags.empty()) return;
    column.addWidget(new Label(title, Type::strong));
    for (const Flag& flag : flags) column.addWidget(new FlagRow(workbench, flag, weight));
}

}  // namespace

ResponseCard::ResponseCard(Workbench& workbench, QWidget* parent) : Card(parent), workbench_(workbench) {
    setAccessibleName(tr("How the last step is borne"));
}

void ResponseCard::refresh() {
    clear_layout(*body());
    const PatientRecord* record = workbench_.record();
    if (!record) return;
    const ResponseView view =
        response_of(*record, workbench_.course(), workbench_.desk().ground(), workbench_.now());
    body()->addWidget(new SectionHeader(tr("How the last step is borne"),
                                        tr("From calls, ratings and forms. Suggestions are for a clinician "
                                           "to judge; none is to go back up.")));
    for (const Suggestion& each : view.suggestions)
        add_flags(*body(), workbench_, sentence_word(each.act), each.because, weight_of(each.urgency));
    add_flags(*body(), workbench_, tr("Open to a prescriber, each with its cost"), view.decision,
              Weight::note);
    if (!view.steps.empty())
        add_flags(*body(), workbench_, tr("What the last rise looks like"), view.steps.back().says,
                  Weight::note);
    add_flags(*body(), workbench_, tr("What the steps so far teach"), view.sensitivity.says, Weight::note);
}

}  // namespace evenfall::ui
