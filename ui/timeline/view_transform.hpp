// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/time.hpp"

namespace gasp {

/// What part of the ruler is on the screen: a scale, and the time at the left edge. Everything else follows
/// from these two. Pure arithmetic: no widget, no rounding to pixels.
class ViewTransform {
  public:
    /// Scales beyond these are cut: a sample at 48 kHz is then some 10 px wide, or the whole ruler a quarter
    /// of the width.
    static constexpr double least_us_per_px = 2.0;
    /// So much may be seen before 0, and room is left after the end for cues to come.
    static constexpr double margin_px = 16.0;

    [[nodiscard]] double us_per_px() const { return us_per_px_; }
    [[nodiscard]] double largest_us_per_px() const;
    /// The time at x = 0; negative by up to the margin.
    [[nodiscard]] Micros offset() const { return offset_; }
    [[nodiscard]] double width() const { return width_; }
    /// The length of what is looked at, at least 1 s.
    [[nodiscard]] Micros extent() const { return extent_; }

    [[nodiscard]] double x_of(Micros time) const;
    /// To the nearest microsecond.
    [[nodiscard]] Micros time_at(double x) const;
    /// A length on the ruler.
    [[nodiscard]] double px_of(Micros length) const;
    [[nodiscard]] Micros length_of(double px) const;
    [[nodiscard]] Micros left() const { return offset_; }
    [[nodiscard]] Micros right() const { return time_at(width_); }

    void set_width(double px);
    void set_extent(Micros length);
    void set_scale_and_offset(double us_per_px, Micros offset);

    /// Factor above 1 shows more detail; the time under x stays under x, unless the margins forbid it.
    void zoom_about(double x, double factor);
    void scroll_by(double px);
    /// Puts a time at an x.
    void place(Micros time, double x);
    void fit();
    /// As fit() leaves it, to a pixel.
    [[nodiscard]] bool shows_just_the_whole() const;
    /// Shows a stretch with a margin on both sides.
    void fit_to(Micros begin, Micros end);

    /// Where the view stands for a scroll bar: 0 to range(), in pixels of the present scale.
    [[nodiscard]] double scroll_position() const;
    [[nodiscard]] double scroll_range() const;
    void scroll_to(double position);

    bool operator==(const ViewTransform&) const = default;

  private:
    void clamp();
    [[nodiscard]] Micros least_offset() const;
    [[nodiscard]] Micros largest_offset() const;

    double us_per_px_ = 10'000.0;
    Micros offset_{0};
    double width_ = 1000.0;
    Micros extent_{10'000'000};
};

}  // namespace gasp
