// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/air_system.hpp"
#include "core/air/run/stroke_command.hpp"

#include <array>
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

namespace gasp {

/// A stroke out and back of one actuator by CVODE (BDF): the figures of each stroke in the order of Stroke's
/// (10, 50, 95, 100 % of the way, speed at the stop, free air, receiver and working pressure at the strike).
/// Solvers are made once and started anew for each stretch between events.
class CvodeStroke {
  public:
    CvodeStroke(const AirModel& model, std::span<const StrokeCommand> commands, double length);
    ~CvodeStroke();
    CvodeStroke(const CvodeStroke&) = delete;
    CvodeStroke& operator=(const CvodeStroke&) = delete;

    [[nodiscard]] std::vector<double> run(double tolerance);

  private:
    struct Solver;

    void begin(double tolerance);
    void integrate(double until);
    [[nodiscard]] Solver& solver() const;
    void start(Solver& solver);
    [[nodiscard]] bool stop_for_roots(const Solver& solver);
    void note_share(std::size_t share);
    void note_stop();

    const AirModel& model_;
    std::span<const StrokeCommand> commands_;
    double length_;
    AirSystem system_;
    std::unique_ptr<Solver> moving_;
    std::unique_ptr<Solver> held_;
    double tolerance_ = 1e-6;
    double time_ = 0.0;
    double supplied_ = 0.0;
    std::vector<double> y_;
    std::vector<double> tolerances_;
    std::vector<double> figures_;
    std::size_t stroke_ = 0;
};

}  // namespace gasp
