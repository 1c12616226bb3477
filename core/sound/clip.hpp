// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edit.hpp"
#include "core/show/show.hpp"
#include "core/units/error.hpp"

#include <filesystem>
#include <span>
#include <string>
#include <string_view>

namespace gasp {

// From a sound file to a place in a show, and to a new show made of it.

/// The endings of sound files' names, in lower case and without the dot.
[[nodiscard]] std::span<const std::string_view> sound_endings();
/// Whether a file's name has one of them, in either case.
[[nodiscard]] bool named_like_sound(const std::filesystem::path& file);

/// The clip of a file's whole length, at the start of the ruler, under a name relative to the show's folder.
/// Reads the file once through. Error: no usable sound, or a name that cannot stand in a show.
[[nodiscard]] Result<SoundClip> whole_clip(const std::filesystem::path& file, std::string name);

/// What a new show takes of the sounds it begins with: the name of the first one's file, and for the
/// sequence their length, up to a whole second.
[[nodiscard]] Edit take_name_and_length_of_sound(const Show& show, SequenceId sequence);

/// A new show in the sound's folder with nothing but this sound. Error: as whole_clip().
[[nodiscard]] Result<Show> show_of_sound(const std::filesystem::path& file);

}  // namespace gasp
