// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/sound_file.hpp"

#include <memory>
#include <optional>
#include <span>

namespace gasp {

/// 20 log10 of a ratio of amplitudes; empty for 0.
[[nodiscard]] std::optional<double> decibels(double ratio);

/// Loudness as ITU-R BS.1770-4 and EBU R 128 have it, integrated and gated, and the true peak, by libebur128.
/// At rates the library does not take it measures nothing.
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
    /// The highest of all channels, at 0 dB full scale; empty for silence.
    [[nodiscard]] std::optional<double> true_peak_dbtp() const;

  private:
    struct Meter;
    std::unique_ptr<Meter> meter_;
    unsigned channels_;
};

}  // namespace gasp
