// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/sheet/timeline_picture.hpp"
#include "ui/timeline/lane_layout.hpp"
#include "ui/timeline/view_transform.hpp"

#include <QRectF>
#include <QSizeF>

#include <vector>

namespace gasp {

/// A lane and where it lies on the page, its label's column included.
struct PictureLane {
    Lane lane;
    QRectF box;
};

/// A mark that is seen, and where its name stands: to the right of its mast or of the flag before it.
struct PictureFlag {
    const Mark* mark = nullptr;
    std::size_t row = 0;  ///< a second row takes the flags that the first has no room for
    double left = 0.0;
    double width = 0.0;
};

/// Where everything of a picture lies, in logical pixels, and what it is painted from.
class PicturePage {
  public:
    static constexpr double margin = 24.0;
    static constexpr double side_px = 192.0;  ///< the column of labels
    static constexpr double flag_px = 22.0;   ///< the height of a row of flags
    static constexpr std::size_t most_listed = 8;

    PicturePage(const PictureContent& content, const PictureStyle& style, QSizeF size);

    /// Of a page so wide, with every lane at its usual height.
    [[nodiscard]] static double height(const PictureContent& content, const PictureStyle& style,
                                       double width);

    [[nodiscard]] double x_of(Micros time) const { return plot_left_ + view_.x_of(time); }
    [[nodiscard]] Micros time_at(double x) const { return view_.time_at(x - plot_left_); }
    [[nodiscard]] double left() const { return plot_left_; }
    [[nodiscard]] double right() const { return plot_left_ + view_.width(); }
    [[nodiscard]] const ViewTransform& view() const { return view_; }
    /// The part of a lane to the right of its label, and the label's.
    [[nodiscard]] QRectF plot_of(const QRectF& lane) const;
    [[nodiscard]] QRectF label_of(const QRectF& lane) const;

    const PictureContent& content;
    const PictureStyle& style;
    const Palette& colours;
    QSizeF size;
    QRectF head;
    QRectF pins;
    QRectF ruler;
    QRectF marks;
    QRectF findings;
    QRectF legend;
    std::vector<PictureLane> lanes;
    std::vector<PictureFlag> flags;  ///< in order of time

  private:
    void place_flags();
    void place_lanes(double top, double bottom);

    ViewTransform view_;
    double plot_left_ = 0.0;
};

}  // namespace gasp
