// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/painted_icon.hpp"

#include "ui/look/look.hpp"

#include <QIconEngine>
#include <QPainter>
#include <QPixmapCache>

#include <utility>

namespace gasp {

namespace {

using Paint = std::function<void(QPainter&, const QRectF&, QIcon::Mode, QIcon::State)>;

class PaintedIcon : public QIconEngine {
  public:
    PaintedIcon(QString name, Paint paint) : name_(std::move(name)), paint_(std::move(paint)) {}

    void paint(QPainter* painter, const QRect& rect, QIcon::Mode mode, QIcon::State state) override {
        paint_(*painter, rect, mode, state);
    }

    QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override {
        const QString key = QString("gasp/%1/%2x%3/%4/%5/%6")
                                .arg(name_)
                                .arg(size.width())
                                .arg(size.height())
                                .arg(static_cast<int>(mode))
                                .arg(static_cast<int>(state))
                                .arg(static_cast<int>(theme()));
        QPixmap pixmap;
        if (!QPixmapCache::find(key, &pixmap)) {
            pixmap = QPixmap(size);
            pixmap.fill(Qt::transparent);
            QPainter painter(&pixmap);
            paint_(painter, QRectF(QPointF(), size), mode, state);
            painter.end();
            QPixmapCache::insert(key, pixmap);
        }
        return pixmap;
    }

    [[nodiscard]] QIconEngine* clone() const override { return new PaintedIcon(name_, paint_); }

  private:
    QString name_;
    Paint paint_;
};

}  // namespace

QIcon painted_icon(const QString& name, Paint paint) {
    return QIcon(new PaintedIcon(name, std::move(paint)));
}

}  // namespace gasp
