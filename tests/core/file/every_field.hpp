// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"

namespace gasp::testing {

/// A show in which nothing is blank: each figure given, each choice on its last word, each list with items in
/// it, and an unknown member in each object that may hold one.
[[nodiscard]] Show every_field();

}  // namespace gasp::testing
