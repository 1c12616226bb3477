// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/pack_view.hpp"

#include "ui/look/look.hpp"

#include <QKeyEvent>
#include <QPaintEvent>
#include <QPainter>
#include <QScrollBar>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>
#include <vector>

namespace gasp {

namespace {

constexpr int gap_px = 2 * grid_px;
constexpr double least_zoom = 0.25;
constexpr double most_zoom = 4.0;
constexpr double zoom_step = 1.2;
/// Pages kept as they were painted: those on the screen and some around.
constexpr qsizetype most_kept = 8;

}  // namespace

/// The widget that scrolls: it paints the pages that are seen.
class PackView::Pages : public QWidget {
  public:
    void set_pack(std::shared_ptr<const Pack> pack) {
        pack_ = std::move(pack);
        kept_.clear();
        update();
    }

    /// For a width; upright pages are that wide, and a page on its side as well.
    void lay_out(int width) {
        kept_.clear();
        boxes_.clear();
        int y = gap_px;
        const int page_width = std::max(width - 2 * gap_px, 50);
        for (int page = 0; pack_ != nullptr && page < pack_->page_count(); ++page) {
            const QSizeF size = pack_->page_size(page);
            const int height = static_cast<int>(std::lround(size.height() * page_width / size.width()));
            boxes_.emplace_back(gap_px, y, page_width, height);
            y += height + gap_px;
        }
        setFixedSize(width, std::max(y, 1));
        update();
    }

    [[nodiscard]] const std::vector<QRect>& boxes() const { return boxes_; }

  protected:
    void paintEvent(QPaintEvent* event) override {
        QPainter painter(this);
        painter.fillRect(event->rect(), look().ground);
        for (std::size_t page = 0; page < boxes_.size(); ++page) {
            if (boxes_[page].intersects(event->rect())) {
                painter.drawPixmap(boxes_[page].topLeft(), picture_of(static_cast<int>(page)));
                painter.setPen(look().rule_strong);
                painter.drawRect(boxes_[page].adjusted(-1, -1, 0, 0));
            }
        }
    }

  private:
    const QPixmap& picture_of(int page) {
        if (const auto known = kept_.constFind(page); known != kept_.constEnd()) {
            return *known;
        }
        if (kept_.size() >= most_kept) {
            kept_.clear();
        }
        const QSize size = boxes_[static_cast<std::size_t>(page)].size();
        QPixmap picture(size * devicePixelRatioF());
        picture.setDevicePixelRatio(devicePixelRatioF());
        picture.fill(Qt::white);
        QPainter painter(&picture);
        const double scale = size.width() / pack_->page_size(page).width();
        painter.scale(scale, scale);
        pack_->paint(painter, page);
        painter.end();
        return *kept_.insert(page, picture);
    }

    std::shared_ptr<const Pack> pack_;
    std::vector<QRect> boxes_;
    QHash<int, QPixmap> kept_;
};

PackView::PackView(QWidget* parent) : QScrollArea(parent), pages_(new Pages) {
    setWidget(pages_);
    setAlignment(Qt::AlignHCenter | Qt::AlignTop);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAsNeeded);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn);
    setAccessibleName("Pages as they will be printed");
    connect(verticalScrollBar(), &QScrollBar::valueChanged, this, &PackView::page_changed);
}

void PackView::set_pack(std::shared_ptr<const Pack> pack) {
    pages_->set_pack(std::move(pack));
    lay_out();
    emit page_changed();
}

void PackView::lay_out() {
    pages_->lay_out(static_cast<int>(viewport()->width() * zoom_));
}

int PackView::page() const {
    const int top = verticalScrollBar()->value() + viewport()->height() / 3;
    const auto& boxes = pages_->boxes();
    const auto seen =
        std::find_if(boxes.begin(), boxes.end(), [&](const QRect& box) { return box.bottom() >= top; });
    return seen == boxes.end() ? static_cast<int>(boxes.size()) - 1 : static_cast<int>(seen - boxes.begin());
}

void PackView::show_page(int page) {
    const auto& boxes = pages_->boxes();
    if (page >= 0 && page < static_cast<int>(boxes.size())) {
        verticalScrollBar()->setValue(boxes[static_cast<std::size_t>(page)].top() - gap_px / 2);
    }
}

void PackView::set_zoom(double zoom) {
    const int before = page();
    zoom_ = std::clamp(zoom, least_zoom, most_zoom);
    lay_out();
    show_page(before);
}

void PackView::wheelEvent(QWheelEvent* event) {
    if ((event->modifiers() & Qt::ControlModifier) == 0) {
        QScrollArea::wheelEvent(event);
        return;
    }
    set_zoom(event->angleDelta().y() > 0 ? zoom_ * zoom_step : zoom_ / zoom_step);
    event->accept();
}

void PackView::keyPressEvent(QKeyEvent* event) {
    const bool control = (event->modifiers() & Qt::ControlModifier) != 0;
    if (control && (event->key() == Qt::Key_Plus || event->key() == Qt::Key_Equal)) {
        set_zoom(zoom_ * zoom_step);
    } else if (control && event->key() == Qt::Key_Minus) {
        set_zoom(zoom_ / zoom_step);
    } else if (control && event->key() == Qt::Key_0) {
        set_zoom(1.0);
    } else if (event->key() == Qt::Key_Home) {
        show_page(0);
    } else if (event->key() == Qt::Key_End) {
        verticalScrollBar()->setValue(verticalScrollBar()->maximum());
    } else {
        QScrollArea::keyPressEvent(event);
    }
}

void PackView::resizeEvent(QResizeEvent* event) {
    const int before = page();
    QScrollArea::resizeEvent(event);
    lay_out();
    show_page(before);
}

}  // namespace gasp
