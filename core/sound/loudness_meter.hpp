// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/sound_file.hpp"
#include "core/units/time.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// 20 log10 of a ratio of amplitudes; empty for 0.
[[nodiscard]] std::optional<double> decibels(double ratio);

/// The loudest that a meter of the time scales of EBU Tech 3341 shows: not gated, with silence taken to lie
/// before the sound.
struct LoudestMoment {
    double momentary_lufs = 0.0;   ///< the highest over 0.4 s
    double short_term_lufs = 0.0;  ///< the highest over 3 s
    Micros at{0};                  ///< the middle of the 0.4 s
};

/// Loudness as ITU-R BS.1770-4 and EBU R 128 have it: integrated and gated, the highest momentary and
/// short-term loudness, and the true peak, by libebur128. At rates the library does not take it measures
/// nothing.
class LoudnessMeter {
  public:
    /// Surrounds weigh more, low frequencies not at all, all other channels alike.
    LoudnessMeter(int rate, std::span<const SpeakerPosition> speakers);
    LoudnessMeter(LoudnessMeter&&) noexcept;
    ~LoudnessMeter();

    /// Interleaved frames of as many channels as there are speakers.
    void add(std::span<const float> frames);

    /// Empty when all is below the gate of -70 LUFS, or nothing was measured.
    [[nodiscard]] std::optional<double> lufs() const;
    /// Looked for every 10 ms, up to the last of them within the sound. Empty for silence.
    [[nodiscard]] std::optional<LoudestMoment> loudest() const;
    /// The highest of all channels, at 0 dB full scale; empty for silence.
    [[nodiscard]] std::optional<double> true_peak_dbtp() const;

  private:
    struct Meter;
    void end_step();
    [[nodiscard]] double energy_of_last(std::size_t steps) const;

    std::unique_ptr<Meter> meter_;
    unsigned channels_;
    int rate_;
    std::size_t step_frames_;      ///< 10 ms; 0 at rates too low for it
    std::size_t momentary_steps_;  ///< that make 0.4 s
    std::size_t short_term_steps_;
    std::size_t step_filled_ = 0;
    std::size_t steps_ = 0;
    /// The energy of all steps up to each, of the last ones in turn: what two differ by lies between them.
    std::vector<double> energy_up_to_;
    double momentary_ = 0.0;   ///< highest mean energy of a step over 0.4 s
    double short_term_ = 0.0;  ///< and over 3 s
    std::size_t loudest_end_ = 0;
};

}  // namespace gasp
