// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QIcon>
#include <QRectF>
#include <QString>

#include <functional>

class QPainter;

namespace gasp {

/// An icon that is painted anew for each size, state and theme, by `paint`, and kept under `name`.
[[nodiscard]] QIcon painted_icon(
    const QString& name, std::function<void(QPainter&, const QRectF&, QIcon::Mode, QIcon::State)> paint);

}  // namespace gasp
