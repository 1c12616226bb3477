// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "app/gasp/open_show.hpp"
#include "core/checks/check.hpp"

#include <string>
#include <vector>

namespace gasp {

/// The findings of what is asked for: of one sequence, or of the whole show with what its sequences do
/// together.
[[nodiscard]] std::vector<Finding> findings_of(const OpenShow& open, const ShowOptions& options,
                                               const CheckSetting& setting);

/// What stands against a table of these sequences, in one line that names the findings of severity stop;
/// empty where there are none. Sound files are not looked at: no table holds them.
[[nodiscard]] std::string stops_against_table(const OpenShow& open, const ShowOptions& options);

}  // namespace gasp
