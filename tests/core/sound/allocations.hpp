// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstdint>

namespace gasp::test {

/// How often this thread has called operator new.
[[nodiscard]] std::int64_t allocations();

}  // namespace gasp::test
