// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/current_plot.hpp"

#include "core/units/rounded.hpp"
#include "ui/look/look.hpp"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr int slice_count = 240;
constexpr int tick_count = 4;

}  // namespace

QString current_text(double amps) {
    return QString::fromStdString(print_rounded(Quantity::current, amps, UnitSystem::metric));
}

CurrentPlot::CurrentPlot(const QString& supply, QWidget* parent)
    : Plot(QObject::tr("Current of %1").arg(supply), QObject::tr("Nothing of it is known yet."), parent) {}

void CurrentPlot::set_supply(const QString& name) {
    set_title(QObject::tr("Current of %1").arg(name));
}

void CurrentPlot::set(CurrentCurve curve, Micros length, const Figure& rated_a, double planned_a,
                      bool complete) {
    curve_ = std::move(curve);
    length_ = length;
    rated_a_ = rated_a;
    planned_a_ = planned_a;
    complete_ = complete;
    most_a_ = std::max({amps(curve_.peak), rated_a.value_or(0.0), 0.1}) * 1.08;
    take_slices();
    take_figures();
}

void CurrentPlot::set_stretch(Micros from, Micros to) {
    if (from != from_ || to != to_) {
        from_ = from;
        to_ = std::max(to, from + Micros{1});
        take_slices();
        take_figures();
    }
}

void CurrentPlot::set_left_edge(int px) {
    if (px != left_edge_) {
        left_edge_ = px;
        update();
    }
}

void CurrentPlot::set_playhead(Micros time) {
    if (time != playhead_) {
        playhead_ = time;
        update();
    }
}

void CurrentPlot::take_slices() {
    slices_ = curve_.points.empty() ? std::vector<std::optional<CurrentRange>>{} : ranges(slice_count);
}

std::vector<std::optional<CurrentRange>> CurrentPlot::ranges(int count) const {
    return current_ranges(curve_, length_, from_, to_, count);
}

QString CurrentPlot::summary() const {
    if (curve_.points.empty()) {
        return {};
    }
    return QObject::tr("%1peak %2 at %3, average %4, RMS %5")
        .arg(complete_ ? QString() : QObject::tr("at least, for some currents are not known: "),
             current_text(amps(curve_.peak)), QString::fromStdString(print_time(curve_.peak_at)),
             current_text(curve_.average_a(length_)), current_text(curve_.rms_a(length_)));
}

int CurrentPlot::places() const {
    return static_cast<int>(slices_.size());
}

QRectF CurrentPlot::place_box(int place) const {
    const QRectF box = field();
    const double step = box.width() / slice_count;
    return {box.left() + step * place, box.top(), std::min(step, 2.0), box.height()};
}

QString CurrentPlot::reading_of(int place) const {
    const std::optional<CurrentRange>& range = slices_[static_cast<std::size_t>(place)];
    const Micros at = from_ + (to_ - from_) * place / slice_count;
    const QString time = QString::fromStdString(print_time(at));
    if (!range) {
        return QObject::tr("%1: not in the sequence").arg(time);
    }
    return range->low == range->high
               ? QStringLiteral("%1: %2").arg(time, current_text(range->low))
               : QObject::tr("%1: %2 to %3").arg(time, current_text(range->low), current_text(range->high));
}

std::vector<AxisTick> CurrentPlot::across() const {
    std::vector<AxisTick> ticks;
    for (const double seconds : round_values(to_s(from_), to_s(to_), 9)) {
        const int decimals = to_s(to_ - from_) < 5.0 ? 2 : 0;
        ticks.push_back(
            {seconds, QString::fromStdString(print_time(Micros{std::llround(seconds * 1e6)}, decimals))});
    }
    // Nothing stands beside the field at its right, so that it ends where the timeline does.
    ticks.push_back({to_s(to_), QString()});
    return ticks;
}

std::vector<AxisTick> CurrentPlot::upward() const {
    return round_ticks(0.0, most_a_, tick_count, "A");
}

double CurrentPlot::share_across(double seconds) const {
    return (seconds - to_s(from_)) / to_s(to_ - from_);
}

double CurrentPlot::share_up(double amps) const {
    return amps / most_a_;
}

int CurrentPlot::left_px() const {
    return std::max(Plot::left_px(), left_edge_);
}

void CurrentPlot::paint_limit(QPainter& painter, double amps, const QString& word, Qt::Alignment side) {
    const QRectF box = field();
    const double y = std::round(y_of(amps)) + 0.5;
    painter.setPen(QPen(look().rule_strong, 1.0, Qt::DashLine));
    painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
    painter.setFont(gasp::font(TypeSize::small));
    const double wide = QFontMetricsF(painter.font()).horizontalAdvance(word) + 4.0;
    const bool below = y - 15.0 < box.top();
    const double x = side == Qt::AlignLeft ? box.left() + 20.0 : box.right() - wide - 2.0;
    const QRectF label(x, below ? y + 1.0 : y - 15.0, wide, 14.0);
    painter.fillRect(label, look().canvas);
    painter.setPen(look().text_soft);
    painter.drawText(label, Qt::AlignCenter, word);
}

void CurrentPlot::paint_data(QPainter& painter) {
    const QRectF box = field();
    const int columns = std::max(static_cast<int>(box.width() * devicePixelRatioF()), 1);
    const std::vector<std::optional<CurrentRange>> all = ranges(columns);
    const double step = box.width() / columns;
    QColor shade = look().other;
    shade.setAlphaF(0.25F);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    for (int i = 0; i < columns; ++i) {
        if (const auto& range = all[static_cast<std::size_t>(i)]) {
            const double top = y_of(range->high) - 0.75;
            const double bottom = y_of(range->low) + 0.75;
            const double left = box.left() + step * i;
            painter.fillRect(QRectF(left, bottom, step, box.bottom() - bottom), shade);
            painter.fillRect(QRectF(left, top, step, bottom - top), look().text);
        }
    }
    painter.restore();
    if (rated_a_) {
        paint_limit(painter, *rated_a_, QObject::tr("rating"), Qt::AlignLeft);
        paint_limit(painter, planned_a_, QObject::tr("to plan with"), Qt::AlignRight);
    }
    if (playhead_ >= from_ && playhead_ <= to_) {
        const double x = std::round(x_of(to_s(playhead_))) + 0.5;
        painter.setPen(QPen(look().brass, 1.0));
        painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()));
    }
}

}  // namespace gasp
