// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/night/night.hpp"
#include "core/link/board_facts.hpp"
#include "ui/panels/figure_list.hpp"

#include <vector>

namespace gasp {

/// What a board has counted since its log was cleared, each figure beside what the forecast of a whole night
/// has for it; `forecast` is null while none was made. A count above what 95 of 100 nights have is noted.
[[nodiscard]] std::vector<FigureLine> night_counts(const BoardStatus& status, const NightForecast* forecast);

}  // namespace gasp
