// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/fitting/fitting.hpp"
#include "ui/panels/figure_list.hpp"
#include "ui/panels/part_fields.hpp"

#include <memory>
#include <vector>

namespace gasp {

/// The timed strokes of the actuator that `id` names at the time, out and back.
[[nodiscard]] std::vector<ListEntry> timed_stroke_entries(const std::shared_ptr<ActuatorId>& id);

/// What a fit found, each input with what was known before and what is now.
[[nodiscard]] std::vector<FigureLine> fit_lines(const StrokeFit& fit);

}  // namespace gasp
