// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/curve_painter.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

QRgb mixed(QRgb below, QRgb above, double share) {
    const int part = static_cast<int>(share * 256.0);
    const auto one = [part](int a, int b) { return a + ((b - a) * part >> 8); };
    return qRgb(one(qRed(below), qRed(above)), one(qGreen(below), qGreen(above)),
                one(qBlue(below), qBlue(above)));
}

double value_between(const CurvePoint& a, const CurvePoint& b, double us) {
    const double begin = a.time_s * 1e6;
    const double end = b.time_s * 1e6;
    return end <= begin ? b.value
                        : a.value + (b.value - a.value) * std::clamp((us - begin) / (end - begin), 0.0, 1.0);
}

/// Walks along a curve; times asked for must not go back.
class Walk {
  public:
    Walk(std::span<const CurvePoint> curve, double us) : curve_(curve) {
        const auto found =
            std::lower_bound(curve.begin(), curve.end(), us,
                             [](const CurvePoint& point, double time) { return point.time_s * 1e6 < time; });
        next_ = static_cast<std::size_t>(found - curve.begin());
    }
    [[nodiscard]] double value(double us) const {
        if (next_ == 0) {
            return curve_.front().value;
        }
        return next_ == curve_.size() ? curve_.back().value
                                      : value_between(curve_[next_ - 1], curve_[next_], us);
    }
    /// Passes the points up to a time, widening the range by each.
    void pass(double us, ColumnRange& range) {
        while (next_ < curve_.size() && curve_[next_].time_s * 1e6 <= us) {
            range.least = std::min(range.least, curve_[next_].value);
            range.most = std::max(range.most, curve_[next_].value);
            ++next_;
        }
    }

  private:
    std::span<const CurvePoint> curve_;
    std::size_t next_ = 0;
};

double y_of(double value, const CurvePaint& paint) {
    const double inner = paint.box.height() - paint.thickness;
    const double share = std::clamp((value - paint.least) / (paint.most - paint.least), 0.0, 1.0);
    return paint.box.top() + paint.thickness / 2 + inner * (1.0 - share);
}

void paint_column(QImage& image, int x, double top, double bottom, const CurvePaint& paint) {
    const int first = std::max(static_cast<int>(std::floor(top)), paint.box.top());
    const int last = std::min(static_cast<int>(std::ceil(bottom)), paint.box.bottom() + 1);
    for (int y = first; y < last; ++y) {
        const double cover = std::min(bottom, y + 1.0) - std::max(top, static_cast<double>(y));
        QRgb& pixel = reinterpret_cast<QRgb*>(image.scanLine(y))[x];
        pixel = mixed(pixel, paint.line, std::clamp(cover, 0.0, 1.0));
    }
    if (paint.shade_share > 0.0) {
        for (int y = std::max(last, paint.box.top()); y <= paint.box.bottom(); ++y) {
            QRgb& pixel = reinterpret_cast<QRgb*>(image.scanLine(y))[x];
            pixel = mixed(pixel, paint.shade, paint.shade_share);
        }
    }
}

}  // namespace

std::vector<CurvePoint> curve_of(const MotionCurve& motion) {
    constexpr int pieces = 6;
    std::vector<CurvePoint> curve;
    for (std::size_t i = 0; i < motion.points.size(); ++i) {
        const MotionPoint& point = motion.points[i];
        curve.push_back({point.time_s, point.share});
        if (i + 1 == motion.points.size()) {
            break;
        }
        const MotionPoint& next = motion.points[i + 1];
        const double span = next.time_s - point.time_s;
        const double rise = next.share - point.share;
        const bool straight = std::abs(point.share_per_s * span - rise) < 1e-3 &&
                              std::abs(next.share_per_s * span - rise) < 1e-3;
        for (int piece = 1; piece < pieces && span > 0.0 && !straight; ++piece) {
            const double time = point.time_s + span * piece / pieces;
            curve.push_back({time, motion.share_at(time)});
        }
    }
    return curve;
}

std::vector<ColumnRange> columns_of(std::span<const CurvePoint> curve, const ViewTransform& view,
                                    double scale, int columns) {
    std::vector<ColumnRange> ranges;
    if (curve.empty()) {
        return ranges;
    }
    ranges.reserve(static_cast<std::size_t>(columns));
    const double step = view.us_per_px() / scale;
    const auto left = static_cast<double>(view.left().count());
    Walk walk(curve, left);
    double before = walk.value(left);
    for (int x = 0; x < columns; ++x) {
        const double until = left + (x + 1) * step;
        ColumnRange range{before, before};
        walk.pass(until, range);
        before = walk.value(until);
        range.least = std::min(range.least, before);
        range.most = std::max(range.most, before);
        ranges.push_back(range);
    }
    return ranges;
}

void paint_curve(QImage& image, std::span<const ColumnRange> columns, const CurvePaint& paint) {
    if (!(paint.most > paint.least)) {
        return;
    }
    const int first = std::max(0, paint.box.left());
    const int last = std::min({paint.box.right() + 1, image.width(), static_cast<int>(columns.size())});
    for (int x = first; x < last; ++x) {
        const ColumnRange& range = columns[static_cast<std::size_t>(x)];
        paint_column(image, x, y_of(range.most, paint) - paint.thickness / 2,
                     y_of(range.least, paint) + paint.thickness / 2, paint);
    }
}

void paint_between(QImage& image, std::span<const ColumnRange> one, std::span<const ColumnRange> other,
                   const CurvePaint& paint) {
    if (!(paint.most > paint.least)) {
        return;
    }
    const int first = std::max(0, paint.box.left());
    const int last = std::min(
        {paint.box.right() + 1, image.width(), static_cast<int>(std::min(one.size(), other.size()))});
    for (int x = first; x < last; ++x) {
        const ColumnRange& a = one[static_cast<std::size_t>(x)];
        const ColumnRange& b = other[static_cast<std::size_t>(x)];
        const auto top = static_cast<int>(std::lround(y_of(std::max(a.most, b.most), paint)));
        const auto bottom = static_cast<int>(std::lround(y_of(std::min(a.least, b.least), paint)));
        for (int y = std::max(top, paint.box.top()); y < std::min(bottom, paint.box.bottom() + 1); ++y) {
            QRgb& pixel = reinterpret_cast<QRgb*>(image.scanLine(y))[x];
            pixel = mixed(pixel, paint.shade, paint.shade_share);
        }
    }
}

}  // namespace gasp
