// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <fmt/core.h>

namespace gasp::board_test {

/// A measured figure, as a line of the test's output (ctest -V shows it).
template <class... Args>
void figure(fmt::format_string<Args...> format, Args&&... args) {
    fmt::print("figure: {}\n", fmt::format(format, std::forward<Args>(args)...));
}

}  // namespace gasp::board_test
