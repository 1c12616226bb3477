// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/quiet_receiver.hpp"

#include "core/air/run/filling.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr double step_pa = 1000.0;  // where the leak is not choked

/// Time in which dp/dt = constant + factor p goes from `from` to `to`; infinite where it never gets there.
double time_between(double constant, double factor, double from, double to) {
    const double rate = constant + factor * from;
    const double gain = factor * (to - from) / rate;
    if (rate == 0.0 || (to - from) / rate < 0.0 || gain <= -1.0) {
        return std::numeric_limits<double>::infinity();
    }
    return factor == 0.0 ? (to - from) / rate : std::log1p(gain) / factor;
}

double after(double constant, double factor, double from, double time) {
    const double rate = constant + factor * from;
    return from + (factor == 0.0 ? rate * time : rate / factor * std::expm1(factor * time));
}

}  // namespace

QuietReceiver::QuietReceiver(const PlantModel& plant, std::vector<Vessel> vessels, double pressure)
    : plant_(plant),
      vessels_(std::move(vessels)),
      kept_(vessels_.size(), std::min(pressure, plant.set_pressure)),
      lift_(gas_constant * plant.ambient_temperature * plant.exponent / plant.receiver) {
    state_.pressure = state_.lowest = pressure;
    switch_over();
    state_.starts = 0;  // what runs from the opening has not started since
}

QuietReceiver::Piece QuietReceiver::piece_at(double low, double high, double probe) const {
    Piece piece{-lift_ * state_.drawn, 0.0, low, high};
    if (state_.on && plant_.delivery + plant_.delivery_slope * state_.pressure > 0.0) {
        piece.constant += lift_ * plant_.delivery;
        piece.factor += lift_ * plant_.delivery_slope;
    }
    if (plant_.leak.c > 0.0 && probe > plant_.ambient_pressure) {
        const double out = mass_flow(plant_.leak, probe, plant_.ambient_temperature, plant_.ambient_pressure,
                                     plant_.ambient_temperature);
        piece.factor -= lift_ * out / probe;
    }
    return piece;
}

QuietReceiver::Piece QuietReceiver::piece() const {
    const double pressure = state_.pressure;
    constexpr double unlimited = std::numeric_limits<double>::infinity();
    const double choked_from = plant_.leak.c > 0.0 ? plant_.ambient_pressure / std::max(plant_.leak.b, 0.01)
                                                   : plant_.ambient_pressure;
    Piece piece = piece_at(choked_from, unlimited, std::max(pressure, choked_from));
    const bool rises = piece_at(0.0, 0.0, pressure).rate(pressure) > 0.0;
    if (pressure < choked_from || (pressure == choked_from && !rises)) {
        const double least = std::max(pressure - step_pa, plant_.ambient_pressure);
        const double most = std::min(pressure + step_pa, choked_from);
        piece = piece_at(least, most, 0.5 * (pressure + (rises ? most : least)));
    }
    if (rises && pressure < plant_.set_pressure) {
        piece.most = std::min(piece.most, plant_.set_pressure);
        for (const double kept : kept_) {
            piece.most = kept > pressure ? std::min(piece.most, kept) : piece.most;
        }
        const double alone = piece.rate(pressure);
        double share = 1.0;
        // Air that gets warm takes less room: the second time that is known.
        for (int i = 0; i < 3; ++i) {
            share = plant_.receiver / (plant_.receiver + room(share * alone));
        }
        piece.constant *= share;
        piece.factor *= share;
    }
    if (state_.on && pressure < plant_.cut_out) {
        piece.most = std::min(piece.most, plant_.cut_out);
    } else if (!state_.on && pressure > plant_.cut_in) {
        piece.least = std::max(piece.least, plant_.cut_in);
    }
    return piece;
}

void QuietReceiver::switch_over() {
    if (state_.on && state_.pressure >= plant_.cut_out) {
        state_.on = false;
        runs_.push_back({state_.on_since_s, state_.time_s});
        state_.runs = runs_.size();
    } else if (!state_.on && plant_.cut_in > 0.0 && state_.pressure <= plant_.cut_in) {
        state_.on = true;
        state_.on_since_s = state_.time_s;
        ++state_.starts;
    }
}

void QuietReceiver::note() {
    if (state_.pressure < state_.lowest) {
        state_.lowest = state_.pressure;
        state_.lowest_at_s = state_.time_s;
    }
    if (curve_ != nullptr) {
        curve_->points.push_back({state_.time_s, (state_.pressure - plant_.ambient_pressure) * 1e-3});
    }
}

double QuietReceiver::room(double rise) const {
    const double around = plant_.ambient_temperature;
    double all = 0.0;
    for (std::size_t i = 0; i < vessels_.size(); ++i) {
        const Vessel& vessel = vessels_[i];
        if (kept_[i] <= state_.pressure) {
            const double warm = temperature_while_filling(vessel.chamber, vessel.heat, rise, around);
            all += vessel.reservoir + vessel.chamber * around / warm;
        }
    }
    return all;
}

void QuietReceiver::fill_vessels() {
    const double source = std::min(state_.pressure, plant_.set_pressure);
    for (std::size_t i = 0; i < kept_.size(); ++i) {
        const bool holds = vessels_[i].reservoir + vessels_[i].chamber > 0.0;
        kept_[i] = holds ? std::max(kept_[i], source) : source;
    }
}

void QuietReceiver::step(double longest_s) {
    switch_over();
    const Piece now = piece();
    const double rate = now.rate(state_.pressure);
    const bool empty = rate <= 0.0 && state_.pressure <= plant_.ambient_pressure;
    const double goal = rate > 0.0 ? now.most : now.least;
    const double needed = !empty && std::isfinite(goal)
                              ? time_between(now.constant, now.factor, state_.pressure, goal)
                              : std::numeric_limits<double>::infinity();
    const bool reaches = needed <= longest_s;
    const double passed = reaches ? needed : longest_s;
    if (!empty) {
        state_.pressure = reaches ? goal : after(now.constant, now.factor, state_.pressure, longest_s);
    }
    state_.on_s += state_.on ? passed : 0.0;
    state_.time_s += passed;
    fill_vessels();
    switch_over();
    note();
}

/// How long a straight line stays near the curve: the bow of a chord over h is h^2 |p''| / 8.
double QuietReceiver::straight_s() const {
    constexpr double near = 2e-4;  // of the absolute pressure
    constexpr double shortest_s = 1e-3;
    const Piece now = piece();
    const double bend = std::abs(now.factor * now.rate(state_.pressure));
    return std::max(std::sqrt(8.0 * near * state_.pressure / bend), shortest_s);
}

void QuietReceiver::advance_to(double time_s) {
    if (std::isinf(plant_.receiver)) {
        state_.time_s = time_s;
        note();
        return;
    }
    while (state_.time_s < time_s && !chatters()) {
        const double left = time_s - state_.time_s;
        const double before = state_.time_s;
        step(curve_ == nullptr ? left : std::min(left, straight_s()));
        if (state_.time_s == before + left) {
            state_.time_s = time_s;  // whatever the rounding
        }
    }
}

void QuietReceiver::draw(double mass_flow) {
    state_.drawn = mass_flow;
}

void QuietReceiver::take_over(double time_s, double lowest, double pressure, bool compressor_on, double on_s,
                              int starts, std::span<const double> kept) {
    const bool was_on = state_.on;
    if (was_on && (!compressor_on || starts > 0)) {
        runs_.push_back({state_.on_since_s, std::min(state_.time_s + on_s, time_s)});
    } else if (!was_on && starts > 0 && !compressor_on) {
        runs_.push_back({time_s - on_s, time_s});
    }
    if (compressor_on && (!was_on || starts > 0)) {
        state_.on_since_s = was_on ? time_s : time_s - on_s;
    }
    if (lowest < state_.lowest) {
        state_.lowest = lowest;
        state_.lowest_at_s = time_s;
    }
    state_.time_s = time_s;
    state_.pressure = pressure;
    state_.drawn = 0.0;
    kept_.assign(kept.begin(), kept.end());
    fill_vessels();
    state_.on = compressor_on;
    state_.on_s += on_s;
    state_.starts += starts;
    state_.runs = runs_.size();
    note();
}

void QuietReceiver::restore(const State& state) {
    state_ = state;
    runs_.resize(state.runs);
}

void QuietReceiver::trace(Curve* curve) {
    curve_ = curve;
    note();
}

std::vector<CompressorRun> QuietReceiver::compressor_runs() const {
    std::vector<CompressorRun> all = runs_;
    if (state_.on) {
        all.push_back({state_.on_since_s, state_.time_s});
    }
    return all;
}

}  // namespace gasp
