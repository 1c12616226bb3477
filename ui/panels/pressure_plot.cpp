// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/look.hpp"
#include "ui/panels/night_plots.hpp"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr int slice_count = 240;
constexpr int tick_count = 6;
constexpr double s_per_h = 3600.0;

/// "3:05" hours and minutes after opening.
QString clock(double hours) {
    const int minutes = static_cast<int>(std::floor(hours * 60.0 + 1e-6));
    return QStringLiteral("%1:%2").arg(minutes / 60).arg(minutes % 60, 2, 10, QLatin1Char('0'));
}

}  // namespace

PressurePlot::PressurePlot(QWidget* parent)
    : Plot("Receiver, first night", "Run the forecast to see the pressure over a night.", parent) {}

void PressurePlot::set(PressureNight night) {
    night_ = std::move(night);
    slices_ = night_.receiver_kpa.points.empty() ? std::vector<Range>{} : ranges(slice_count);
    const auto& points = night_.receiver_kpa.points;
    const auto lowest = std::min_element(points.begin(), points.end(),
                                         [](const auto& a, const auto& b) { return a.value < b.value; });
    if (lowest != points.end()) {
        lowest_kpa_ = lowest->value;
        lowest_at_h_ = lowest->time_s / s_per_h;
    }
    take_extent();
    take_figures();
}

void PressurePlot::set_units(UnitSystem units) {
    units_ = units;
    take_extent();
    take_figures();
}

void PressurePlot::take_extent() {
    double low = lowest_kpa_;
    double high = low;
    for (const Range& slice : slices_) {
        low = std::min(low, slice.low);
        high = std::max(high, slice.high);
    }
    for (const Figure& limit : {night_.cut_in_kpa, night_.cut_out_kpa, night_.regulator_kpa}) {
        if (limit) {
            low = std::min(low, *limit);
            high = std::max(high, *limit);
        }
    }
    const double margin = std::max(high - low, 1.0) * 0.08;
    low_ = shown(std::max(low - margin, 0.0));
    high_ = shown(high + margin);
}

double PressurePlot::shown(double kpa) const {
    return kpa / shown_unit(Quantity::gauge_pressure, units_).scale;
}

QString PressurePlot::text(double kpa) const {
    const auto unit = shown_unit(Quantity::gauge_pressure, units_).name;
    return QStringLiteral("%1 %2")
        .arg(shown(kpa), 0, 'f', units_ == UnitSystem::us ? 1 : 2)
        .arg(QString::fromUtf8(unit.data(), static_cast<qsizetype>(unit.size())));
}

std::vector<PressurePlot::Range> PressurePlot::ranges(int count) const {
    const auto& points = night_.receiver_kpa.points;
    std::vector<Range> all;
    all.reserve(static_cast<std::size_t>(count));
    std::size_t next = 0;
    for (int i = 0; i < count; ++i) {
        const double begin = night_.hours * s_per_h * i / count;
        const double end = night_.hours * s_per_h * (i + 1) / count;
        const double at_begin = night_.receiver_kpa.at(begin);
        const double at_end = night_.receiver_kpa.at(end);
        Range range{std::min(at_begin, at_end), std::max(at_begin, at_end)};
        while (next < points.size() && points[next].time_s <= end) {
            if (points[next].time_s >= begin) {
                range.low = std::min(range.low, points[next].value);
                range.high = std::max(range.high, points[next].value);
            }
            ++next;
        }
        all.push_back(range);
    }
    return all;
}

QString PressurePlot::summary() const {
    if (slices_.empty()) {
        return {};
    }
    return QStringLiteral("lowest %1 at %2 h").arg(text(lowest_kpa_), clock(lowest_at_h_));
}

int PressurePlot::places() const {
    return static_cast<int>(slices_.size());
}

QRectF PressurePlot::place_box(int place) const {
    const QRectF box = field();
    const double step = box.width() / slice_count;
    return {box.left() + step * place, box.top(), std::min(step, 2.0), box.height()};
}

QString PressurePlot::reading_of(int place) const {
    const Range& range = slices_[static_cast<std::size_t>(place)];
    const QString at = clock(night_.hours * place / slice_count);
    return text(range.low) == text(range.high)
               ? QStringLiteral("%1 h: %2").arg(at, text(range.low))
               : QStringLiteral("%1 h: %2 to %3").arg(at, text(range.low), text(range.high));
}

std::vector<AxisTick> PressurePlot::across() const {
    return round_ticks(0.0, night_.hours, 9, "h");
}

std::vector<AxisTick> PressurePlot::upward() const {
    const auto unit = shown_unit(Quantity::gauge_pressure, units_).name;
    return round_ticks(low_, high_, tick_count,
                       QString::fromUtf8(unit.data(), static_cast<qsizetype>(unit.size())));
}

double PressurePlot::share_across(double hours) const {
    return night_.hours > 0 ? hours / night_.hours : 0.0;
}

double PressurePlot::share_up(double shown_pressure) const {
    return high_ > low_ ? (shown_pressure - low_) / (high_ - low_) : 0.0;
}

void PressurePlot::paint_limit(QPainter& painter, const Figure& kpa, const QString& word) {
    if (!kpa) {
        return;
    }
    const QRectF box = field();
    const double y = std::round(y_of(shown(*kpa))) + 0.5;
    painter.setPen(QPen(look().rule_strong, 1.0, Qt::DashLine));
    painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
    painter.setFont(gasp::font(TypeSize::small));
    const QFontMetricsF metrics(painter.font());
    const double wide = metrics.horizontalAdvance(word) + 4.0;
    const bool below = y - 15.0 < box.top();
    const QRectF label(box.right() - wide - 2.0, below ? y + 1.0 : y - 15.0, wide, 14.0);
    painter.fillRect(label, look().canvas);
    painter.setPen(look().text_soft);
    painter.drawText(label, Qt::AlignCenter, word);
}

void PressurePlot::paint_data(QPainter& painter) {
    const QRectF box = field();
    const int columns = std::max(static_cast<int>(box.width() * devicePixelRatioF()), 1);
    const std::vector<Range> all = ranges(columns);
    const double step = box.width() / columns;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    for (int i = 0; i < columns; ++i) {
        const Range& range = all[static_cast<std::size_t>(i)];
        const double top = y_of(shown(range.high)) - 0.75;
        const double bottom = y_of(shown(range.low)) + 0.75;
        painter.fillRect(QRectF(box.left() + step * i, top, step, bottom - top), look().pressure);
    }
    painter.restore();
    paint_limit(painter, night_.cut_out_kpa, "cut-out");
    paint_limit(painter, night_.cut_in_kpa, "cut-in");
    paint_limit(painter, night_.regulator_kpa, "regulator");
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(look().text, 1.5));
    painter.setBrush(look().canvas);
    painter.drawEllipse(QPointF(x_of(lowest_at_h_), y_of(shown(lowest_kpa_))), 3.5, 3.5);
    painter.restore();
}

}  // namespace gasp
