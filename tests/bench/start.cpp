// SPDX-License-Identifier: GPL-3.0-or-later
#include <QApplication>
#include <QEvent>
#include <QMainWindow>
#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "app/window.h"

// From the start of a process to its first paint, and the memory that is resident then: an empty main window,
// the demo caseload, and the demo caseload with somebody's course. Each is a process of its own, in turns, on
// the platform that QT_QPA_PLATFORM names.

namespace {

using namespace evenfall;

constexpr std::array<const char*, 3> kKinds = {"empty", "caseload", "course"};
constexpr int kRounds = 15;

double seconds_now() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

/// Reports on descriptor 3 when the window in front was painted, and leaves at once.
class FirstPaint : public QObject {
  public:
    bool eventFilter(QObject* painted, QEvent* event) override {
        const auto* widget = qobject_cast<QWidget*>(painted);
        if (event->type() != QEvent::UpdateRequest || !widget || !widget->isWindow()) return false;
        qApp->removeEventFilter(this);
        QCoreApplication::sendEvent(painted, event);  // the paint itself
        rusage used{};
        getrusage(RUSAGE_SELF, &used);
        dprintf(3, "%.9f %ld\n", seconds_now(), used.ru_maxrss);
        _exit(0);
    }
};

/// Somebody with a signed plan and a diary.
PatientId someone(Desk& desk) {
    for (const PatientId& patient : desk.patients()) {
        const auto record = desk.record(patient);
        if (record && !(*record)->plans.empty() && !(*record)->intake.empty()) return patient;
    }
    return {};
}

int child(std::string_view kind, int argc, char** argv) {
    std::future<std::optional<app::Demo>> loading;
    if (kind != "empty") loading = app::begin_demo(app::machine_time());
    QApplication application(argc, argv);
    FirstPaint paint;
    if (kind == "empty") {
        QMainWindow window;
        window.resize(1440, 900);
        application.installEventFilter(&paint);
        window.show();
        return QApplication::exec();
    }
    app::prepare_application();
    auto demo = loading.get();
    if (!demo) return 1;
    app::Workplace place(std::move(demo->desk), std::move(demo->resources.texts), app::machine_time);
    if (kind == "course") place.workbench().select(someone(place.workbench().desk()));
    application.installEventFilter(&paint);
    place.window().show();
    return QApplication::exec();
}

struct Start {
    double milliseconds = 0;
    double megabytes = 0;
};

Start start(const char* self, const char* kind) {
    std::array<int, 2> ends{};
    if (pipe(ends.data()) != 0) std::abort();
    const double began = seconds_now();
    const pid_t process = fork();
    if (process == 0) {
        dup2(ends[1], 3);
        execl(self, self, kind, nullptr);
        _exit(127);
    }
    close(ends[1]);
    double painted = 0;
    long kilobytes = 0;
    FILE* said = fdopen(ends[0], "r");
    const int read = fscanf(said, "%lf %ld", &painted, &kilobytes);
    fclose(said);
    waitpid(process, nullptr, 0);
    if (read != 2) std::abort();
    return {(painted - began) * 1000, static_cast<double>(kilobytes) / 1024};
}

double median(std::vector<double> values) {
    std::ranges::nth_element(values, values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2));
    return values[values.size() / 2];
}

}  // namespace

int main(int argc, char** argv) {
    if (argc > 1) return child(argv[1], argc, argv);
    std::array<std::vector<double>, kKinds.size()> times, sizes;
    for (int round = 0; round < kRounds; ++round)
        for (std::size_t kind = 0; kind < kKinds.size(); ++kind) {
            const Start measured = start(argv[0], kKinds[kind]);
            times[kind].push_back(measured.milliseconds);
            sizes[kind].push_back(measured.megabytes);
        }
    for (std::size_t kind = 0; kind < kKinds.size(); ++kind)
        std::printf("%-9s %6.1f ms (%.2f of empty)   %5.1f MB (%.2f of empty)\n", kKinds[kind],
                    median(times[kind]), median(times[kind]) / median(times[0]), median(sizes[kind]),
                    median(sizes[kind]) / median(sizes[0]));
    std::puts("aim: caseload 2.5, course 5, memory 3 of empty");
}
