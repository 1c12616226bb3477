// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/night/pressure_polynomial.hpp"
#include "core/air/night/stroke_cache.hpp"

#include <array>
#include <mutex>
#include <optional>

namespace gasp {

/// One pattern over all pressures of the receiver, the compressor running or not at its beginning. Stretches
/// of pressure are worked out when first asked for; each follows from its two ends alone.
class StrokeCache::Family {
  public:
    Family(const StrokeCache& cache, StrokePattern pattern);

    [[nodiscard]] Result<JointStrokes> at(double start, bool compressor_on);

  private:
    enum class State : std::uint8_t { polynomial, halved, too_narrow, failed };
    struct Stretch {
        Stretch(double from, double to) : low(from), high(to) {}
        double low;
        double high;
        std::once_flag once;
        State state = State::too_narrow;
        std::optional<JointStrokes> at_low;  ///< known from the stretch it is half of
        std::optional<JointStrokes> at_high;
        std::vector<JointStrokes> values;  ///< at the points of the polynomial
        std::unique_ptr<Stretch> lower;
        std::unique_ptr<Stretch> upper;
        Error error;
    };
    using Roots = std::vector<std::unique_ptr<Stretch>>;

    void work_out(Stretch& stretch, bool compressor_on) const;
    /// More values, at every second of twice as many points. False on an error, noted in the stretch.
    bool refine(Stretch& stretch, bool compressor_on) const;
    [[nodiscard]] static bool foretold(const Stretch& stretch);
    [[nodiscard]] static JointStrokes between(const std::vector<JointStrokes>& values, double low,
                                              double high, double start);
    [[nodiscard]] Result<JointStrokes> played(const Stretch& stretch, double start, bool compressor_on) const;
    /// `points` is how many values there would be, had none of another kind been met.
    static void halve(Stretch& stretch, std::size_t points);

    const StrokeCache& cache_;
    StrokePattern pattern_;
    std::array<Roots, 2> roots_;  ///< compressor not running, running
};

}  // namespace gasp
