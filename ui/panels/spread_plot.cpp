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

constexpr int row_least_px = 18;
constexpr int names_most_px = 136;
constexpr double bar_px = 8.0;
constexpr int around_px = 64;  // head, reading and foot

QFontMetricsF small_metrics() {
    return QFontMetricsF(font(TypeSize::small));
}

QString signed_ms(double ms) {
    const double rounded = std::round(ms * 10.0) / 10.0;
    return QStringLiteral("%1%2").arg(rounded > 0 ? "+" : "").arg(std::abs(rounded) < 0.05 ? 0.0 : rounded);
}

}  // namespace

SpreadPlot::SpreadPlot(QWidget* parent)
    : Plot("Strikes after their usual moment", "Run the forecast to see how far strikes spread.", parent) {}

void SpreadPlot::set(std::vector<StrikeSpread> strikes, double weak_ms) {
    strikes_ = std::move(strikes);
    weak_ms_ = weak_ms;
    low_ = 0.0;
    high_ = weak_ms;
    for (const StrikeSpread& strike : strikes_) {
        low_ = std::min(low_, strike.low_ms);
        high_ = std::max(high_, strike.high_ms);
    }
    const double margin = std::max((high_ - low_) * 0.08, 1.0);
    low_ -= margin;
    high_ += margin;
    take_figures();
}

QString SpreadPlot::summary() const {
    if (strikes_.empty()) {
        return {};
    }
    const auto widest =
        std::max_element(strikes_.begin(), strikes_.end(), [](const StrikeSpread& a, const StrikeSpread& b) {
            return a.high_ms - a.low_ms < b.high_ms - b.low_ms;
        });
    return QStringLiteral("widest: %1, %2 to %3 ms")
        .arg(widest->name, signed_ms(widest->low_ms), signed_ms(widest->high_ms));
}

QSize SpreadPlot::minimumSizeHint() const {
    const int rows = static_cast<int>(strikes_.size()) * row_least_px + around_px;
    return Plot::minimumSizeHint().expandedTo({0, rows});
}

int SpreadPlot::places() const {
    return static_cast<int>(strikes_.size());
}

QRectF SpreadPlot::place_box(int place) const {
    const QRectF box = field();
    const double row = box.height() / static_cast<double>(strikes_.size());
    return {box.left(), box.top() + row * place, box.width(), row};
}

QString SpreadPlot::reading_of(int place) const {
    const StrikeSpread& strike = strikes_[static_cast<std::size_t>(place)];
    return QStringLiteral("%1: 5 % %2, middle %3, 95 % %4 ms")
        .arg(strike.name, signed_ms(strike.low_ms), signed_ms(strike.middle_ms), signed_ms(strike.high_ms));
}

std::vector<AxisTick> SpreadPlot::across() const {
    return round_ticks(low_, high_, 6, "ms");
}

double SpreadPlot::share_across(double ms) const {
    return (ms - low_) / (high_ - low_);
}

double SpreadPlot::share_up(double row) const {
    return 1.0 - row / static_cast<double>(std::max<std::size_t>(strikes_.size(), 1));
}

int SpreadPlot::left_px() const {
    double widest = 0.0;
    for (const StrikeSpread& strike : strikes_) {
        widest = std::max(widest, small_metrics().horizontalAdvance(strike.name));
    }
    return std::min(static_cast<int>(std::ceil(widest)), names_most_px) + grid_px;
}

void SpreadPlot::paint_data(QPainter& painter) {
    const QRectF box = field();
    const double weak = std::round(x_of(weak_ms_)) + 0.5;
    painter.fillRect(QRectF(weak, box.top(), box.right() - weak, box.height()),
                     QBrush(look().rule, Qt::BDiagPattern));
    painter.setPen(QPen(look().warn_text, 1.0, Qt::DashLine));
    painter.drawLine(QPointF(weak, box.top()), QPointF(weak, box.bottom()));
    painter.setFont(gasp::font(TypeSize::small));
    const QString word = QStringLiteral("weak from %1 ms").arg(weak_ms_);
    const double wide = small_metrics().horizontalAdvance(word);
    const double left = std::min(weak + 3.0, box.right() - wide - 2.0);
    painter.fillRect(QRectF(left, box.top() + 1, wide + 2, 13), look().canvas);
    painter.setPen(look().warn_text);
    painter.drawText(QRectF(left + 1, box.top() + 1, wide + 2, 13), Qt::AlignVCenter, word);
    const double usual = std::round(x_of(0.0)) + 0.5;
    painter.setPen(look().rule_strong);
    painter.drawLine(QPointF(usual, box.top()), QPointF(usual, box.bottom()));

    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    for (int i = 0; i < places(); ++i) {
        const StrikeSpread& strike = strikes_[static_cast<std::size_t>(i)];
        const QRectF row = place_box(i);
        const double y = row.center().y();
        const double from = x_of(strike.low_ms);
        const double to = std::max(x_of(strike.high_ms), from + 2.0);
        painter.fillRect(QRectF(from, y - 1.0, to - from, 2.0), look().pressure);
        for (const double end : {from, to}) {
            painter.fillRect(QRectF(end - 0.75, y - bar_px / 2, 1.5, bar_px), look().pressure);
        }
        painter.setBrush(look().text);
        painter.setPen(Qt::NoPen);
        painter.drawEllipse(QPointF(x_of(strike.middle_ms), y), 3.0, 3.0);
        painter.setPen(look().text);
        painter.drawText(QRectF(0, row.top(), box.left() - 4.0, row.height()),
                         Qt::AlignVCenter | Qt::AlignRight,
                         small_metrics().elidedText(strike.name, Qt::ElideRight, box.left() - 4.0));
    }
    painter.restore();
}

}  // namespace gasp
