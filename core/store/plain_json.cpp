// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/plain_json.h"

#include <cstddef>

namespace evenfall {

namespace {

constexpr int kDeepest = 64;
constexpr std::size_t kMostDigits =
    15;  // any such number is held exactly, or near enough, and never overflows

/// Each function takes one thing off the front of what is left; whether it stood there.
class Plain {
  public:
    explicit Plain(std::string_view text) : left_(text) {}
    bool is_one_value() { return value(0) && left_.empty(); }

  private:
    bool take(std::string_view expected) {
        if (!left_.starts_with(expected)) return false;
        left_.remove_prefix(expected.size());
        return true;
    }

    bool value(int depth) {
        if (left_.empty() || depth > kDeepest) return false;
        switch (left_.front()) {
            case '"':
                return string();
            case '{':
                return list('}', depth, true);
            case '[':
                return list(']', depth, false);
            case 't':
                return take("true");
            case 'f':
                return take("false");
            case 'n':
                return take("null");
            default:
                return number();
        }
    }

    bool list(char end, int depth, bool named) {
        left_.remove_prefix(1);
        if (take({&end, 1})) return true;
        do {
            if (named && !(string() && take(":"))) return false;
            if (!value(depth + 1)) return false;
        } while (take(","));
        return take({&end, 1});
    }

    bool string() {
        if (!take("\"")) return false;
        std::size_t length = 0;
        while (length < left_.size() && left_[length] >= ' ' && left_[length] <= '~' &&
               left_[length] != '"' && left_[length] != '\\')
            ++length;
        left_.remove_prefix(length);
        return take("\"");
    }

    bool number() {
        take("-");
        if (!take("0") && !digits()) return false;
        return !take(".") || digits();
    }

    bool digits() {
        std::size_t count = 0;
        while (count < left_.size() && left_[count] >= '0' && left_[count] <= '9') ++count;
        if (count == 0 || count > kMostDigits) return false;
        left_.remove_prefix(count);
        return true;
    }

    std::string_view left_;
};

}  // namespace

bool is_plain_json(std::string_view text) {
    return Plain(text).is_one_value();
}

}  // namespace evenfall
