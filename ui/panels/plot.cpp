// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/plot.hpp"

#include "ui/look/look.hpp"

#include <QAccessible>
#include <QFontMetricsF>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr int head_px = 20;
constexpr int reading_px = 18;
constexpr int foot_px = 20;
constexpr int patch_px = 10;
constexpr QSize least_size{272, 152};
constexpr QSize usual_size{336, 208};

QFontMetricsF small_metrics() {
    return QFontMetricsF(font(TypeSize::small));
}

double round_step(double span, int count) {
    const double rough = span / std::max(count - 1, 1);
    const double power = std::pow(10.0, std::floor(std::log10(rough)));
    for (const double step : {1.0, 2.0, 5.0}) {
        if (step * power >= rough * (1.0 - 1e-9)) {
            return step * power;
        }
    }
    return 10.0 * power;
}

}  // namespace

std::vector<double> round_values(double least, double most, int count) {
    std::vector<double> values;
    if (!std::isfinite(least) || !std::isfinite(most) || !(least < most)) {
        return values;
    }
    const double step = round_step(most - least, count);
    const double first = std::ceil(least / step - 1e-9);
    const double last = std::floor(most / step + 1e-9);
    for (double i = first; i <= last; i += 1.0) {
        values.push_back(i * step);
    }
    return values;
}

int decimals_of(double step) {
    return std::clamp(static_cast<int>(std::ceil(-std::log10(step) - 1e-9)), 0, 6);
}

std::vector<AxisTick> round_ticks(double least, double most, int count, const QString& unit) {
    std::vector<AxisTick> ticks;
    const std::vector<double> values = round_values(least, most, count);
    for (const double value : values) {
        const int decimals = values.size() > 1 ? decimals_of(values[1] - values[0]) : 0;
        // Never "-0".
        ticks.push_back({value, QString::number(std::abs(value) < 1e-12 ? 0.0 : value, 'f', decimals)});
    }
    if (!ticks.empty() && !unit.isEmpty()) {
        ticks.back().text += ' ' + unit;
    }
    return ticks;
}

Plot::Plot(const QString& title, const QString& empty, QWidget* parent)
    : QWidget(parent), title_(title), empty_(empty) {
    setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(title);
    setAccessibleDescription(empty);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

QSize Plot::minimumSizeHint() const {
    return least_size;
}

QSize Plot::sizeHint() const {
    return usual_size;
}

QString Plot::reading() const {
    return pointed_ >= 0 ? reading_of(pointed_) : summary();
}

void Plot::set_title(const QString& title) {
    if (title != title_) {
        title_ = title;
        setAccessibleName(title);
        update();
    }
}

void Plot::take_figures() {
    pointed_ = -1;
    setAccessibleDescription(summary().isEmpty() ? empty_ : summary());
    updateGeometry();
    update();
}

int Plot::left_px() const {
    double widest = 0.0;
    for (const AxisTick& tick : upward()) {
        widest = std::max(widest, small_metrics().horizontalAdvance(tick.text));
    }
    return static_cast<int>(std::ceil(widest)) + grid_px / 2;
}

QRectF Plot::field() const {
    double right = 0.0;
    if (const auto ticks = across(); !ticks.empty()) {
        right = small_metrics().horizontalAdvance(ticks.back().text) / 2.0;
    }
    const double left = left_px();
    const double top = head_px + reading_px + grid_px / 2.0;
    return {left, top, std::max(width() - left - std::max(right, 4.0) - 1.0, 1.0),
            std::max(height() - top - foot_px, 1.0)};
}

double Plot::x_of(double value) const {
    const QRectF box = field();
    return box.left() + share_across(value) * box.width();
}

double Plot::y_of(double value) const {
    const QRectF box = field();
    return box.bottom() - share_up(value) * box.height();
}

void Plot::paint_fill(QPainter& painter, const QRectF& box, const QColor& colour, Fill fill) {
    painter.save();
    painter.setPen(QPen(colour, 1.0));
    painter.setBrush(fill == Fill::solid     ? QBrush(colour)
                     : fill == Fill::hatched ? QBrush(colour, Qt::BDiagPattern)
                                             : QBrush(Qt::NoBrush));
    painter.drawRect(box.adjusted(0.5, 0.5, -0.5, -0.5));
    painter.restore();
}

double Plot::paint_legend(QPainter& painter, double right, const QString& word, const QColor& colour,
                          Fill fill) const {
    painter.setFont(gasp::font(TypeSize::small));
    const double words = small_metrics().horizontalAdvance(word);
    const QRectF text(right - words, 0, words, head_px);
    painter.setPen(look().text_soft);
    painter.drawText(text, Qt::AlignVCenter | Qt::AlignLeft, word);
    const QRectF patch(text.left() - patch_px - 4.0, (head_px - patch_px) / 2.0, patch_px, patch_px);
    paint_fill(painter, patch, colour, fill);
    return patch.left() - grid_px;
}

void Plot::paint_head(QPainter& painter) const {
    painter.setFont(gasp::font(TypeSize::body, true));
    painter.setPen(look().text);
    painter.drawText(QRectF(0, 0, width(), head_px), Qt::AlignVCenter | Qt::AlignLeft, title_);
    painter.setFont(gasp::font(TypeSize::small));
    painter.setPen(pointed_ >= 0 ? look().brass_text : look().text_soft);
    painter.drawText(QRectF(0, head_px, width(), reading_px), Qt::AlignVCenter | Qt::AlignLeft,
                     small_metrics().elidedText(reading(), Qt::ElideRight, width()));
}

void Plot::paint_axes(QPainter& painter) const {
    const QRectF box = field();
    painter.fillRect(box, look().canvas);
    painter.setFont(gasp::font(TypeSize::small));
    for (const AxisTick& tick : upward()) {
        const double y = std::round(y_of(tick.at)) + 0.5;
        painter.setPen(look().rule);
        painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
        painter.setPen(look().text_soft);
        painter.drawText(QRectF(0, y - 8, box.left() - 4, 16), Qt::AlignVCenter | Qt::AlignRight, tick.text);
    }
    for (const AxisTick& tick : across()) {
        const double x = std::round(x_of(tick.at)) + 0.5;
        painter.setPen(look().rule);
        painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom() + 4));
        painter.setPen(look().text_soft);
        const double half = small_metrics().horizontalAdvance(tick.text) / 2.0 + 1.0;
        painter.drawText(QRectF(x - half, box.bottom() + 4, 2 * half, 14), Qt::AlignCenter, tick.text);
    }
    painter.setPen(look().rule_strong);
    painter.drawLine(box.bottomLeft(), box.bottomRight());
    painter.drawLine(box.topLeft(), box.bottomLeft());
}

void Plot::paint_pointed(QPainter& painter) const {
    if (pointed_ >= 0) {
        painter.setPen(QPen(look().brass, 1.0));
        painter.setBrush(Qt::NoBrush);
        const QRectF box = place_box(pointed_);
        if (box.width() < 3.0) {
            painter.drawLine(QPointF(box.center().x(), box.top()), QPointF(box.center().x(), box.bottom()));
        } else {
            painter.drawRect(box.adjusted(0.5, 0.5, -0.5, -0.5));
        }
    }
    if (hasFocus()) {
        painter.setPen(QPen(look().brass, 1.0));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(field().adjusted(-0.5, -0.5, 0.5, 0.5));
    }
}

void Plot::paintEvent(QPaintEvent* event) {
    Q_UNUSED(event);
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing, false);
    paint_head(painter);
    if (places() == 0) {
        const QRectF box(0, head_px + reading_px, width(), height() - head_px - reading_px - grid_px);
        painter.fillRect(box, look().canvas);
        painter.setPen(look().text_soft);
        painter.drawText(box.adjusted(grid_px, 0, -grid_px, 0), Qt::AlignCenter | Qt::TextWordWrap, empty_);
        return;
    }
    paint_axes(painter);
    paint_data(painter);
    paint_pointed(painter);
}

void Plot::point_at(int place) {
    if (place == pointed_) {
        return;
    }
    pointed_ = place;
    if (hasFocus()) {
        setAccessibleDescription(reading());
        QAccessibleEvent event(this, QAccessible::DescriptionChanged);
        QAccessible::updateAccessibility(&event);
    }
    update();
}

void Plot::mouseMoveEvent(QMouseEvent* event) {
    const QRectF box = field().adjusted(-left_px(), 0, grid_px, 0);
    const QPointF at = event->position();
    int best = -1;
    double nearest = 0.0;
    for (int i = 0; i < places() && box.contains(at); ++i) {
        const QRectF place = place_box(i);
        const double dx = std::max({place.left() - at.x(), at.x() - place.right(), 0.0});
        const double dy = std::max({place.top() - at.y(), at.y() - place.bottom(), 0.0});
        if (best < 0 || dx + dy < nearest) {
            best = i;
            nearest = dx + dy;
        }
    }
    point_at(best);
}

void Plot::leaveEvent(QEvent* event) {
    point_at(-1);
    QWidget::leaveEvent(event);
}

void Plot::keyPressEvent(QKeyEvent* event) {
    const int last = places() - 1;
    const int page = std::max(places() / 10, 1);
    switch (event->key()) {
        case Qt::Key_Left:
        case Qt::Key_Up:
            return point_at(std::clamp(pointed_ - 1, std::min(0, last), last));
        case Qt::Key_Right:
        case Qt::Key_Down:
            return point_at(std::min(pointed_ + 1, last));
        case Qt::Key_PageUp:
            return point_at(std::clamp(pointed_ - page, std::min(0, last), last));
        case Qt::Key_PageDown:
            return point_at(std::min(pointed_ + page, last));
        case Qt::Key_Home:
            return point_at(std::min(0, last));
        case Qt::Key_End:
            return point_at(last);
        case Qt::Key_Escape:
            return point_at(-1);
        default:
            QWidget::keyPressEvent(event);
    }
}

void Plot::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void Plot::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    point_at(-1);
    update();
}

}  // namespace gasp
