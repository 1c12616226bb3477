// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "app/gasp/options.hpp"
#include "core/units/error.hpp"

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

namespace gasp {

enum class ExitCode : int {
    clean = 0,
    stop_findings = 1,
    unusable = 2,   ///< input or arguments
    stopped = 130,  ///< by Ctrl-C, as shells have it; what was done by then is told
};

/// What a verb has to say. Errors are those that left it with nothing to say.
struct Outcome {
    std::string text;  ///< for standard output, or the file of -o
    /// What is written instead into a folder of -o; `text` then goes to standard output.
    std::vector<std::pair<std::filesystem::path, std::string>> files;
    std::vector<std::string> messages;  ///< for standard error, a line each
    ExitCode code = ExitCode::clean;
    std::vector<std::filesystem::path> sources;  ///< what was read, and must not be written over
};

// The verbs, each in a file of its name.
[[nodiscard]] Result<Outcome> run(const CheckOptions& options);
[[nodiscard]] Result<Outcome> run(const BudgetOptions& options);
[[nodiscard]] Result<Outcome> run(const PowerOptions& options);
[[nodiscard]] Result<Outcome> run(const StrokeOptions& options);
[[nodiscard]] Result<Outcome> run(const NightVerbOptions& options);
[[nodiscard]] Result<Outcome> run(const TableOptions& options);
[[nodiscard]] Result<Outcome> run(const SoundOptions& options);
[[nodiscard]] Result<Outcome> run(const PictureOptions& options);  ///< writes its file itself
[[nodiscard]] Result<Outcome> run(const SheetOptions& options);    ///< likewise
[[nodiscard]] Result<Outcome> run(const SizeOptions& options);
[[nodiscard]] Result<Outcome> run(const FitOptions& options);  ///< likewise
[[nodiscard]] Result<Outcome> run(const BoardOptions& options);

}  // namespace gasp
