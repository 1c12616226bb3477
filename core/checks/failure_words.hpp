// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"
#include "core/show/show.hpp"

#include <string>

namespace gasp {

/// What a figure does when power or air is lost, and when air comes back: each the part of a sentence.
struct FailureWords {
    std::string without_power;  ///< empty where the rig's figures do not say
    std::string without_air;    ///< likewise
    std::string with_air_again;
};

/// By the kind of valve and cylinder, and by weight, springs and friction. `model`: of the show, fitted.
[[nodiscard]] FailureWords failure_words(const Show& show, const Actuator& actuator, const AirModel& model);

}  // namespace gasp
