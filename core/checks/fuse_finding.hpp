// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/circuits.hpp"
#include "core/schedule/power_together.hpp"

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace gasp {

/// What flows through a fuse.
struct FuseLoad {
    double continuous_a = 0.0;
    bool known = true;  ///< else what more flows for a while is blank: nothing is said of it
    std::function<bool(double fuse_a)> bears;                     ///< whatever more flows for a while
    std::function<std::optional<double>(double wire_a)> fitting;  ///< the smallest fuse that does
    std::function<std::string(double fuse_a)> what;               ///< "8 A for 30 ms"
};

/// What a sequence sends through a supply's fuse. The run must outlive it.
[[nodiscard]] FuseLoad fuse_load(const Show& show, const PowerRun& run, std::size_t supply);
/// The same of those `runs` that run at once.
[[nodiscard]] FuseLoad fuse_load(std::span<const PowerRun> runs, const PowerTogether& together,
                                 std::size_t supply);

/// A fuse, the wire behind it, and what flows in both.
struct Guarded {
    std::string fuse;  ///< "the fuse of "lamp""
    double fuse_a = 0.0;
    std::string wire;  ///< "its wire"
    Figure mm2;
    std::string at;  ///< "inrush"
    FuseLoad load;
    bool licensed = false;  ///< work for a licensed electrician
};

/// What would do: another fuse, or another wire and its fuse.
[[nodiscard]] std::string other_fuse(const FuseLoad& load, double wire_a, double mm2, UnitSystem units);

/// That the fuse is too large for its wire or too small for what flows: `about` with words, figure, limit and
/// remedy; none where it fits.
[[nodiscard]] std::optional<Finding> find_fuse(const Guarded& guarded, Finding about, UnitSystem units);

/// The same of a supply's fuse and the thinner of the wires it guards: its feed, and the shared return where
/// `back_a`, the most that flows in it, says that loads use it.
[[nodiscard]] std::vector<Finding> find_supply_fuse(const Supply& supply, const FuseLoad& load, double back_a,
                                                    UnitSystem units);

}  // namespace gasp
