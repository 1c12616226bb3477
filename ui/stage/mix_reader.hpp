// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/mix.hpp"
#include "core/sound/slow_sound.hpp"
#include "ui/stage/piece_map.hpp"
#include "ui/stage/play_path.hpp"
#include "ui/stage/sound_feed.hpp"

#include <array>
#include <atomic>
#include <condition_variable>
#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <thread>
#include <vector>

namespace gasp {

/// What is read: a copy of the sequence, and the folder its files are relative to.
struct Programme {
    Sequence sequence;
    std::filesystem::path folder;
};

/// A thread that keeps a feed filled from the mix of a sequence, along a path, and remembers which frame of
/// the sequence each written frame was. Its calls return at once; of several that are waiting the last one
/// counts.
class MixReader {
  public:
    /// `told` is called from the thread with a sentence for each sound that could not be opened.
    MixReader(SoundFeed& feed, std::function<void(std::string)> told);
    MixReader(const MixReader&) = delete;
    MixReader& operator=(const MixReader&) = delete;
    ~MixReader();

    /// What is to be played: from a frame on, in a loop or not, so many times as slow.
    struct Run {
        std::int64_t start = 0;
        std::optional<FrameSpan> loop;
        std::optional<std::int64_t> length;  ///< no more than so many frames
        int times = 1;
        std::uint32_t tag = 0;  ///< comes back with every frame read for it
    };

    /// Fades out what was read before and reads on as told. The programme of the last call, the very same,
    /// is not opened again.
    void start(std::shared_ptr<const Programme> programme, const Run& run);
    /// The sequence's sounds have changed, its length has not: reads on from where it is, with a short
    /// cross-fade.
    void exchange(std::shared_ptr<const Programme> programme);
    void rest();  ///< reads no further

    /// The sequence's frame that a written frame was, with the tag of its start(). Empty: forgotten or not
    /// written.
    [[nodiscard]] std::optional<PieceMap::Value> place_of(std::int64_t written) const;
    /// Peak of the 512 frames about a written frame, 0..1, while it is not long past.
    [[nodiscard]] float level_of(std::int64_t written) const;

  private:
    struct Command {
        std::shared_ptr<const Programme> programme;
        Run run;
        bool restart = false;
        bool rest = false;
    };
    void post(Command command);
    void run(const std::stop_token& stop);
    void obey(const Command& command);
    void begin(const Command& command);
    void change_mix(const Programme& programme);
    Mix open(const Programme& programme);
    void place_from(std::int64_t written);
    bool fill();
    bool fill_slowly();
    std::span<float> read_mix(std::int64_t frames);
    void give(std::span<const float> frames);
    void finish();
    void note_levels(std::span<const float> frames, std::int64_t written);

    SoundFeed& feed_;
    std::function<void(std::string)> told_;

    mutable std::mutex mutex_;  ///< of the two below; never taken by the sound device
    std::optional<Command> command_;
    PieceMap places_;
    std::condition_variable_any wake_;

    // Of the thread alone.
    std::shared_ptr<const Programme> opened_;  ///< that mix_ is of
    std::optional<Mix> mix_;
    std::optional<PlayPath> path_;
    std::optional<SlowSound> slow_;
    std::int64_t slow_from_ = 0;  ///< the written frame that is the first of slow_
    std::uint32_t tag_ = 0;
    std::vector<std::string> problems_;
    std::vector<float> mixed_;
    std::vector<float> before_;  ///< the old mix, while it is faded into the new one
    std::int64_t fade_left_ = 0;
    std::vector<std::int16_t> samples_;

    static constexpr std::int64_t level_frames = 512;
    std::array<std::atomic<float>, 128> levels_{};

    std::jthread thread_;  ///< last: it ends before what it uses
};

}  // namespace gasp
