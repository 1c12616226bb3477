// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/drops.hpp"

#include "core/power/current_walk.hpp"

#include <algorithm>

namespace gasp {
namespace {

/// What flows, and in which wire.
class Flowing {
  public:
    Flowing(std::span<const LoadWay> ways, std::span<const SharedWire> wires)
        : ways_(ways), wires_(wires), own_(ways.size()) {
        for (const SharedWire& wire : wires) {
            carried_.push_back(wire.standing);
        }
    }

    void add(std::uint32_t load, MicroAmps more) {
        own_[load] += more;
        for (const auto& wire : ways_[load].shared) {
            if (wire) {
                carried_[*wire] += more;
            }
        }
    }

    [[nodiscard]] Drop drop_at(std::uint32_t load, Micros now) const {
        Drop drop = lost_in(ways_[load].shared, now);
        drop.volts += ways_[load].own_ohm * amps(own_[load]);
        return drop;
    }

    [[nodiscard]] Drop lost_in(const SharedWays& shared, Micros now) const {
        Drop drop{0.0, {}, now};
        for (std::size_t i = 0; i < drop.shared_v.size(); ++i) {
            if (const auto& wire = shared[i]) {
                drop.shared_v[i] = wires_[*wire].ohm * amps(carried_[*wire]);
                drop.volts += drop.shared_v[i];
            }
        }
        return drop;
    }

  private:
    std::span<const LoadWay> ways_;
    std::span<const SharedWire> wires_;
    std::vector<MicroAmps> own_;
    std::vector<MicroAmps> carried_;
};

std::vector<SharedLoss> no_losses(std::span<const LoadWay> ways) {
    std::vector<SharedLoss> losses;
    for (const LoadWay& way : ways) {
        if (std::ranges::find(losses, way.shared, &SharedLoss::wires) == losses.end()) {
            losses.push_back({way.shared, {}});
        }
    }
    return losses;
}

/// Keeps the worst of every load and wire while moments go by.
class Worst {
  public:
    Worst(std::span<const LoadWay> ways, std::span<const SharedWire> wires)
        : ways_(ways), flowing_(ways, wires), since_(ways.size()) {
        found_.loads.resize(ways.size());
        for (const SharedWire& wire : wires) {
            steady_.push_back(wire.standing);
        }
        found_.wire_peaks = steady_;
        found_.shared = no_losses(ways);
    }

    void step(const CurrentStep& step) {
        if (step.time != now_) {
            settle();
            now_ = step.time;
        }
        flowing_.add(step.load, step.total);
        for (const auto& wire : ways_[step.load].shared) {
            if (wire) {
                steady_[*wire] += step.steady;
            }
        }
        if (!step.switched) {
            return;
        }
        if (step.on) {
            since_[step.load] = step.time;
            on_.push_back(step.load);
        } else {
            std::erase(on_, step.load);
        }
    }

    WorstDrops finished() {
        settle();
        return std::move(found_);
    }

  private:
    /// All that happens at this moment has been told: what the loads meet from here on counts.
    void settle() {
        for (std::size_t wire = 0; wire < steady_.size(); ++wire) {
            found_.wire_peaks[wire] = std::max(found_.wire_peaks[wire], steady_[wire]);
        }
        for (SharedLoss& loss : found_.shared) {
            const Drop now = flowing_.lost_in(loss.wires, now_);
            if (now.volts > loss.most.volts) {
                loss.most = now;
            }
        }
        for (const std::uint32_t load : on_) {
            const Drop now = flowing_.drop_at(load, now_);
            std::optional<WorstDrop>& drop = found_.loads[load];
            if (!drop) {
                drop = WorstDrop{now, now};
                continue;
            }
            if (now.volts > drop->worst.volts) {
                drop->worst = now;
            }
            if (now.volts > drop->starting.volts && now_ - since_[load] < starting_time) {
                drop->starting = now;
            }
        }
    }

    std::span<const LoadWay> ways_;
    Flowing flowing_;
    Micros now_{0};
    std::vector<std::uint32_t> on_;
    std::vector<Micros> since_;
    std::vector<MicroAmps> steady_;  ///< in each wire
    WorstDrops found_;
};

}  // namespace

WorstDrops worst_drops(std::span<const LoadDraw> loads, std::span<const LoadWay> ways,
                       std::span<const SharedWire> wires, std::span<const LoadSwitch> switches,
                       Micros length) {
    Worst worst(ways, wires);
    CurrentWalk(loads).run(switches, length, [&](const CurrentStep& step) { worst.step(step); });
    return worst.finished();
}

std::vector<SharedLoss> shared_losses(std::span<const MicroAmps> currents, std::span<const LoadWay> ways,
                                      std::span<const SharedWire> wires) {
    Flowing flowing(ways, wires);
    for (std::uint32_t load = 0; load < currents.size(); ++load) {
        flowing.add(load, currents[load]);
    }
    std::vector<SharedLoss> losses = no_losses(ways);
    for (SharedLoss& loss : losses) {
        loss.most = flowing.lost_in(loss.wires, Micros{0});
    }
    return losses;
}

std::vector<double> drops_at(std::span<const MicroAmps> currents, std::span<const LoadWay> ways,
                             std::span<const SharedWire> wires) {
    Flowing flowing(ways, wires);
    for (std::uint32_t load = 0; load < currents.size(); ++load) {
        flowing.add(load, currents[load]);
    }
    std::vector<double> drops;
    for (std::uint32_t load = 0; load < currents.size(); ++load) {
        drops.push_back(flowing.drop_at(load, Micros{0}).volts);
    }
    return drops;
}

}  // namespace gasp
