// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPushButton>
#include <QTest>

#include <gtest/gtest.h>

#include "controls/typed_field.h"
#include "plan/plan_page.h"
#include "plan/steps_table.h"
#include "ui/plan/sample_bench.h"

namespace evenfall::ui {

using sample::Bench;

inline std::vector<Override> reasons_for_all(const SignRequest& request) {
    std::vector<Override> given;
    for (const Objection& objection : request.objections)
        given.push_back({objection.flag.rule, "agreed with the person"});
    return given;
}

class PlanPageTest : public testing::Test {
  protected:
    void open(Role role = Role::prescriber, bool with_regimen = true) {
        bench_ = std::make_unique<Bench>(role, with_regimen);
        page_ = std::make_unique<PlanPage>(*bench_->bench);
        page_->resize(900, 700);
        page_->show();
        settle();
    }

    void settle() {
        ASSERT_TRUE(QTest::qWaitFor([this] { return !page_->computing(); }, 20'000));
    }

    TypedField* field(const char* name) {
        for (auto* each : page_->findChildren<TypedField*>())
            if (each->edit()->accessibleName() == QLatin1String(name)) return each;
        return nullptr;
    }

    void type_into(const char* name, const char* text) {
        TypedField* found = field(name);
        ASSERT_TRUE(found && found->isVisible());
        found->edit()->selectAll();
        QTest::keyClicks(found->edit(), QString::fromLatin1(text));
        settle();
    }

    /// Signs what is to sign, with a reason for everything that stands against it.
    void sign() {
        page_->ask_to_sign = [](const SignRequest& request) {
            return std::optional(reasons_for_all(request));
        };
        page_->sign_button()->click();
        settle();
    }

    void on_day(Day day) {
        bench_->today = day;
        page_->refresh();
        settle();
    }

    void plan_8_of_10() {
        type_into("Target, share of the current dose, percent", "8");
        type_into("Cap, share of the current dose, percent", "10");
    }

    std::unique_ptr<Bench> bench_;
    std::unique_ptr<PlanPage> page_;
};

}  // namespace evenfall::ui
