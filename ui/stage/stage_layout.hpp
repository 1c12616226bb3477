// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QLineF>
#include <QRectF>
#include <QSizeF>

#include <vector>

namespace gasp {

/// Where each part of the stage goes. Boxes that do not fit are missing from the end of their list, and the
/// rest is counted.
struct StageLayout {
    QRectF clock;
    QRectF state;
    std::vector<QRectF> actuators;
    std::vector<QRectF> channels;
    int channels_left_out = 0;
    int actuators_left_out = 0;
    QRectF left_out;  ///< the line that says so; empty when everything fits
    QRectF gauge;
    QRectF loudspeaker;
    std::vector<QLineF> rules;
};

/// For a rig of so many channels and actuators in a widget of this size: stacked when tall, side by side when
/// wide.
[[nodiscard]] StageLayout stage_layout(const QSizeF& size, int channels, int actuators);

}  // namespace gasp
