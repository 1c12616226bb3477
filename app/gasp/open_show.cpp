// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/open_show.hpp"

#include "core/file/output_name.hpp"
#include "core/file/show_file.hpp"
#include "core/sound/clip.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gasp {

namespace {

std::string names_of(const Show& show) {
    std::string names;
    for (const Sequence& sequence : show.sequences) {
        names += fmt::format("{}\"{}\"", names.empty() ? "" : ", ", sequence.name);
    }
    return names;
}

}  // namespace

Result<OpenShow> open_show(const ShowOptions& options) {
    Result<Show> show =
        named_like_sound(options.show) ? show_of_sound(options.show) : load_show(options.show);
    if (!show) {
        return tl::unexpected(show.error());
    }
    OpenShow result;
    result.show = std::move(*show);
    result.folder = std::filesystem::path(options.show).parent_path();
    result.files = files_of(result.show, options.show, result.folder);
    for (const Sequence& sequence : result.show.sequences) {
        if (!options.sequence || sequence.name == *options.sequence) {
            result.sequences.push_back(&sequence);
        }
    }
    if (result.sequences.empty() && options.sequence) {
        return fail(fmt::format("there is no sequence \"{}\"", *options.sequence), options.show,
                    "It has " + names_of(result.show));
    }
    return result;
}

Result<std::optional<BoardId>> board_named(const Show& show, const std::optional<std::string>& name,
                                           const std::string& file) {
    if (!name) {
        return std::optional<BoardId>();
    }
    std::string names;
    for (const Board& board : show.rig.boards) {
        if (board.name == *name) {
            return std::optional(board.id);
        }
        names += fmt::format("{}\"{}\"", names.empty() ? "" : ", ", board.name);
    }
    return fail(fmt::format("there is no board \"{}\"", *name), file,
                names.empty() ? "Its rig has none yet" : "It has " + names);
}

Result<Actuator*> find_actuator(Show& show, const std::string& name, const std::string& file) {
    std::string names;
    for (Actuator& actuator : show.rig.actuators) {
        if (actuator.name == name) {
            return &actuator;
        }
        names += fmt::format("{}\"{}\"", names.empty() ? "" : ", ", actuator.name);
    }
    return fail(fmt::format("there is no actuator \"{}\"", name), file,
                names.empty() ? "Its rig has none yet" : "It has " + names);
}

}  // namespace gasp
