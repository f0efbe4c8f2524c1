// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "checkin/call_page.h"
#include "course/course_page.h"
#include "diary/diary_page.h"
#include "papers/papers_page.h"
#include "plan/plan_page.h"
#include "record/record_page.h"
#include "shell/main_window.h"
#include "stabilization/stabilization_page.h"

namespace evenfall::ui {

template <class MadePage>
PageMaker page_maker(const char* id, const char* title, bool wide = false) {
    return {QString::fromLatin1(id), QString::fromLatin1(title),
            [](Workbench& workbench, QWidget* parent) -> Page* { return new MadePage(workbench, parent); },
            wide};
}

/// The pages of the program's window.
inline std::vector<PageMaker> every_page() {
    return {page_maker<CoursePage>("course", "Course"),
            page_maker<DiaryPage>("diary", "Diary"),
            page_maker<StabilizationPage>("stabilization", "Stabilization"),
            page_maker<PlanPage>("plan", "Plan", true),
            page_maker<RecordPage>("record", "Record"),
            page_maker<PapersPage>("papers", "Papers"),
            page_maker<CallPage>("call", "Call")};
}

/// A desk with its workbench and its window, as the program keeps them together.
struct Place {
    Place(Desk desk, std::function<LocalTime()> now)
        : workbench(std::make_unique<Workbench>(
              std::move(desk), std::move(Texts::load(resources_folder(), "en").value()), std::move(now))),
          window(std::make_unique<MainWindow>(*workbench, every_page())) {}

    std::unique_ptr<Workbench> workbench;
    std::unique_ptr<MainWindow> window;
};

}  // namespace evenfall::ui
