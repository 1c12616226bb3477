// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/air_curves.hpp"
#include "ui/timeline/view_transform.hpp"

#include <QImage>
#include <QRect>
#include <QRgb>

#include <functional>
#include <span>
#include <vector>

namespace gasp {

/// A motion as straight lines, fine enough for the eye at any height of a lane.
[[nodiscard]] std::vector<CurvePoint> curve_of(const MotionCurve& motion);

/// The least and the greatest value of a curve within one column of pixels.
struct ColumnRange {
    double least = 0.0;
    double most = 0.0;
};

/// A curve, level before its first point and after its last, for each of the device columns of the view.
/// O(columns + log points + points in sight).
[[nodiscard]] std::vector<ColumnRange> columns_of(std::span<const CurvePoint> curve,
                                                  const ViewTransform& view, double scale, int columns);

struct CurvePaint {
    QRect box;               ///< device pixels; the curve stays inside
    double least = 0.0;      ///< the value at the bottom of the box
    double most = 1.0;       ///< and at its top
    double thickness = 1.5;  ///< device pixels
    QRgb line = 0;
    QRgb shade = 0;            ///< under the curve
    double shade_share = 0.0;  ///< 0 for none, up to 1
};

/// Paints by column, edges smoothed up and down. 32-bit images.
void paint_curve(QImage& image, std::span<const ColumnRange> columns, const CurvePaint& paint);
/// Shades what lies between two curves, their own columns in.
void paint_between(QImage& image, std::span<const ColumnRange> one, std::span<const ColumnRange> other,
                   const CurvePaint& paint);

}  // namespace gasp
