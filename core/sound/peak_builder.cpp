// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/peak_storage.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

namespace gasp {

namespace {

constexpr std::int64_t block_frames = 32'768;
constexpr int overview_columns = 960;
/// One overview column for so many frames at most, and no overview under so few columns: it must stay cheap
/// beside the build and is not worth it where the build is done in a blink.
constexpr std::int64_t frames_a_column = 180'000;
constexpr std::int64_t fewest_columns = 32;

/// Decodes one segment after another into exact sums, from which all levels are made.
class SegmentDecoder {
  public:
    explicit SegmentDecoder(int channels)
        : channels_(static_cast<std::size_t>(channels)),
          block_(block_frames * channels_),
          extents_(PeakPyramid::segment_frames / PeakPyramid::bin_frames * channels_) {}

    /// Decodes up to `frames` frames from where the file stands; the number found. `each_block` is told the
    /// frames of every block and stops the work by returning false.
    template <class EachBlock>
    std::int64_t decode(SoundFile& file, std::int64_t frames, const EachBlock& each_block) {
        std::fill(extents_.begin(), extents_.end(), Extent{});
        std::int64_t done = 0;
        while (done < frames) {
            const std::int64_t wanted = std::min(block_frames, frames - done);
            const std::span block = std::span(block_).first(static_cast<std::size_t>(wanted) * channels_);
            const std::int64_t got = file.read(block);
            add_block(block.first(static_cast<std::size_t>(got) * channels_), done / PeakPyramid::bin_frames);
            done += got;
            if (!each_block(got) || got < wanted) {
                break;
            }
        }
        return done;
    }

    /// The segment of the frames decoded last.
    [[nodiscard]] std::unique_ptr<PeakSegment> segment(std::int64_t frames) {
        auto segment = std::make_unique<PeakSegment>(frames, static_cast<int>(channels_));
        for (int level = 0; level < PeakPyramid::levels; ++level) {
            for (std::size_t channel = 0; channel < channels_; ++channel) {
                const std::span<Peak> peaks = segment->level(static_cast<int>(channel), level);
                for (std::size_t bin = 0; bin < peaks.size(); ++bin) {
                    const auto frames_in_bin = segment->frames_of(level, static_cast<std::int64_t>(bin));
                    peaks[bin] = peak_of(extents_[bin * channels_ + channel], frames_in_bin);
                }
            }
            coarsen();
        }
        return segment;
    }

  private:
    void add_block(std::span<const std::int16_t> block, std::int64_t bin) {
        std::size_t at = static_cast<std::size_t>(bin) * channels_;
        const std::size_t bin_samples = static_cast<std::size_t>(PeakPyramid::bin_frames) * channels_;
        while (!block.empty()) {
            const std::size_t size = std::min(bin_samples, block.size());
            add_extents(block.first(size), std::span(extents_).subspan(at, channels_));
            block = block.subspan(size);
            at += channels_;
        }
    }

    void coarsen() {
        const std::size_t bins = extents_.size() / channels_;
        constexpr auto factor = static_cast<std::size_t>(PeakPyramid::level_factor);
        for (std::size_t bin = 0; bin < bins; ++bin) {
            for (std::size_t channel = 0; channel < channels_; ++channel) {
                Extent& coarse = extents_[bin / factor * channels_ + channel];
                const Extent fine = extents_[bin * channels_ + channel];
                bin % factor == 0 ? void(coarse = fine) : coarse.add(fine);
            }
        }
    }

    std::size_t channels_;
    std::vector<std::int16_t> block_;
    std::vector<Extent> extents_;  ///< bin after bin, one for each channel
};

}  // namespace

/// The work shared out among the threads of one build: they take runs of segments in turn, from the start on.
struct PeakBuilder::State {
    State(std::filesystem::path file_path, SoundInfo file_info, Options build_options)
        : path(std::move(file_path)),
          info(std::move(file_info)),
          options(build_options),
          pyramid(std::make_shared<PeakPyramid>(info.frames, info.channels, info.rate)),
          storage(pyramid->storage_),
          run_length(std::clamp<std::int64_t>(std::ssize(storage->segments) / 16, 1, 8)),
          finished(storage->segments.size()) {}

    void work(const std::atomic<bool>& cancel, const std::function<void(double)>& progress);
    [[nodiscard]] std::int64_t take_run();
    bool decode(std::int64_t segment, SoundFile& file, SegmentDecoder& decoder,
                const std::atomic<bool>& cancel, const std::function<void(double)>& progress);
    void report(std::int64_t frames, const std::function<void(double)>& progress);
    void finish(std::int64_t segment, std::int64_t frames, std::unique_ptr<const PeakSegment> built);
    [[nodiscard]] Result<void> outcome() const;

    const std::filesystem::path path;
    const SoundInfo info;
    const Options options;
    const std::shared_ptr<PeakPyramid> pyramid;
    const std::shared_ptr<PeakPyramid::Storage> storage;
    const std::int64_t run_length;

    std::mutex mutex;  ///< guards what follows
    std::int64_t next_run = 0;
    std::int64_t frames_done = 0;
    double share_told = 0.0;
    std::vector<bool> finished;
    std::int64_t first_unfinished = 0;
    std::optional<Error> trouble;
};

std::int64_t PeakBuilder::State::take_run() {
    const std::scoped_lock lock(mutex);
    const std::int64_t first = next_run * run_length;
    return first * PeakPyramid::segment_frames < storage->true_frames ? (++next_run, first) : -1;
}

void PeakBuilder::State::report(std::int64_t frames, const std::function<void(double)>& progress) {
    constexpr double least_step = 1.0 / 256;
    const std::scoped_lock lock(mutex);
    frames_done += frames;
    const double share = static_cast<double>(frames_done) / static_cast<double>(info.frames);
    if (progress && share >= share_told + least_step) {
        share_told = share;
        progress(share);
    }
}

void PeakBuilder::State::finish(std::int64_t segment, std::int64_t frames,
                                std::unique_ptr<const PeakSegment> built) {
    const std::scoped_lock lock(mutex);
    const std::int64_t end = segment * PeakPyramid::segment_frames + frames;
    const bool cut =
        frames < std::min(PeakPyramid::segment_frames, info.frames - segment * PeakPyramid::segment_frames);
    if (cut && end < storage->true_frames) {
        storage->true_frames = end;
    }
    storage->publish(segment, std::move(built));
    finished[static_cast<std::size_t>(segment)] = true;
    while (first_unfinished < std::ssize(finished) && finished[static_cast<std::size_t>(first_unfinished)]) {
        ++first_unfinished;
    }
    storage->built_frames =
        std::min<std::int64_t>(first_unfinished * PeakPyramid::segment_frames, storage->true_frames);
}

void PeakBuilder::State::work(const std::atomic<bool>& cancel, const std::function<void(double)>& progress) {
    Result<SoundFile> file = SoundFile::open(path);
    if (file && file->info().channels != info.channels) {
        file = fail("The sound file was changed while it was read", path.string(), "Open it again");
    }
    if (!file) {
        const std::scoped_lock lock(mutex);
        trouble = file.error();
        return;
    }
    SegmentDecoder decoder(info.channels);
    for (std::int64_t first = take_run(); first >= 0 && !cancel; first = take_run()) {
        // Every run begins with a seek, however many threads there are: so they find the same in damaged
        // files too.
        if (info.seeks_exactly && first > 0 && !file->seek(first * PeakPyramid::segment_frames)) {
            finish(first, 0, decoder.segment(0));
            continue;
        }
        const std::int64_t end = std::min(first + run_length, std::ssize(storage->segments));
        std::int64_t segment = first;
        while (segment < end && decode(segment, *file, decoder, cancel, progress)) {
            ++segment;
        }
    }
}

/// Decodes the next segment of a file; whether it is whole.
bool PeakBuilder::State::decode(std::int64_t segment, SoundFile& file, SegmentDecoder& decoder,
                                const std::atomic<bool>& cancel,
                                const std::function<void(double)>& progress) {
    const std::int64_t start = segment * PeakPyramid::segment_frames;
    const std::int64_t wanted = std::min(PeakPyramid::segment_frames, info.frames - start);
    const std::int64_t got = decoder.decode(file, wanted, [&](std::int64_t frames) {
        report(frames, progress);
        return !cancel;
    });
    if (cancel) {
        return false;
    }
    finish(segment, got, decoder.segment(got));
    return got == wanted;
}

Result<void> PeakBuilder::State::outcome() const {
    const std::int64_t found = storage->true_frames;
    if (found == info.frames) {
        return {};
    }
    const auto seconds = [&](std::int64_t frames) { return static_cast<double>(frames) / info.rate; };
    return fail(fmt::format("Only {:.3f} s of the {:.3f} s the file tells of can be decoded", seconds(found),
                            seconds(info.frames)),
                path.string(), "Copy the file again from where it came; what could be read is kept");
}

Result<PeakBuilder> PeakBuilder::open(const std::filesystem::path& path, Options options) {
    const Result<SoundFile> file = SoundFile::open(path);
    if (!file) {
        return tl::unexpected(file.error());
    }
    PeakBuilder builder;
    builder.state_ = std::make_shared<State>(path, file->info(), options);
    return builder;
}

std::shared_ptr<const PeakPyramid> PeakBuilder::pyramid() const {
    return state_->pyramid;
}

Result<void> PeakBuilder::build(const std::atomic<bool>& cancel,
                                const std::function<void(double)>& progress) {
    State& state = *state_;
    const std::int64_t columns =
        std::min<std::int64_t>(overview_columns, state.info.frames / frames_a_column);
    if (state.info.compressed && columns >= fewest_columns) {
        overview(static_cast<int>(columns), cancel);
    }
    {
        std::vector<std::jthread> helpers;
        const auto segments = static_cast<int>(std::min<std::size_t>(state.storage->segments.size(), 64));
        const int threads = state.info.seeks_exactly ? std::min(state.options.threads, segments) : 1;
        for (int i = 1; i < threads; ++i) {
            helpers.emplace_back([&] { state.work(cancel, progress); });
        }
        state.work(cancel, progress);
    }
    if (cancel) {
        return {};
    }
    if (state.storage->built_frames < state.storage->true_frames) {
        return tl::unexpected(*state.trouble);  // a thread that opened the file would have finished the work
    }
    state.storage->complete = true;
    if (progress) {
        progress(1.0);
    }
    return state.outcome();
}

void PeakBuilder::overview(int columns, const std::atomic<bool>& cancel) {
    const SoundInfo& info = state_->info;
    Result<SoundFile> file = SoundFile::open(state_->path);
    if (!file || file->info().channels != info.channels || columns < 1) {
        return;
    }
    const auto count = static_cast<std::size_t>(columns);
    const auto channels = static_cast<std::size_t>(info.channels);
    auto sparse = std::make_unique<SparseOverview>();
    sparse->spacing = static_cast<double>(info.frames) / columns;
    sparse->peaks.resize(count * channels);
    std::vector<std::int16_t> block(static_cast<std::size_t>(PeakPyramid::bin_frames) * channels);
    for (std::size_t column = 0; column < count && !cancel; ++column) {
        const double middle = (static_cast<double>(column) + 0.5) * sparse->spacing;
        if (!file->seek_near(static_cast<std::int64_t>(middle))) {
            continue;
        }
        const std::int64_t got = file->read(block);
        std::vector<Extent> extents(channels);
        add_extents(std::span(block).first(static_cast<std::size_t>(got) * channels), extents);
        for (std::size_t channel = 0; channel < channels; ++channel) {
            sparse->peaks[channel * count + column] = peak_of(extents[channel], got);
        }
    }
    if (!cancel) {
        state_->storage->publish(std::move(sparse));
    }
}

}  // namespace gasp
