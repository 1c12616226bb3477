// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/mix.hpp"

#include "core/show/validity.hpp"
#include "core/sound/clip_reader.hpp"

#include <algorithm>
#include <utility>

namespace gasp {

struct Mix::Tracks {
    std::vector<ClipReader> clips;
    std::vector<Error> problems;
    std::int64_t frames = 0;
    std::int64_t position = 0;
};

Mix::Mix(std::unique_ptr<Tracks> tracks) : tracks_(std::move(tracks)) {}
Mix::Mix(Mix&&) noexcept = default;
Mix& Mix::operator=(Mix&&) noexcept = default;
Mix::~Mix() = default;

Mix Mix::open(const Sequence& sequence, const std::filesystem::path& show_folder, int rate) {
    auto tracks = std::make_unique<Tracks>();
    tracks->frames = frames_at(sequence.length, rate);
    for (const SoundClip& clip : sequence.clips) {
        if (!stays_inside(clip.file)) {
            tracks->problems.push_back({"The sound file lies outside the show's folder and is not opened",
                                        clip.file, "Copy it into the show's folder and choose it there"});
            continue;
        }
        Result<ClipReader> reader = ClipReader::open(clip, show_folder / clip.file, rate);
        if (reader) {
            tracks->clips.push_back(std::move(*reader));
        } else {
            tracks->problems.push_back(reader.error());
        }
    }
    return Mix(std::move(tracks));
}

const std::vector<Error>& Mix::problems() const {
    return tracks_->problems;
}

std::int64_t Mix::frames() const {
    return tracks_->frames;
}

void Mix::read(std::span<float> out) {
    std::ranges::fill(out, 0.0F);
    const std::int64_t left = std::max<std::int64_t>(0, tracks_->frames - tracks_->position);
    const auto wanted = static_cast<std::int64_t>(out.size() / 2);
    const std::span within = out.first(2 * static_cast<std::size_t>(std::min(left, wanted)));
    for (ClipReader& clip : tracks_->clips) {
        clip.add_to(within, tracks_->position);
    }
    tracks_->position += wanted;
}

void Mix::seek(std::int64_t frame) {
    tracks_->position = std::max<std::int64_t>(0, frame);
    for (ClipReader& clip : tracks_->clips) {
        clip.seek(tracks_->position);
    }
}

}  // namespace gasp
