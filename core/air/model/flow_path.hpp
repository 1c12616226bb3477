// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/flow.hpp"

#include <cmath>

namespace gasp {

/// A Conductance with what its flow function needs worked out, for the innermost loop: see mass_flow.
class FlowPath {
  public:
    FlowPath() = default;
    explicit FlowPath(const Conductance& path)
        : choked_(path.c * reference_density * std::sqrt(reference_temperature)),
          b_(path.b),
          per_ratio_(1.0 / (1.0 - path.b)),
          per_rest_(ellipse(straight_from) / (1.0 - straight_from)) {}

    /// Signed: negative when the air flows back.
    [[nodiscard]] double flow(double up, double up_temperature, double down, double down_temperature) const {
        return down <= up ? one_way(up, up_temperature, down) : -one_way(down, down_temperature, up);
    }

    /// Requires: down <= up.
    [[nodiscard]] double one_way(double up, double up_temperature, double down) const {
        return choked_ * up / std::sqrt(up_temperature) * share(down / up);
    }

    [[nodiscard]] bool shut() const { return choked_ == 0.0; }
    /// Which of the three pieces of the flow function holds, and which way: its kinks lie between them.
    [[nodiscard]] int piece(double up, double down) const {
        const double ratio = down <= up ? down / up : up / down;
        const int piece = ratio <= b_ ? 1 : ratio <= straight_from ? 2 : 3;
        return piece == 3 || down <= up ? piece : -piece;
    }

  private:
    static constexpr double straight_from = 0.999;

    /// Of the choked flow.
    [[nodiscard]] double share(double ratio) const {
        return ratio > straight_from && ratio > b_ ? per_rest_ * (1.0 - ratio) : ellipse(ratio);
    }

    [[nodiscard]] double ellipse(double ratio) const {
        if (ratio <= b_) {
            return 1.0;
        }
        const double z = (ratio - b_) * per_ratio_;
        return std::sqrt(1.0 - z * z);
    }

    double choked_ = 0.0;  ///< kg/s for each Pa, at 1 K
    double b_ = 0.0;
    double per_ratio_ = 1.0;
    double per_rest_ = 0.0;
};

}  // namespace gasp
