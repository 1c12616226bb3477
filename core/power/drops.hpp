// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/power/current_curve.hpp"

#include <array>
#include <optional>
#include <span>
#include <vector>

namespace gasp {

// What is lost in the wires between a supply and its loads. Every load takes its rated current whatever is
// left at its terminals: what regulates itself takes more rather than less as the voltage sinks, and a coil,
// which takes less, then comes out a little worse than it is (by the drop's own share), never better. With
// currents given, Kirchhoff's laws leave one addition for each wire: it carries the sum of the currents of
// the loads beyond it.

/// A wire that several loads share: a feed from a supply, or a shared return.
struct SharedWire {
    double ohm = 0.0;
    MicroAmps standing = 0;  ///< what flows in it always
};

/// The shared wires on a way, by their places: the feed, and the return.
using SharedWays = std::array<std::optional<std::uint32_t>, 2>;

/// The way of a load's current.
struct LoadWay {
    double own_ohm = 0.0;  ///< of the wires it has for itself, there and back
    SharedWays shared;
};

/// What is lost on a load's way at a moment.
struct Drop {
    double volts = 0.0;                ///< in all
    std::array<double, 2> shared_v{};  ///< of that, in each shared wire
    Micros at{0};
    bool operator==(const Drop&) const = default;
};

/// The worst a load meets.
struct WorstDrop {
    Drop worst;     ///< while it is on
    Drop starting;  ///< within `starting_time` of switching on, when a coil has to pull in
    bool operator==(const WorstDrop&) const = default;
};

/// The most that is lost in the wires that some loads share, surges and all, by whatever flows in them.
struct SharedLoss {
    SharedWays wires;
    Drop most;
    bool operator==(const SharedLoss&) const = default;
};

struct WorstDrops {
    std::vector<std::optional<WorstDrop>> loads;  ///< empty for one that is never on
    std::vector<MicroAmps> wire_peaks;            ///< most that each shared wire carries, surges left out
    std::vector<SharedLoss> shared;               ///< for each `shared` among the ways, once
};

/// A coil has pulled in by then (common practice, no source).
inline constexpr Micros starting_time{100'000};

/// `loads` and `ways` alike; switchings as current_curves takes them. Each moment costs an addition for every
/// load that is on.
[[nodiscard]] WorstDrops worst_drops(std::span<const LoadDraw> loads, std::span<const LoadWay> ways,
                                     std::span<const SharedWire> wires, std::span<const LoadSwitch> switches,
                                     Micros length);

/// What is lost in the shared wires alone, in each of `shared`, with these currents flowing.
[[nodiscard]] std::vector<SharedLoss> shared_losses(std::span<const MicroAmps> currents,
                                                    std::span<const LoadWay> ways,
                                                    std::span<const SharedWire> wires);

/// The drop at each load with these currents flowing, each load's own in `currents`.
[[nodiscard]] std::vector<double> drops_at(std::span<const MicroAmps> currents, std::span<const LoadWay> ways,
                                           std::span<const SharedWire> wires);

}  // namespace gasp
