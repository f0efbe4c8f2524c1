// SPDX-License-Identifier: GPL-3.0-or-later
#include <QApplication>
#include <QTemporaryDir>
#include <chrono>
#include <cstdio>
#include <cstdlib>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "papers/sample.h"
#include "papers/write_pdf.h"

// The papers of 1, 20 and 200 invented people, written one after the other: how long one person takes, and
// the most memory that was resident. Each count is a process of its own; constant memory means that the last
// two are alike.

namespace {

using namespace evenfall;

double seconds_now() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

int write_all(const papers::PaperSource& source, const QString& folder) {
    int written = 0;
    for (const auto& [paper, name] : Words<Paper>::table) {
        const auto document = papers::make_paper(paper, source, papers::shipped_texts("en"));
        if (!document) continue;
        const QString file = folder + QStringLiteral("/") + QString::fromStdString(word(paper));
        if (ui::write_pdf(*document, {}, file, true).ok()) ++written;
    }
    return written;
}

int child(int people, int argc, char** argv) {
    QApplication app(argc, argv);
    const QTemporaryDir folder;
    const double began = seconds_now();
    int written = 0;
    for (int i = 0; i < people; ++i) {
        std::mt19937_64 random(static_cast<std::uint64_t>(i));
        written += write_all(papers::random_source(random), folder.path());
    }
    rusage used{};
    getrusage(RUSAGE_SELF, &used);
    std::printf("%4d people: %5d papers, %.3f s a person, %ld MB at the most\n", people, written,
                (seconds_now() - began) / people, used.ru_maxrss / 1024);
    return 0;
}

}  // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    for (const int people : {1, 20, 200}) {
        const pid_t process = fork();
        if (process == 0) {
            const int left = child(people, argc, argv);
            std::fflush(stdout);
            _exit(left);
        }
        int left = 1;
        waitpid(process, &left, 0);
        if (left != 0) return 1;
    }
    return 0;
}
