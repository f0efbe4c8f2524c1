// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/assignment.h"

#include <algorithm>
#include <cstdlib>

namespace evenfall {

namespace {

/// Least costs of matching the first i entries with the first j dose times.
class Table {
  public:
    Table(const std::vector<int>& entries, const std::vector<int>& intended, int window)
        : entries_(entries), intended_(intended), window_(window), width_(intended.size() + 1) {
        costs_.resize((entries.size() + 1) * width_);
        for (std::size_t i = 0; i <= entries.size(); ++i)
            for (std::size_t j = 0; j <= intended.size(); ++j) fill(i, j);
    }

    Assignment trace() const {
        Assignment result;
        result.cost = costs_.back();
        result.of_entry.resize(entries_.size());
        std::size_t i = entries_.size(), j = intended_.size();
        while (i > 0 && j > 0) {
            if (at(i, j) == at(i - 1, j - 1) + pair(i, j)) {
                result.of_entry[--i] = --j;
            } else if (at(i, j) == at(i - 1, j) + window_) {
                --i;
            } else {
                --j;
            }
        }
        return result;
    }

  private:
    int at(std::size_t i, std::size_t j) const { return costs_[i * width_ + j]; }
    int pair(std::size_t i, std::size_t j) const { return 2 * std::abs(entries_[i - 1] - intended_[j - 1]); }

    void fill(std::size_t i, std::size_t j) {
        int& cost = costs_[i * width_ + j];
        if (i == 0 || j == 0) {
            cost = static_cast<int>(i + j) * window_;
            return;
        }
        cost = std::min({at(i - 1, j - 1) + pair(i, j), at(i - 1, j) + window_, at(i, j - 1) + window_});
    }

    const std::vector<int>& entries_;
    const std::vector<int>& intended_;
    int window_;
    std::size_t width_;
    std::vector<int> costs_;
};

}  // namespace

Assignment assign(const std::vector<int>& entries, const std::vector<int>& intended, int window) {
    return Table(entries, intended, window).trace();
}

}  // namespace evenfall
