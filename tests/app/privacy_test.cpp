// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/privacy.h"

#include <QDirIterator>
#include <QFile>
#include <QFileDialog>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>
#include <fstream>

#include <gtest/gtest.h>
#include <sys/resource.h>

// What the system or Qt would keep of a clinic's work, were they let.

namespace evenfall::app {
namespace {

/// Opens and leaves a dialog for files in a folder, as a page of the window does.
void use_dialog(const QString& folder) {
    QFileDialog dialog(nullptr, {}, folder);
    dialog.setOption(QFileDialog::DontUseNativeDialog);
    dialog.show();
    QTest::qWait(10);
    dialog.close();
}

/// Files beneath a folder that hold a word.
QStringList holding(const QString& folder, const QByteArray& word) {
    QStringList found;
    for (QDirIterator each(folder, QDir::Files | QDir::Hidden, QDirIterator::Subdirectories);
         each.hasNext();) {
        QFile file(each.next());
        if (file.open(QIODevice::ReadOnly) && file.readAll().contains(word)) found << file.fileName();
    }
    return found;
}

}  // namespace

TEST(Privacy, NoFileIsRememberedOnceDialogsAreOurs) {
    const QTemporaryDir settings, work;
    QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, settings.path());
    QDir(work.path()).mkdir(QStringLiteral("hale-jonas"));
    const QString folder = work.filePath(QStringLiteral("hale-jonas"));
    use_dialog(folder);
    EXPECT_FALSE(holding(settings.path(), "hale-jonas").isEmpty()) << "what the dialog does when it is let";
    QDir(settings.path()).removeRecursively();
    leave_no_recent_files();
    use_dialog(folder);
    EXPECT_EQ(holding(settings.path(), "hale-jonas").join(u' ').toStdString(), "");
    EXPECT_TRUE(QCoreApplication::testAttribute(Qt::AA_DontUseNativeDialogs));
}

TEST(Privacy, NoDumpIsWritten) {
    leave_no_dumps();
    rlimit limit{1, 1};
    ASSERT_EQ(getrlimit(RLIMIT_CORE, &limit), 0);
    EXPECT_EQ(limit.rlim_cur, 0U);
    EXPECT_EQ(limit.rlim_max, 0U);
    std::string filter;
    std::ifstream("/proc/self/coredump_filter") >> filter;
    EXPECT_EQ(filter.find_first_not_of('0'), std::string::npos) << filter;
}

}  // namespace evenfall::app
