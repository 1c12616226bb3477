// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <vector>

namespace gasp::test {

/// A part of an impact's sound: a mode that rings out.
struct Mode {
    double hz = 0.0;
    double ring_s = 0.0;  ///< until it is down to 1/e
    double level = 1.0;
};

/// What is heard of something struck, after modal synthesis (K. van den Doel, D. Pai, The sounds of physical
/// shapes, Presence 7, 1998; from memory): a sum of modes, each exp(-t / ring) sin(2 pi f t), with a burst of
/// 1 ms of noise where the bodies meet.
struct Impact {
    std::vector<Mode> modes;
    double burst = 0.0;
};

[[nodiscard]] Impact click();  ///< small and bright, as of a valve's armature
[[nodiscard]] Impact thump();  ///< large and dark, as of a piston at its end cap

/// A recording in the making, mono.
class Recording {
  public:
    Recording(double length_s, int rate, unsigned seed);

    /// From `time_s` on, of this peak.
    void strike(const Impact& impact, double time_s, double peak);
    void add_white(double rms);
    /// White noise with 3 dB less for each octave up: the filter of Paul Kellet (from memory).
    void add_pink(double rms);
    void add_hum(double hz, double rms);
    /// White noise while air flows.
    void add_hiss(double from_s, double to_s, double rms);
    void add(const std::vector<float>& sound, double time_s, double gain);

    [[nodiscard]] const std::vector<float>& samples() const { return samples_; }
    [[nodiscard]] int rate() const { return rate_; }

  private:
    double normal();

    std::vector<float> samples_;
    int rate_;
    unsigned long long state_;
};

}  // namespace gasp::test
