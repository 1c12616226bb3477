// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/sound_shelf.hpp"

#include "core/sound/sound_file.hpp"

#include <cmath>
#include <system_error>

namespace gasp {
namespace {

Result<Micros> claimed_length(const std::filesystem::path& path) {
    const Result<SoundFile> sound = SoundFile::open(path);
    if (!sound) {
        return tl::unexpected(sound.error());
    }
    const SoundInfo& info = sound->info();
    return Micros{std::llround(static_cast<double>(info.frames) * 1e6 / info.rate)};
}

}  // namespace

SoundShelf::Stamp SoundShelf::stamp_of(const std::filesystem::path& path) {
    std::error_code problem;
    Stamp stamp;
    const auto changed = std::filesystem::last_write_time(path, problem);
    stamp.changed = problem ? 0 : changed.time_since_epoch().count();
    const auto bytes = std::filesystem::file_size(path, problem);
    stamp.bytes = problem ? 0 : bytes;
    return stamp;
}

const Result<Micros>& SoundShelf::length(const std::string& file) {
    const std::filesystem::path path = folder_ / file;
    const Stamp stamp = stamp_of(path);
    auto known = known_.find(file);
    if (known == known_.end()) {
        known = known_.emplace(file, Known{stamp, claimed_length(path)}).first;
    } else if (known->second.stamp != stamp) {
        known->second = {stamp, claimed_length(path)};
    }
    return known->second.length;
}

const MixReport& SoundShelf::mix(const Sequence& sequence, const std::function<bool()>& stopped) {
    std::vector<Stamp> stamps;
    for (const SoundClip& clip : sequence.clips) {
        stamps.push_back(stamp_of(folder_ / clip.file));
    }
    KnownMix& known = mixes_[sequence.id];
    if (known.report.rate == 0 || known.clips != sequence.clips || known.stamps != stamps ||
        known.length != sequence.length) {
        std::atomic<bool> cancel{false};
        known = {sequence.clips, std::move(stamps), sequence.length,
                 report_of_mix(sequence, folder_, cancel, [&](double) { cancel = stopped && stopped(); })};
        if (cancel) {
            known.report = {};
        }
    }
    return known.report;
}

}  // namespace gasp
