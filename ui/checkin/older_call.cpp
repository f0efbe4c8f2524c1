// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/older_call.h"

#include <QHBoxLayout>
#include <QPushButton>

#include "controls/buttons.h"
#include "controls/label.h"

namespace evenfall::ui {

OlderCallCard::OlderCallCard(QWidget* parent)
    : Card(parent),
      title_(new Label({}, Type::heading)),
      words_(new Label),
      go_on_(make_button(tr("Go on, dated today"), ButtonKind::primary)),
      keep_day_(make_button(QString())),
      anew_(make_button(tr("Begin anew"))) {
    set_meaning(Tone::presses_fill, Tone::presses);
    setAccessibleName(tr("A call of an earlier day"));
    body()->addWidget(title_->wrapped());
    body()->addWidget(words_->wrapped());
    auto* row = new QHBoxLayout;
    for (QPushButton* each : {go_on_, keep_day_, anew_}) row->addWidget(each);
    row->addStretch();
    body()->addLayout(row);
    connect(go_on_, &QPushButton::clicked, this, &OlderCallCard::go_on);
    connect(keep_day_, &QPushButton::clicked, this, &OlderCallCard::keep_day);
    connect(anew_, &QPushButton::clicked, this, &OlderCallCard::begin_anew);
    hide();
}

void OlderCallCard::tell(const QString& when, const QString& day) {
    title_->setText(tr("A call begun on %1 was never saved").arg(when));
    words_->setText(tr("Going on today keeps the ratings, the words and what was said of the days before %1. "
                       "The questions that are never left out, the days from %1 and what is left at home are "
                       "asked again. A danger that was told stands in the record since it was said.")
                        .arg(day));
    keep_day_->setText(tr("It was finished then: keep %1").arg(day));
}

}  // namespace evenfall::ui
