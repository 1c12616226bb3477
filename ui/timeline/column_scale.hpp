// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/timeline/view_transform.hpp"

#include <algorithm>

namespace gasp {

/// Device columns of times; called for every cue in sight, so worked out with one product.
class ColumnScale {
  public:
    /// `scale`: device pixels a logical one.
    ColumnScale(const ViewTransform& view, double scale)
        : offset_(view.offset()), columns_per_us_(scale / view.us_per_px()) {}
    [[nodiscard]] int operator()(Micros time) const {
        const double x = static_cast<double>((time - offset_).count()) * columns_per_us_;
        return static_cast<int>(std::clamp(x, -far_px, far_px) + far_px + 0.5) - static_cast<int>(far_px);
    }

  private:
    static constexpr double far_px = 1e6;
    Micros offset_;
    double columns_per_us_;
};

}  // namespace gasp
