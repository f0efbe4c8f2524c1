// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QCommandLineParser>
#include <QStringList>
#include <optional>

#include "app/basis.h"
#include "app/exit_code.h"

namespace evenfall::app {

/// The words of one command: options and the rest.
class Options {
  public:
    /// `usage` is the first line of the help, `what` says what the command does.
    Options(const QString& usage, const QString& what);

    void flag(const QString& name, const QString& what);
    void value(const QString& name, const QString& what, const QString& value_name,
               const QString& otherwise = {});

    /// Reads the words. Empty: go on. Otherwise how to leave: the help was printed, or the words are wrong
    /// (and it was said on standard error what was expected). `least` and `most` count the words that are no
    /// options.
    std::optional<Exit> read(const QStringList& words, int least, int most);

    QStringList rest() const { return parser_.positionalArguments(); }
    bool has(const QString& name) const { return parser_.isSet(name); }
    QString of(const QString& name) const { return parser_.value(name); }

    /// Says what is wrong with the command line.
    static Exit wrong(const QString& what);

    /// The options by which a patient of a store is named as a case, and what was given for them.
    void add_store_access();
    StoreAccess store_access() const;

  private:
    QString usage_;
    QCommandLineParser parser_;
};

}  // namespace evenfall::app
