// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "app/gasp/options.hpp"
#include "core/show/show.hpp"
#include "core/units/error.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace gasp {

/// A show from its file, and those of its sequences that are asked for.
struct OpenShow {
    Show show;
    std::vector<const Sequence*> sequences;    ///< of `show`; keep both together
    std::filesystem::path folder;              ///< where its sounds are
    std::vector<std::filesystem::path> files;  ///< the show's and its sounds'

    OpenShow() = default;
    OpenShow(OpenShow&&) = default;
    OpenShow& operator=(OpenShow&&) = default;
};

/// A sound file is opened as a new show made of it. Error: an unusable file, or no sequence of that name
/// (those there are get listed).
[[nodiscard]] Result<OpenShow> open_show(const ShowOptions& options);

/// A board of a show by its name; none where no name is given. Error: there is none (those there are get
/// listed), naming `file`.
[[nodiscard]] Result<std::optional<BoardId>> board_named(const Show& show,
                                                         const std::optional<std::string>& name,
                                                         const std::string& file);

/// An actuator of a show by its name. Error: there is none (those there are get listed), naming `file`.
[[nodiscard]] Result<Actuator*> find_actuator(Show& show, const std::string& name, const std::string& file);

}  // namespace gasp
