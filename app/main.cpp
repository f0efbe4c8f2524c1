// SPDX-License-Identifier: GPL-3.0-or-later
#include <QApplication>
#include <QHash>
#include <iostream>
#include <optional>

#include "app/basis.h"
#include "app/commands.h"
#include "app/options.h"
#include "app/platform.h"
#include "app/privacy.h"
#include "app/window.h"

namespace {

using namespace evenfall::app;

constexpr const char* kHelp =
    "Evenfall, a workbench for supervised tapering. Works without a network; a clinician decides.\n"
    "\n"
    "evenfall                     open the workbench\n"
    "evenfall --demo              open it on a throw-away copy of the invented caseload\n"
    "evenfall --store FILE        open that store\n"
    "evenfall compute KIND CASE   compute one thing of a case, as JSON or as a table\n"
    "evenfall papers CASE         write papers as PDF\n"
    "evenfall picture CASE        write a picture of a view\n"
    "evenfall store ACT FILE      make, prove, copy or merge a store\n"
    "evenfall demo FOLDER         write the demo's papers and pictures to a folder\n"
    "evenfall --version, --help   and --help after any of these\n";

using Command = Exit (*)(const QStringList&);

std::optional<std::pair<Command, bool>> command_named(const QString& name) {
    if (name == QStringLiteral("compute")) return std::pair{&compute_command, false};
    if (name == QStringLiteral("store")) return std::pair{&store_command, false};
    if (name == QStringLiteral("papers")) return std::pair{&papers_command, true};
    if (name == QStringLiteral("picture")) return std::pair{&picture_command, true};
    if (name == QStringLiteral("demo")) return std::pair{&demo_command, true};
    return std::nullopt;
}

/// A command that paints does so off screen: it never opens a window.
Exit run_command(const Command command, bool paints, int argc, char** argv, const QStringList& words) {
    if (!paints) return command(words);
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QApplication application(argc, argv);
    return command(words);
}

Exit run_window(int argc, char** argv, const QStringList& words) {
    Options options(QStringLiteral("evenfall [--demo | --store FILE]"),
                    QStringLiteral("Opens the workbench."));
    options.flag(QStringLiteral("demo"), QStringLiteral("Open a throw-away copy of the invented caseload."));
    options.value(QStringLiteral("store"), QStringLiteral("Open that store."), QStringLiteral("file"));
    if (const auto leave = options.read(words, 0, 0)) return *leave;
    if (!platform_is_local())
        return Options::wrong(QStringLiteral("the display platform has to be xcb, wayland or offscreen"));
    if (!display_is_there())
        return Options::wrong(QStringLiteral(
            "there is no display to open a window on; compute, papers, picture and store work without one"));
    std::future<std::optional<Demo>> demo;
    if (options.has(QStringLiteral("demo"))) demo = begin_demo(machine_time());
    const QApplication application(argc, argv);
    return demo.valid() ? open_demo(std::move(demo)) : open_window(options.of(QStringLiteral("store")));
}

Exit run(int argc, char** argv) {
    QStringList words;
    for (int i = 1; i < argc; ++i) words << QString::fromLocal8Bit(argv[i]);
    const QString first = words.isEmpty() ? QString() : words.first();
    if (first == QStringLiteral("--help") || first == QStringLiteral("-h")) {
        std::cout << kHelp << std::flush;
        return Exit::done;
    }
    if (first == QStringLiteral("--version")) {
        std::cout << "evenfall " EVENFALL_VERSION << std::endl;
        return Exit::done;
    }
    if (const auto command = command_named(first))
        return run_command(command->first, command->second, argc, argv, words.mid(1));
    if (!first.isEmpty() && !first.startsWith(QLatin1Char('-')))
        return Options::wrong(QStringLiteral("no command “") + first +
                              QStringLiteral("”; see evenfall --help"));
    return run_window(argc, argv, words);
}

}  // namespace

int main(int argc, char** argv) {
    leave_no_dumps();
    leave_no_recent_files();
    QHashSeed::setDeterministicGlobalSeed();  // the same paper is the same file
    try {
        return static_cast<int>(run(argc, argv));
    } catch (const std::exception& error) {
        print_error(std::string("a fault of ours: ") + error.what());
        return static_cast<int>(Exit::our_fault);
    }
}
