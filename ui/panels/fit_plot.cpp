// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/fit_plot.hpp"

#include "ui/look/look.hpp"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace gasp {
namespace {

constexpr int row_least_px = 16;
constexpr int most_roomy_rows = 30;
constexpr int around_px = 64;  // head, reading and foot
constexpr double sign_px = 4.0;

QString ms_text(double ms) {
    return QString::number(ms, 'f', 0);
}

}  // namespace

FitPlot::FitPlot(QWidget* parent)
    : Plot("Timed and simulated", "Fit to see each stroke beside the model.", parent) {}

void FitPlot::set(std::vector<FittedStroke> strokes) {
    strokes_ = std::move(strokes);
    low_ = strokes_.empty() ? 0.0 : strokes_.front().timed.ms;
    high_ = low_;
    for (const FittedStroke& stroke : strokes_) {
        for (const double ms : {stroke.timed.ms, stroke.before_ms, stroke.after_ms}) {
            low_ = std::min(low_, ms);
            high_ = std::max(high_, ms);
        }
    }
    const double margin = std::max((high_ - low_) * 0.08, 5.0);
    low_ = std::max(low_ - margin, 0.0);
    high_ += margin;
    take_figures();
}

QString FitPlot::summary() const {
    double before = 0.0;
    double after = 0.0;
    for (const FittedStroke& stroke : strokes_) {
        before = std::max(before, std::abs(stroke.before_ms - stroke.timed.ms));
        after = std::max(after, std::abs(stroke.after_ms - stroke.timed.ms));
    }
    return strokes_.empty() ? QString()
                            : QStringLiteral("furthest off: %1 ms before, %2 ms after")
                                  .arg(ms_text(before), ms_text(after));
}

QSize FitPlot::minimumSizeHint() const {
    const int rows = std::min(places(), most_roomy_rows) * row_least_px + around_px;
    return Plot::minimumSizeHint().expandedTo({0, rows});
}

int FitPlot::places() const {
    return static_cast<int>(strokes_.size());
}

QRectF FitPlot::place_box(int place) const {
    const QRectF box = field();
    const double row = box.height() / static_cast<double>(strokes_.size());
    return {box.left(), box.top() + row * place, box.width(), row};
}

QString FitPlot::name_of(int place) const {
    const Coil way = strokes_[static_cast<std::size_t>(place)].timed.way;
    const auto number = std::count_if(strokes_.begin(), strokes_.begin() + place + 1,
                                      [way](const FittedStroke& each) { return each.timed.way == way; });
    return QStringLiteral("%1 %2").arg(way == Coil::out ? "out" : "back").arg(number);
}

QString FitPlot::reading_of(int place) const {
    const FittedStroke& stroke = strokes_[static_cast<std::size_t>(place)];
    return QStringLiteral("%1: timed %2, before %3, after %4 ms")
        .arg(name_of(place), ms_text(stroke.timed.ms), ms_text(stroke.before_ms), ms_text(stroke.after_ms));
}

std::vector<AxisTick> FitPlot::across() const {
    return round_ticks(low_, high_, 6, "ms");
}

double FitPlot::share_across(double ms) const {
    return (ms - low_) / (high_ - low_);
}

double FitPlot::share_up(double row) const {
    return 1.0 - row / static_cast<double>(std::max<std::size_t>(strokes_.size(), 1));
}

int FitPlot::left_px() const {
    return static_cast<int>(QFontMetricsF(gasp::font(TypeSize::small)).horizontalAdvance("back 00")) +
           grid_px;
}

void FitPlot::paint_sign(QPainter& painter, QPointF at, Sign sign) {
    switch (sign) {
        case Sign::timed:
            painter.setPen(Qt::NoPen);
            painter.setBrush(look().text);
            painter.drawEllipse(at, sign_px, sign_px);
            break;
        case Sign::before: {
            painter.setPen(QPen(look().text_soft, 1.5));
            painter.setBrush(Qt::NoBrush);
            const std::array<QPointF, 4> corners{at + QPointF(0, -sign_px), at + QPointF(sign_px, 0),
                                                 at + QPointF(0, sign_px), at + QPointF(-sign_px, 0)};
            painter.drawConvexPolygon(corners.data(), static_cast<int>(corners.size()));
            break;
        }
        case Sign::after:
            painter.fillRect(QRectF(at.x() - 1.0, at.y() - sign_px - 2.0, 2.0, 2.0 * sign_px + 4.0),
                             look().pressure);
            break;
    }
}

/// Right to left in the line of the title.
void FitPlot::paint_signs(QPainter& painter) const {
    constexpr std::array<std::pair<Sign, const char*>, 3> all{
        {{Sign::after, "after"}, {Sign::before, "before"}, {Sign::timed, "timed"}}};
    painter.setFont(gasp::font(TypeSize::small));
    const QFontMetricsF metrics(painter.font());
    double right = width();
    for (const auto& [sign, word] : all) {
        const double wide = metrics.horizontalAdvance(word);
        painter.setPen(look().text_soft);
        painter.drawText(QRectF(right - wide, 0, wide, 20), Qt::AlignVCenter, word);
        paint_sign(painter, QPointF(right - wide - 9.0, 10.0), sign);
        right -= wide + 9.0 + sign_px + grid_px;
    }
}

void FitPlot::paint_data(QPainter& painter) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    paint_signs(painter);
    const bool roomy = !strokes_.empty() && place_box(0).height() >= 11.0;
    for (int i = 0; i < places(); ++i) {
        const FittedStroke& stroke = strokes_[static_cast<std::size_t>(i)];
        const QRectF row = place_box(i);
        const double y = row.center().y();
        paint_sign(painter, {x_of(stroke.before_ms), y}, Sign::before);
        paint_sign(painter, {x_of(stroke.after_ms), y}, Sign::after);
        paint_sign(painter, {x_of(stroke.timed.ms), y}, Sign::timed);
        if (roomy) {
            painter.setPen(look().text_soft);
            painter.drawText(QRectF(0, row.top(), row.left() - 4.0, row.height()),
                             Qt::AlignVCenter | Qt::AlignRight, name_of(i));
        }
    }
    painter.restore();
}

}  // namespace gasp
