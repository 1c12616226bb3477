// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/power/current_curve.hpp"
#include "core/power/drops.hpp"
#include "core/show/rig.hpp"

#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// A circuit of the rig with what is known of it.
struct CircuitModel {
    std::optional<std::size_t> supply;   ///< its place among the rig's supplies
    std::optional<std::uint32_t> load;   ///< its place in PowerModel::draws; none without supply and current
    std::vector<std::uint32_t> further;  ///< loads it makes for the supplies that feed its supply
    std::optional<double> wire_ohm;      ///< of its own wires, there and back; none where a figure is blank
    bool way_known = false;              ///< its own wires and those it shares
};

/// A supply likewise.
struct SupplyModel {
    std::optional<double> feed_ohm;    ///< 0 where there is no shared feed; none where only half is given
    std::optional<double> return_ohm;  ///< of the shared return; none where blank
    bool in_loop = false;              ///< it feeds itself, by others or at once
    bool complete = true;              ///< the current of everything on it is known, standing current and all
};

/// The rig's electrics as plain values. Lists in the order of the rig.
struct PowerModel {
    std::vector<CircuitModel> circuits;
    std::vector<SupplyModel> supplies;
    std::vector<LoadDraw> draws;
    std::vector<LoadWay> ways;        ///< of `draws`
    std::vector<SharedWire> wires;    ///< feed and return of each supply, by turns
    std::vector<MicroAmps> standing;  ///< of each supply

    [[nodiscard]] static std::uint32_t feed_of(std::size_t supply) {
        return static_cast<std::uint32_t>(2 * supply);
    }
    [[nodiscard]] static std::uint32_t return_of(std::size_t supply) {
        return static_cast<std::uint32_t>(2 * supply + 1);
    }
};

/// A circuit counts where its supply and its current are given. Its wire runs from where the circuits of its
/// supply part (the supply's terminals where they share no feed); its way back is a wire alike to the supply,
/// or the shared return. What a supply gives always flows through its shared wires. A converter takes from
/// the supply that feeds it what it gives, by their voltages and its efficiency (85 % where blank), at that
/// supply's terminals; where a voltage is blank, or supplies feed each other in a loop, nothing is taken and
/// the supply that feeds is not complete.
[[nodiscard]] PowerModel power_model(const Rig& rig);

/// What the wires that all on a supply share bear: the feed, and the shared return where loads use it, as
/// `wire_peaks` (of PowerModel::wires) say. Without bound where neither size is given.
[[nodiscard]] double shared_wires_bear_a(const Supply& supply, std::size_t place,
                                         std::span<const MicroAmps> wire_peaks);

/// Whether its voltage can harm who touches it: mains, more than 30 V of a transformer (AC) or 60 V (DC), the
/// limits of class 2 circuits of NEC chapter 9 tables 11(A) and 11(B), from memory. A blank voltage is not.
[[nodiscard]] bool hazardous(const Supply& supply);

/// The place of a supply in the rig; none where there is none of that id.
[[nodiscard]] std::optional<std::size_t> place_of(const Rig& rig, const std::optional<SupplyId>& supply);

}  // namespace gasp
