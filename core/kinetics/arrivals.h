// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "kinetics/levels.h"

namespace evenfall::kinetics {

/// Amounts that reach the depot `remainder_h` hours before instant `index` of a grid, 0 up to a step (longer
/// before the first instant).
struct Arrival {
    std::size_t index = 0;
    double remainder_h = 0;
    double mg = 0;

    friend auto operator<=>(const Arrival&, const Arrival&) = default;
};

/// What reaches the depot from `start_h` to the end of the grid, in a total order, so that sums do not depend
/// on the order of the doses. Times within 0.04 ms of an instant, or of a whole second before it, are that:
/// what parts them is the rounding of hours written as fractions.
std::vector<Arrival> arrivals(const Model& model, const Start& start, const std::vector<TimedDose>& doses,
                              const Grid& grid);

/// What 1 mg in the depot has become after some hours: the first column of exp(A h). Remembers those asked
/// for.
class DepotResponse {
  public:
    explicit DepotResponse(const Chain& chain) : chain_(chain) {}
    const State& after(double hours);

  private:
    const Chain& chain_;
    std::vector<std::pair<double, State>> known_;  // sorted by hours
};

}  // namespace evenfall::kinetics
