// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "controls/typed_field.h"
#include "course/day_words.h"
#include "plan/adjust_dialog.h"
#include "plan/product_list.h"
#include "planning/adjust.h"

// What stands in the fields of an adjustment, as a draft of the form with its words for the record, and the
// plan that it makes.

namespace evenfall::ui {

/// A pace that is no slower than now is said so at the field.
bool AdjustDialog::read_pace(Draft& draft) const {
    const PlanRequest& now = ground_.job.request;
    if (!days_->number() || !share_->share()) return false;
    draft.job.request.days_per_step = *days_->number();
    draft.job.request.target = *share_->share();
    draft.form.days = days_->typed();
    draft.form.target = share_->typed();
    draft.words = tr("Slower pace, %1 % every %2 days instead of %3 % every %4")
                      .arg(share_->typed(), days_->typed(), ground_.form.target, ground_.form.days);
    return draft.job.request.days_per_step >= now.days_per_step && draft.job.request.target <= now.target &&
           (draft.job.request.days_per_step != now.days_per_step || draft.job.request.target != now.target);
}

bool AdjustDialog::read_fresh(Draft& draft) const {
    if (!days_->number() || !day_->day()) return false;
    FreshStart fresh{{}, *day_->day()};
    auto field = doses_.begin();
    for (DoseTime dose : ground_.base.now.doses) {
        if (dose.drug == ground_.job.request.drug) {
            const auto amount = (field++)->edit->dose();
            if (!amount) return false;
            dose.amount = *amount;
        }
        if (!dose.amount.is_zero()) fresh.now.doses.push_back(dose);
    }
    draft.form.from_now = fresh;
    draft.form.crossing.reset();
    draft.words =
        tr("Planned anew from %1 a day, taken since %2, after %3 days without")
            .arg(amount_text(daily_amount(fresh.now, ground_.job.request.drug)), full_day(fresh.since))
            .arg(*days_->number());
    draft.fresh = std::move(fresh);
    return true;
}

std::optional<AdjustDialog::Draft> AdjustDialog::read() const {
    Draft draft{ground_.form, ground_.job, {}, {}, {}};
    // What was set by hand belonged to the plan as it was before.
    draft.form.by_hand.clear();
    draft.job.by_hand.clear();
    bool fits = true;
    switch (act_) {
        case PlanAct::slower:
            fits = read_pace(draft);
            break;
        case PlanAct::smaller_next:
            draft.next_cut = share_->share();
            draft.words = tr("Smaller next cut, %1 %").arg(share_->typed());
            fits = draft.next_cut.has_value();
            break;
        case PlanAct::move_next:
            if ((fits = day_->day().has_value())) draft.job.request.start = *day_->day();
            draft.form.start = day_->typed();
            draft.words = tr("Next reduction on %1 instead of %2")
                              .arg(full_day(draft.job.request.start), full_day(ground_.job.request.start));
            fits = fits && draft.job.request.start != ground_.job.request.start;
            break;
        case PlanAct::products: {
            draft.form.products = products_->checked();
            fits = draft.form.products != ground_.form.products;
            std::erase_if(draft.job.input.products,
                          [&](const Product& product) { return product.drug == ground_.job.request.drug; });
            QStringList names;
            for (const Product& product : draft.form.products) {
                draft.job.input.products.push_back(product);
                names << to_text(product_name(product));
            }
            draft.words = tr("Other products: %1").arg(names.join(QStringLiteral(", ")));
            break;
        }
        case PlanAct::lower_end:
            draft.job.request.end_amount = end_->dose();
            draft.job.request.last_dose.reset();
            draft.form.end = 1;
            draft.form.end_amount = end_->typed();
            draft.words = tr("Down to a maintenance dose of %1 mg a day").arg(end_->typed());
            fits = end_->dose().has_value();
            break;
        default:
            fits = read_fresh(draft);
            break;
    }
    return fits ? std::optional(std::move(draft)) : std::nullopt;
}

AdjustDialog::Made AdjustDialog::make(const Draft& draft, const Plan& plan, const Rules& rules,
                                      std::stop_token stop) {
    if (draft.fresh)
        return {plan_from_now(plan, draft.fresh->now, draft.fresh->since, draft.job.input, rules, stop)};
    PlanJob job = draft.job;
    std::optional<HandStep> hand;
    if (draft.next_cut) {
        const auto smaller = smaller_next(job, *draft.next_cut, rules, stop);
        if (!smaller) return {smaller.faults()};
        hand = *smaller;
        job.by_hand[job.keep] = *hand;
    }
    return {compute_plan(job, rules, stop), hand};
}

}  // namespace evenfall::ui
