// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/tile_area.hpp"

#include "ui/look/look.hpp"

#include <QGridLayout>
#include <QResizeEvent>
#include <QScrollBar>
#include <QTimer>

#include <algorithm>

namespace gasp {
namespace {

constexpr int tile_least_px = 360;

}  // namespace

TileArea::TileArea(QWidget* parent) : QScrollArea(parent) {
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
    auto* page = new QWidget;
    grid_ = new QGridLayout(page);
    grid_->setContentsMargins(grid_px, grid_px, grid_px, grid_px);
    grid_->setHorizontalSpacing(3 * grid_px);
    grid_->setVerticalSpacing(2 * grid_px);
    setWidget(page);
}

void TileArea::add(QWidget* tile) {
    tiles_.push_back(tile);
    columns_ = 0;
    lay(std::max(viewport()->width() / tile_least_px, 1));
}

void TileArea::bring_up(const QWidget& tile) {
    // What has just been put into a tile has its height only after a turn of the event loop.
    QTimer::singleShot(0, &tile, [this, &tile] { verticalScrollBar()->setValue(tile.y() - grid_px); });
}

void TileArea::resizeEvent(QResizeEvent* event) {
    QScrollArea::resizeEvent(event);
    lay(std::clamp(viewport()->width() / tile_least_px, 1, std::max(static_cast<int>(tiles_.size()), 1)));
}

void TileArea::lay(int columns) {
    if (columns == columns_) {
        return;
    }
    columns_ = columns;
    const int most = static_cast<int>(tiles_.size());
    for (int i = 0; i < most; ++i) {
        grid_->addWidget(tiles_[static_cast<std::size_t>(i)], i / columns, i % columns);
    }
    for (int i = 0; i < most; ++i) {
        grid_->setColumnStretch(i, i < columns ? 1 : 0);
    }
}

}  // namespace gasp
