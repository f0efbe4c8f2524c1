// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/options.h"

#include <cstdio>
#include <iostream>

#include "app/basis.h"

namespace evenfall::app {

Options::Options(const QString& usage, const QString& what) : usage_(usage) {
    parser_.setApplicationDescription(what);
    parser_.addOption({{QStringLiteral("h"), QStringLiteral("help")}, QStringLiteral("Say this.")});
}

void Options::flag(const QString& name, const QString& what) {
    parser_.addOption({name, what});
}

void Options::value(const QString& name, const QString& what, const QString& value_name,
                    const QString& otherwise) {
    parser_.addOption({name, what, value_name, otherwise});
}

std::optional<Exit> Options::read(const QStringList& words, int least, int most) {
    if (!parser_.parse(QStringList{QStringLiteral("evenfall")} + words)) return wrong(parser_.errorText());
    if (parser_.isSet(QStringLiteral("help"))) {
        const QString options = parser_.helpText().section(QStringLiteral("\n"), 1);
        std::cout << "Usage: " << usage_.toStdString() << '\n' << options.toStdString() << std::flush;
        return Exit::done;
    }
    const int count = static_cast<int>(rest().size());
    if (count < least || count > most) return wrong(QStringLiteral("expected: ") + usage_);
    return std::nullopt;
}

void Options::add_store_access() {
    value(QStringLiteral("passphrase-file"), QStringLiteral("For a store: read the passphrase from a file."),
          QStringLiteral("file"));
    value(QStringLiteral("user"), QStringLiteral("For a store: who opens it."), QStringLiteral("name"),
          QStringLiteral("prescriber"));
}

StoreAccess Options::store_access() const {
    return {of(QStringLiteral("passphrase-file")).toStdString(), of(QStringLiteral("user")).toStdString()};
}

Exit Options::wrong(const QString& what) {
    print_error(what.toStdString());
    return Exit::command_wrong;
}

}  // namespace evenfall::app
