// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/quantity.hpp"
#include "core/units/time.hpp"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace gasp {

/// What every verb that reads a show takes.
struct ShowOptions {
    std::string show;                     ///< path of the file
    std::optional<std::string> sequence;  ///< one by its name; all without
    bool json = false;
    UnitSystem units = UnitSystem::metric;  ///< of what is printed for people; JSON names its own
    std::string output;                     ///< path; standard output where empty
};

struct CheckOptions : ShowOptions {};

struct BudgetOptions : ShowOptions {};

struct TableOptions : ShowOptions {
    bool comments = true;
    std::string compare;  ///< path of a table to compare with the show's; none where empty
};

struct SoundOptions {
    std::vector<std::string> files;
    bool json = false;
    std::string output;
};

struct PictureOptions : ShowOptions {
    int width_px = 1600;
    int height_px = 0;  ///< 0: as high as the lanes need
    std::optional<Micros> from;
    std::optional<Micros> to;
    bool dark = false;
};

using Command = std::variant<CheckOptions, BudgetOptions, TableOptions, SoundOptions, PictureOptions>;

}  // namespace gasp
