// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

namespace gasp {

/// What is taken where a night's plan leaves a figure blank.
namespace night_where_blank {
inline constexpr double hours = 8.0;
inline constexpr double groups_per_h = 40.0;
inline constexpr double weak_ms = 50.0;
inline constexpr int runs = 200;
inline constexpr int seed = 1;
}  // namespace night_where_blank

inline constexpr double most_groups_per_h = 1000.0;
inline constexpr int most_nights = 100'000;

}  // namespace gasp
