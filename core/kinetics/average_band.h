// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "kinetics/ensemble.h"

namespace evenfall::kinetics {

/// The spread of the 24 h average: for each agent of the request, percentiles over the virtual patients of
/// the average relative level (mg/day) over the 24 hours that end at each instant of the grid, each patient's
/// computed exactly (see `relative_averages`) and scaled to that patient's own area. `request.scale` and
/// `request.read_every` do not matter. The same virtual patients as `run_ensemble` with `Scale::relative` and
/// the same seed. For courses: patients × instants values are held. Empty where `stop` was asked for. Faults:
/// those of `run_ensemble`.
Result<std::optional<Ensemble>> run_average_band(const EnsembleRequest& request, std::stop_token stop = {},
                                                 const Progress& progress = {});

/// What stands against running an ensemble.
Faults faults_of(const EnsembleRequest& request);

}  // namespace evenfall::kinetics
