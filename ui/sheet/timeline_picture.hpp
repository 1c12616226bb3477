// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "core/schedule/sequence_run.hpp"
#include "core/sound/peaks.hpp"
#include "core/units/quantity.hpp"
#include "ui/editor/grid.hpp"
#include "ui/look/palette.hpp"

#include <cstddef>
#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <span>

class QPainter;
class QRectF;

namespace gasp {

/// What is painted, worked out by the caller; all of it must outlive the picture.
struct PictureContent {
    const Show& show;
    const Sequence& sequence;
    const Schedule& schedule;
    const SequenceAir& air;
    std::span<const Finding> findings;
    std::map<ClipId, std::shared_ptr<const PeakPyramid>> peaks;  ///< clips that are not there get no waveform
};

struct PictureStyle {
    Theme theme = Theme::light;
    UnitSystem units = UnitSystem::metric;
    std::optional<Micros> from;  ///< the stretch of the ruler that is shown; the whole sequence without
    std::optional<Micros> to;
    /// Ruler, marks and lanes alone, for a page that has a head and a list of findings of its own.
    bool bare = false;
    const Palette* ink = nullptr;  ///< in place of the theme's
    std::size_t first_lane = 0;    ///< where a page has no room for all of them
    std::size_t most_lanes = std::numeric_limits<std::size_t>::max();
    Grid grid = {};  ///< by what the ruler is divided
};

/// A sequence on one page: title, ruler with findings and marks, sound, channels with their cues and the
/// travel of the figures, the receiver's pressure, the findings in words, and a legend. Paints on anything;
/// writes no file.
class TimelinePicture {
  public:
    explicit TimelinePicture(PictureContent content, PictureStyle style = {});

    /// The height at which every lane has its usual size. Pixels, as the width.
    [[nodiscard]] int height_for(int width) const;
    /// Fills the page. Below 1600 px lines and letters keep their size, above they grow with the width.
    /// Leaves the painter as it was. Needs the program's fonts: see picture_fonts_missing().
    void paint(QPainter& painter, const QRectF& page) const;

  private:
    PictureContent content_;
    PictureStyle style_;
};

}  // namespace gasp
