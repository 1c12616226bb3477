// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/missing.hpp"

#include "core/show/validity.hpp"
#include "core/sound/clip.hpp"
#include "core/sound/content.hpp"
#include "core/sound/copy_sound.hpp"

#include <algorithm>
#include <set>
#include <system_error>

namespace gasp {

namespace {

namespace fs = std::filesystem;

/// More than a person keeps sounds among; the rest is not looked at.
constexpr std::size_t most_files = 200'000;

/// Every clip's file once, with how many play it.
std::vector<MissingSound> sounds_of(const Show& show) {
    std::vector<MissingSound> sounds;
    for (const Sequence& sequence : show.sequences) {
        for (const SoundClip& clip : sequence.clips) {
            const auto same = std::ranges::find_if(sounds, [&](const MissingSound& each) {
                return each.file == clip.file && each.content == clip.content;
            });
            if (same != sounds.end()) {
                ++same->clips;
            } else if (stays_inside(clip.file)) {
                sounds.push_back({clip.file, clip.content, 1});
            }
        }
    }
    return sounds;
}

bool is_there(const fs::path& path) {
    std::error_code error;
    return fs::is_regular_file(path, error);
}

/// The sounds below a folder, those with a wanted name first.
Result<std::vector<fs::path>> candidates(const fs::path& folder, const std::set<fs::path>& names,
                                         const std::atomic<bool>& cancel) {
    std::vector<fs::path> files;
    std::error_code error;
    fs::recursive_directory_iterator place(folder, fs::directory_options::skip_permission_denied, error);
    if (error) {
        return fail("The folder cannot be read", folder.string(), "Choose a folder that you may read");
    }
    for (; place != fs::recursive_directory_iterator() && files.size() < most_files && !cancel;
         place.increment(error)) {
        if (named_like_sound(place->path()) && is_there(place->path())) {
            files.push_back(place->path());
        }
        if (error) {
            break;
        }
    }
    std::stable_partition(files.begin(), files.end(),
                          [&](const fs::path& file) { return names.contains(file.filename()); });
    return files;
}

/// The path below a folder, as shows write it; empty where it is not below.
std::string name_below(const fs::path& file, const fs::path& folder) {
    std::error_code error;
    const fs::path inside = fs::relative(file, folder, error);
    const std::string name = error ? std::string() : inside.generic_string();
    return stays_inside(name) ? name : std::string();
}

/// Takes a file for every missing sound that held the same.
Result<void> take(const fs::path& file, const std::string& content, const fs::path& show_folder,
                  const std::atomic<bool>& cancel, FoundSounds& found) {
    const std::string name = name_below(file, show_folder);
    for (auto sound = found.still_missing.begin(); sound != found.still_missing.end();) {
        if (sound->content != content) {
            ++sound;
            continue;
        }
        if (name.empty()) {
            if (auto copied = copy_sound(file, show_folder / sound->file, cancel); !copied) {
                return copied;
            }
            found.copied.push_back(sound->file);
        } else {
            found.moved.push_back({sound->file, sound->content, name});
        }
        sound = found.still_missing.erase(sound);
    }
    return {};
}

/// Reads a file for each kind of content that is still looked for, and takes it where it is one of those.
Result<void> try_file(const fs::path& file, const fs::path& show_folder, const std::atomic<bool>& cancel,
                      FoundSounds& found) {
    for (const std::string_view kind : {content_kind, old_content_kind}) {
        const auto is_of_kind = [kind](const MissingSound& each) { return each.content.starts_with(kind); };
        if (std::ranges::none_of(found.still_missing, is_of_kind)) {
            continue;
        }
        if (const Result<std::string> content = content_of(file, kind)) {
            if (auto taken = take(file, *content, show_folder, cancel, found); !taken) {
                return taken;
            }
        }
    }
    return {};
}

}  // namespace

std::vector<MissingSound> missing_sounds(const Show& show, const fs::path& show_folder) {
    std::vector<MissingSound> sounds = sounds_of(show);
    std::erase_if(sounds, [&](const MissingSound& each) { return is_there(show_folder / each.file); });
    return sounds;
}

Result<FoundSounds> find_missing(const std::vector<MissingSound>& missing, const fs::path& show_folder,
                                 const fs::path& search_folder, const std::atomic<bool>& cancel,
                                 const std::function<void(double)>& progress) {
    FoundSounds found;
    found.still_missing = missing;
    std::set<fs::path> names;
    for (const MissingSound& sound : missing) {
        names.insert(fs::path(sound.file).filename());
    }
    const Result<std::vector<fs::path>> files = candidates(search_folder, names, cancel);
    if (!files) {
        return tl::unexpected(files.error());
    }
    const auto searched_for = [](const MissingSound& sound) { return !sound.content.empty(); };
    std::size_t done = 0;
    for (const fs::path& file : *files) {
        if (cancel || std::ranges::none_of(found.still_missing, searched_for)) {
            break;
        }
        if (auto tried = try_file(file, show_folder, cancel, found); !tried) {
            return tl::unexpected(tried.error());
        }
        if (progress) {
            progress(static_cast<double>(++done) / static_cast<double>(files->size()));
        }
    }
    if (cancel) {
        return fail("The search was given up", search_folder.string(), "Start it again");
    }
    return found;
}

}  // namespace gasp
