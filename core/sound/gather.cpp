// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/gather.hpp"

#include "core/show/edits.hpp"
#include "core/show/validity.hpp"
#include "core/sound/content.hpp"
#include "core/sound/copy_sound.hpp"

#include <map>
#include <system_error>

namespace gasp {

namespace {

namespace fs = std::filesystem;

/// The first of "name.wav", "name 2.wav"... that is free or already holds this content.
PutSound place_for(const fs::path& folder, const std::string& wanted, const std::string& content) {
    const fs::path name(wanted);
    for (int number = 1;; ++number) {
        const fs::path tried =
            number == 1 ? name
                        : name.parent_path() / (name.stem().string() + " " + std::to_string(number) +
                                                name.extension().string());
        std::error_code error;
        if (!fs::exists(folder / tried, error)) {
            return {tried.generic_string(), true};
        }
        if (content_of(folder / tried) == content) {
            return {tried.generic_string(), false};
        }
    }
}

/// A sound that is missing keeps its name and is not copied.
Result<PutSound> gather_one(const fs::path& from, const fs::path& to, const std::string& name,
                            const std::atomic<bool>& cancel) {
    const Result<std::string> content = content_of(from / name);
    return content ? put_sound(from / name, *content, to, name, cancel) : PutSound{name, false};
}

}  // namespace

Result<PutSound> put_sound(const fs::path& file, const std::string& content, const fs::path& folder,
                           const std::string& wanted, const std::atomic<bool>& cancel) {
    PutSound place = place_for(folder, wanted, content);
    if (place.copied) {
        if (auto copied = copy_sound(file, folder / place.name, cancel); !copied) {
            return tl::unexpected(copied.error());
        }
    }
    return place;
}

Result<Gathered> gather_sounds(const Show& show, const fs::path& from, const fs::path& to,
                               const std::atomic<bool>& cancel) {
    Gathered gathered;
    gathered.renaming.sentence = "rename sounds copied beside the show";
    std::error_code error;
    if (fs::equivalent(from.empty() ? "." : from, to, error)) {
        return gathered;
    }
    gathered.missing = missing_sounds(show, from);
    std::map<std::string, std::string> names;
    for (const Sequence& sequence : show.sequences) {
        for (SoundClip clip : sequence.clips) {
            const auto [entry, fresh] = names.try_emplace(clip.file, clip.file);
            if (fresh && stays_inside(clip.file)) {
                const Result<PutSound> put = gather_one(from, to, clip.file, cancel);
                if (!put) {
                    return tl::unexpected(put.error());
                }
                entry->second = put->name;
                gathered.copied += put->copied ? 1U : 0U;
            }
            if (clip.file != entry->second) {
                clip.file = entry->second;
                const Edit one = set_clip(show, sequence.id, clip);
                gathered.renaming.changes.insert(gathered.renaming.changes.end(), one.changes.begin(),
                                                 one.changes.end());
            }
        }
    }
    return gathered;
}

}  // namespace gasp
