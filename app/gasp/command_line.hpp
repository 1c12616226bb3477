// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "app/gasp/options.hpp"

#include <string>
#include <variant>

namespace gasp {

/// A command line that asks for nothing to be run: for help or the version, or one that is wrong.
struct Answer {
    std::string text;   ///< for standard output
    std::string error;  ///< what is wrong with the arguments; empty when nothing is
};

[[nodiscard]] std::variant<Command, Answer> read_command_line(int argc, char** argv);

}  // namespace gasp
