// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QColor>
#include <QImage>
#include <QRgb>

#include <cstdint>
#include <span>
#include <vector>

namespace gasp {

/// Columns [begin, end) of the screen, in device pixels; may reach beyond it on both sides.
struct Columns {
    int begin = 0;
    int end = 0;
    bool operator==(const Columns&) const = default;
};

/// One cue as it is painted.
struct CueBox {
    Columns at;
    bool selected = false;
    bool flashing = false;
    std::uint32_t flash_begin = 0;  ///< its flashes among LanePicture::flashes
    std::uint32_t flash_end = 0;
};

struct LaneColours {
    QRgb fill = 0;     ///< of a cue
    QRgb edge = 0;     ///< its outline, and the rail
    QRgb dark = 0;     ///< between flashes
    QRgb frame = 0;    ///< around what is selected
    QRgb gap = 0;      ///< between that frame and the cue
    QRgb overlap = 0;  ///< where two cues meet
    QRgb rule = 0;     ///< below the lane
};

/// What a lane looks like, without its height: boxes in order of start.
struct LanePicture {
    std::vector<CueBox> boxes;
    std::vector<Columns> flashes;
    std::vector<Columns> rail;  ///< where the output is driven, as resolved
};

/// Heights of a lane's parts, logical pixels from its top; what lies between is background.
struct LaneBands {
    int cue_top = 0;     ///< outline of cues, 1 px
    int cue_bottom = 0;  ///< exclusive
    int comb_top = 0;    ///< below it, flashes are drawn
    int rail_top = 0;
    int rail_bottom = 0;
};
[[nodiscard]] LaneBands bands_of(int lane_height);

/// Paints lanes by composing each kind of pixel row once and copying it to all the rows of that kind: the
/// cost is that of the copies, whatever the number of cues. 32-bit images.
class LanePainter {
  public:
    /// `background` is one row of pixels as wide as the image.
    void paint(QImage& image, int top, int height, double scale, std::span<const QRgb> background,
               const LanePicture& picture, const LaneColours& colours);
    /// The background alone, with the rule below it.
    void paint_empty(QImage& image, int top, int height, double scale, std::span<const QRgb> background,
                     QRgb rule);

  private:
    void compose(std::span<const QRgb> background, const LanePicture& picture, const LaneColours& colours,
                 int thin);
    void frame(std::span<const QRgb> background, Columns at, QRgb colour);
    void make_rule(std::size_t width, QRgb colour);

    std::vector<QRgb> frame_;
    std::vector<QRgb> outline_;
    std::vector<QRgb> body_;
    std::vector<QRgb> comb_;
    std::vector<QRgb> rail_;
    std::vector<QRgb> rule_;
    bool any_flashing_ = false;  ///< without any the comb is as the body
    bool any_framed_ = false;    ///< without any the rows of frames are background
};

}  // namespace gasp
