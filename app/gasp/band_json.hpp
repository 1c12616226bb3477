// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "app/gasp/json.hpp"
#include "core/air/budget/band.hpp"

#include <cmath>
#include <optional>

namespace gasp {

/// Low, nominal, high; null for a high end that never comes.
[[nodiscard]] inline Json json_of(const Band& band) {
    return Json::array({band.low, band.nominal, std::isfinite(band.high) ? Json(band.high) : Json()});
}
[[nodiscard]] inline Json json_of(const std::optional<Band>& band) {
    return band ? json_of(*band) : Json();
}

}  // namespace gasp
