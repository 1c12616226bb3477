// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"

#include <string>

namespace gasp {

/// "Mark 1", or the first such name that is free.
[[nodiscard]] std::string next_mark_name(const Sequence& sequence);

}  // namespace gasp
