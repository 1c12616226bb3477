// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/timeline/scene.hpp"

#include <QWidget>

namespace gasp {

/// The names of the lanes at their left: sign of the kind, name, what must be known of the channel, and
/// whether it is driven at the playhead.
class LaneHeader : public QWidget {
    Q_OBJECT

  public:
    static constexpr int width_px = 200;

    explicit LaneHeader(Scene& scene, QWidget* parent = nullptr);

    /// The second line of a channel's header.
    [[nodiscard]] QString remark(const Lane& lane) const;

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void changeEvent(QEvent* event) override;
    bool event(QEvent* event) override;

  private:
    void paint_lane(QPainter& painter, const Lane& lane) const;
    void paint_channel(QPainter& painter, const Lane& lane, const QRectF& box) const;
    void paint_sound(QPainter& painter, const Lane& lane, const QRectF& box) const;
    void paint_pressure(QPainter& painter, const QRectF& box) const;
    void paint_words(QPainter& painter, const QRectF& box, const QString& name, const QString& second) const;
    void playhead_moved();
    [[nodiscard]] std::vector<bool> driven() const;

    Scene& scene_;
    std::vector<bool> shown_driven_;
};

}  // namespace gasp
