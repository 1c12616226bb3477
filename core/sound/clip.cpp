// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/clip.hpp"

#include "core/show/edits.hpp"
#include "core/show/validity.hpp"
#include "core/sound/content.hpp"
#include "core/sound/sound_file.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

namespace gasp {

namespace {

Micros length_of(const SoundInfo& info) {
    return Micros{std::llround(static_cast<double>(info.frames) * 1e6 / info.rate)};
}

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

}  // namespace

std::span<const std::string_view> sound_endings() {
    static constexpr std::array<std::string_view, 14> endings{
        "wav", "flac", "ogg", "oga", "opus", "mp3", "aiff", "aif", "aifc", "au", "snd", "caf", "w64", "rf64"};
    return endings;
}

bool named_like_sound(const std::filesystem::path& file) {
    std::string ending = file.extension().string();
    std::ranges::transform(ending, ending.begin(), lower);
    return !ending.empty() &&
           std::ranges::find(sound_endings(), std::string_view(ending).substr(1)) != sound_endings().end();
}

Result<SoundClip> whole_clip(const std::filesystem::path& file, std::string name) {
    if (!stays_inside(name)) {
        return fail("a show cannot name a sound so", file.string(),
                    "Rename the file, without \"\\\", \":\" in second place and control characters");
    }
    const Result<SoundFile> sound = SoundFile::open(file);
    if (!sound) {
        return tl::unexpected(sound.error());
    }
    Result<std::string> content = content_of(file);
    if (!content) {
        return tl::unexpected(std::move(content.error()));
    }
    SoundClip clip;
    clip.file = std::move(name);
    clip.content = std::move(*content);
    clip.file_length = length_of(sound->info());
    clip.length = clip.file_length;
    return clip;
}

Edit take_name_and_length_of_sound(const Show& show, SequenceId id) {
    const Sequence* sequence = find(show, id);
    if (!sequence || sequence->clips.empty()) {
        return {};
    }
    const Micros length = std::chrono::ceil<std::chrono::seconds>(end_of_sound(*sequence));
    Edit edit = set_sequence_head(show, id, {sequence->name, sequence->kind, length});
    const Edit renaming =
        rename_show(show, std::filesystem::path(sequence->clips.front().file).stem().string());
    edit.changes.insert(edit.changes.end(), renaming.changes.begin(), renaming.changes.end());
    return edit;
}

Result<Show> show_of_sound(const std::filesystem::path& file) {
    Result<SoundClip> clip = whole_clip(file, file.filename().string());
    if (!clip) {
        return tl::unexpected(std::move(clip.error()));
    }
    Show show = empty_show();
    const SequenceId sequence = show.sequences.front().id;
    apply(add_clip(show, sequence, std::move(*clip)), show);
    apply(take_name_and_length_of_sound(show, sequence), show);
    return show;
}

}  // namespace gasp
