// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/paper_flow.h"

#include <algorithm>
#include <iterator>
#include <span>

namespace evenfall::ui {
namespace {

using Run = std::span<const std::shared_ptr<const Atom>>;

double height_of(Run run) {
    double height = 0;
    for (const auto& atom : run) height += atom->height;
    return height;
}

double repeated_height(const Atom& atom) {
    return height_of(atom.repeated);
}

/// The atoms from the first on that are glued at least as firmly as `glue`, with the one they hang on.
Run chain(Run run, Glue glue) {
    std::size_t length = 0;
    while (length < run.size() && run[length]->glue >= glue) ++length;
    return run.first(std::min(length + 1, run.size()));
}

constexpr double kNearlyEmpty = 0.45;  // of a page
constexpr std::size_t kFewRows = 3;    // at the end of what is parted: they stay together
constexpr int kTrials = 12;            // halvings of the room that is looked for

class Flow {
  public:
    /// Pages of `height` are filled down to `fill`; what is higher than that, and fits on a page, has one to
    /// itself.
    Flow(double height, double fill) : height_(height), fill_(fill) {}

    bool place(Run run) {
        while (!run.empty()) {
            const Run whole = chain(run, Glue::soft);
            if (whole.front()->begins_page && !pages_.back().empty()) begin_page();
            if (fits_here(whole) || (fits_page(whole) && !gives_first_row(whole))) {
                if (!fits_here(whole)) begin_page();
                put(whole);
            } else if (!place_in_parts(whole)) {
                return false;
            }
            run = run.subspan(whole.size());
        }
        if (pages_.size() > 1 && pages_.back().empty()) pages_.pop_back();
        return true;
    }

    std::vector<PaperPage> pages() && { return std::move(pages_); }

  private:
    bool fits_here(Run run) const {
        const double heads = pages_.back().empty() ? repeated_height(*run.front()) : 0;
        return y_ + heads + height_of(run) <= (pages_.back().empty() ? height_ : fill_);
    }
    bool fits_page(Run run) const { return repeated_height(*run.front()) + height_of(run) <= height_; }

    /// Whether the page would have no row but for those with which this run begins.
    bool gives_first_row(Run run) const {
        if (pages_.back().empty() || !std::ranges::any_of(run, [](const auto& atom) { return atom->row; }))
            return false;
        return !has_row_here() && fits_here(chain(run, Glue::hard));
    }

    bool has_row_here() const {
        return std::ranges::any_of(pages_.back(), [](const PlacedAtom& placed) { return placed.atom->row; });
    }

    /// Whether the last rows of a run, these few, would be parted from each other or from what ends with
    /// them: all of them stand on the next page then.
    bool strands_rows(Run run) const {
        std::size_t rows = 0;
        std::size_t length = 0;
        for (std::size_t i = 0; i < run.size(); ++i)
            if (run[i]->row && ++rows > kFewRows) return false;
        if (rows < 2 || !has_row_here()) return false;
        if (fits_page(run)) return !fits_here(run);
        for (std::size_t i = 0; i < run.size(); ++i)
            if (run[i]->row) length = i + chain(run.subspan(i), Glue::hard).size();
        const Run rest = run.first(length);
        return !fits_here(rest) && fits_page(rest);
    }

    bool place_in_parts(Run run) {
        while (!run.empty()) {
            Run part = chain(run, Glue::hard);
            if (!fits_here(part) && !fits_page(part)) part = run.first(1);
            if (!fits_here(part)) {
                if (!fits_page(part)) return false;
                begin_page();
            } else if (strands_rows(run)) {
                begin_page();
            }
            put(part);
            run = run.subspan(part.size());
        }
        return true;
    }

    void begin_page() {
        pages_.emplace_back();
        y_ = 0;
    }

    void put(Run run) {
        if (pages_.back().empty()) {
            if (run.size() == 1 && !run.front()->paint) return;  // no empty room at the top of a page
            for (const auto& head : run.front()->repeated) put_one(head);
        }
        for (const auto& atom : run) put_one(atom);
    }

    void put_one(const std::shared_ptr<const Atom>& atom) {
        pages_.back().push_back({atom, y_});
        y_ += atom->height;
    }

    double height_;
    double fill_;
    double y_ = 0;
    std::vector<PaperPage> pages_{1};
};

std::optional<std::vector<PaperPage>> filled_to(Run run, double height, double fill) {
    Flow flow(height, fill);
    if (!flow.place(run)) return std::nullopt;
    return std::move(flow).pages();
}

/// The part of the run that ends before the next atom that begins a page.
Run first_part(Run run) {
    std::size_t length = 1;
    while (length < run.size() && !(run[length]->begins_page && run[length - 1]->glue == Glue::none))
        ++length;
    return run.first(length);
}

/// The pages of a part, evened out where the last one is nearly empty: the least room that takes no page
/// more.
std::optional<std::vector<PaperPage>> part_on_pages(Run run, double height) {
    auto pages = filled_to(run, height, height);
    if (!pages || pages->size() < 2 || filled_height(pages->back()) > kNearlyEmpty * height) return pages;
    double low = 0;
    double high = height;
    for (int trial = 0; trial < kTrials; ++trial) {
        const double fill = (low + high) / 2;
        auto evened = filled_to(run, height, fill);
        const bool keeps = evened && evened->size() == pages->size() &&
                           pages_without_row(*evened) <= pages_without_row(*pages);
        (keeps ? high : low) = fill;
        if (keeps) pages = std::move(evened);
    }
    return pages;
}

}  // namespace

std::size_t pages_without_row(const std::vector<PaperPage>& pages) {
    const auto has_row = [](const PaperPage& page) {
        return std::ranges::any_of(page, [](const PlacedAtom& placed) { return placed.atom->row; });
    };
    std::size_t without = 0;
    for (auto begin = pages.begin(); begin != pages.end();) {
        const auto end = std::find_if(begin + 1, pages.end(), [](const PaperPage& page) {
            return !page.empty() && page.front().atom->begins_page;
        });
        const auto with = std::count_if(begin, end, has_row);
        if (with > 0) without += static_cast<std::size_t>(end - begin - with);
        begin = end;
    }
    return without;
}

double filled_height(const PaperPage& page) {
    double filled = 0;
    for (const PlacedAtom& placed : page)
        if (placed.atom->paint) filled = std::max(filled, placed.top + placed.atom->height);
    return filled;
}

std::optional<std::vector<PaperPage>> flow(const Atoms& atoms, double height) {
    return filled_to(atoms, height, height);
}

std::optional<std::vector<PaperPage>> flow_evenly(const Atoms& atoms, double height) {
    std::vector<PaperPage> all;
    for (Run run = atoms; !run.empty();) {
        const Run part = first_part(run);
        auto pages = part_on_pages(part, height);
        if (!pages) return std::nullopt;
        std::ranges::move(*pages, std::back_inserter(all));
        run = run.subspan(part.size());
    }
    return all;
}

std::shared_ptr<const Atom> space(double height, Glue glue) {
    auto atom = std::make_shared<Atom>();
    atom->height = height;
    atom->glue = glue;
    return atom;
}

}  // namespace evenfall::ui
