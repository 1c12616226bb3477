// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/stage/piece_map.hpp"

#include <array>
#include <atomic>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// The one format of the audition: stereo, 16 bit, 48 kHz. Devices and their servers convert where they must.
inline constexpr int sound_rate = 48'000;
inline constexpr int sound_channels = 2;

/// The ring between the thread that reads the mix, the sound device, and the window. Nobody waits for
/// anybody: a device that finds the ring empty is given silence. Starts, stops, jumps and changes of volume
/// are ramped over `ramp_frames`, so that nothing clicks.
///
/// Three counts of frames: *written* into the ring, and *given* to the device, which runs on through silence.
/// The turns tell which written frame a given one was.
class SoundFeed {
  public:
    static constexpr std::int64_t ramp_frames = 240;

    explicit SoundFeed(std::size_t frames = 16'384);  ///< a power of two

    // The reader's side, one thread.
    [[nodiscard]] std::int64_t free_frames() const;
    [[nodiscard]] std::int64_t written() const { return written_.load(std::memory_order_relaxed); }
    void write(std::span<const std::int16_t> interleaved);  ///< Requires: it fits.
    void restart();  ///< what is written and not given yet is faded out and skipped
    void finish();   ///< silence follows what is written so far, and is no underrun

    // The device's side, one thread. Neither locks nor allocates.
    void read(std::span<std::int16_t> interleaved);

    // Any thread.
    void set_held(bool held) { held_.store(held, std::memory_order_relaxed); }
    void set_volume(float volume) { volume_.store(volume, std::memory_order_relaxed); }
    [[nodiscard]] float volume() const { return volume_.load(std::memory_order_relaxed); }
    [[nodiscard]] std::int64_t given() const { return given_.load(std::memory_order_acquire); }
    [[nodiscard]] bool quiet() const {
        return quiet_.load(std::memory_order_relaxed);
    }  ///< held, and faded out
    [[nodiscard]] bool ended() const {
        return ended_.load(std::memory_order_relaxed);
    }  ///< all up to finish() given
    [[nodiscard]] std::uint64_t underruns() const { return underruns_.load(std::memory_order_relaxed); }

    // The window's side, one thread: the next turn, from given (`from`) to written (`to`) frames; empty when
    // all were taken.
    [[nodiscard]] std::optional<Piece> take_turn();

  private:
    struct Pass;  ///< what one read() sees of the other threads
    void give_frame(Pass& pass, std::int16_t* out);
    void set_moving(const Pass& pass, bool moving);
    void put_turn(const Pass& pass);

    const std::int64_t mask_;
    std::vector<std::int16_t> ring_;
    std::atomic<std::int64_t> written_{0};
    std::atomic<std::int64_t> read_{0};
    std::atomic<std::int64_t> given_{0};
    std::atomic<std::int64_t> restart_at_{0};
    std::atomic<std::int64_t> end_at_;
    std::atomic<bool> held_{true};
    std::atomic<bool> quiet_{true};
    std::atomic<bool> ended_{false};
    std::atomic<float> volume_{1.0F};
    std::atomic<std::uint64_t> underruns_{0};

    // Of the device's side alone.
    float gain_ = 0.0F;
    bool moving_ = false;
    bool turn_owed_ = false;

    std::array<Piece, 256> turns_{};
    std::atomic<std::uint32_t> turns_put_{0};
    std::atomic<std::uint32_t> turns_taken_{0};
};

}  // namespace gasp
