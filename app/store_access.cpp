// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/store_access.h"

#include <iostream>

#include <termios.h>
#include <unistd.h>

#include "casework/safekeeping.h"
#include "model/strict_json.h"

namespace evenfall::app {
namespace {

constexpr std::size_t kMostBytes = 4096;

/// Turns the terminal's echo off for its life.
class QuietTerminal {
  public:
    QuietTerminal() {
        quiet_ = isatty(STDIN_FILENO) && tcgetattr(STDIN_FILENO, &before_) == 0;
        if (!quiet_) return;
        termios silent = before_;
        silent.c_lflag &= ~static_cast<tcflag_t>(ECHO);
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &silent);
    }
    ~QuietTerminal() {
        if (quiet_) tcsetattr(STDIN_FILENO, TCSAFLUSH, &before_);
    }
    QuietTerminal(const QuietTerminal&) = delete;
    QuietTerminal& operator=(const QuietTerminal&) = delete;

  private:
    termios before_{};
    bool quiet_ = false;
};

std::string first_line(const std::string& text) {
    std::string line = text.substr(0, text.find('\n'));
    if (!line.empty() && line.back() == '\r') line.pop_back();
    return line;
}

}  // namespace

std::optional<std::string> read_passphrase(const std::string& file, const Texts& texts) {
    if (!file.empty()) {
        auto text = read_text_file(file, kMostBytes);
        if (text) return first_line(*text);
        print_faults(text.faults(), texts);
        return std::nullopt;
    }
    const QuietTerminal quiet;
    std::cerr << texts.text("app-passphrase") << ' ' << std::flush;
    std::string line;
    std::getline(std::cin, line);
    std::cerr << '\n';
    return first_line(line);
}

std::optional<Store> open_store(const std::string& file, const StoreAccess& access,
                                const Resources& resources) {
    const auto passphrase = read_passphrase(access.passphrase_file, resources.texts);
    if (!passphrase) return std::nullopt;
    auto store = Store::open(file, access.user, *passphrase, store_options(resources.rules));
    if (!store) {
        print_faults(store.faults(), resources.texts);
        return std::nullopt;
    }
    return std::move(*store);
}

}  // namespace evenfall::app
