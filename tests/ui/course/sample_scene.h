// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "course/scene.h"

namespace evenfall::ui::sample {

using std::chrono::days;

inline const Product kTwo{"diazepam", Form::tablet, Dose::milligrams(2), Cuts::quarters, {}};

inline Stretch stretch(Stretch::Kind kind, int step, Day from, int length, Dose daily) {
    Stretch made;
    made.kind = kind;
    made.step = step;
    made.from = from;
    made.to = from + days(length);
    made.daily = daily;
    if (!daily.is_zero()) {
        made.doses = {{ClockTime{8 * 60}, "diazepam", Dose::nanograms(daily.ng() / 2), {}},
                      {ClockTime{22 * 60}, "diazepam", Dose::nanograms(daily.ng() / 2), {}}};
    }
    return made;
}

/// An invented course of diazepam: before, five steps done, today's, a hold, two signed, an outlook down to
/// OFF.
inline CourseScene scene(Day today = day_at(2026, 11, 24)) {
    CourseScene scene;
    scene.today = today;
    Course& course = scene.course;
    course.drug = "diazepam";
    Day from = day_at(2026, 9, 7) - days(21);
    const auto add = [&](Stretch::Kind kind, int step, int length, std::int64_t micrograms) {
        course.stretches.push_back(stretch(kind, step, from, length, Dose::micrograms(micrograms)));
        from += days(length);
    };
    add(Stretch::Kind::before, 0, 21, 30'000);
    add(Stretch::Kind::past, 1, 14, 29'000);
    add(Stretch::Kind::past, 2, 14, 27'000);
    add(Stretch::Kind::past, 3, 14, 25'000);
    add(Stretch::Kind::hold, 3, 14, 25'000);
    add(Stretch::Kind::past, 4, 14, 22'500);
    course.current = course.stretches.size();
    add(Stretch::Kind::today, 5, 14, 20'500);
    course.signed_through = from + days(14) - days(1);
    add(Stretch::Kind::committed, 6, 14, 19'000);
    int step = 7;
    for (const std::int64_t amount :
         {17'500, 16'000, 15'000, 14'000, 13'000, 12'000, 11'000, 10'000, 9'500, 9'000, 8'500, 8'000, 7'500,
          7'000,  6'500,  6'000,  5'500,  5'000,  4'500,  4'000,  3'500,  3'000, 2'500, 2'000, 1'500, 1'000})
        add(Stretch::Kind::outlook, step++, 14, amount);
    add(Stretch::Kind::off, step, 60, 0);
    course.stretches.back().to.reset();
    course.stretches.back().kind = Stretch::Kind::off;
    course.daily_today = Dose::micrograms(20'500);

    for (const Stretch& each : course.stretches)
        for (Day day = each.from; each.kind != Stretch::Kind::before && day < today && day < *each.to;
             day += days(1))
            course.taken.push_back({day, each.daily, each.daily});
    if (course.taken.size() > 50) {
        course.taken[45].total = Dose::micrograms(16'000);
        course.taken[50].total = Dose();
    }

    const ContactMark::Kind kinds[] = {ContactMark::Kind::check_in,  ContactMark::Kind::paper,
                                       ContactMark::Kind::signature, ContactMark::Kind::check_in,
                                       ContactMark::Kind::supply,    ContactMark::Kind::note,
                                       ContactMark::Kind::check_in,  ContactMark::Kind::regimen};
    Day on = day_at(2026, 8, 20);
    for (int i = 0; on <= today; ++i, on += days(i % 3 == 0 ? 2 : 6))
        course.contacts.push_back({kinds[i % 8], on, {}, {}});
    course.contacts.push_back({ContactMark::Kind::planned, today + days(2), {}, {}});
    scene.contact_texts.assign(course.contacts.size(), QStringLiteral("as agreed"));

    const std::pair<const char*, int> items[] = {
        {"anxiety", 3}, {"sleep", 4}, {"restlessness", 1}, {"muscle tension", 2}};
    for (const auto& [item, base] : items) {
        SymptomRow row{QString::fromUtf8(item), {}};
        int turn = base;
        for (Day day = day_at(2026, 8, 24); day < today; day += days(1 + turn % 2)) {
            turn = (turn * 7 + 3) % 11;
            row.ratings.push_back({at_clock(day, ClockTime{20 * 60}), item, std::min(10, base + turn % 4)});
        }
        scene.symptoms.push_back(std::move(row));
    }
    return scene;
}

}  // namespace evenfall::ui::sample
