// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/look.hpp"
#include "ui/panels/night_plots.hpp"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr double widest_bar_px = 48.0;

QString count(double scares) {
    return QString::number(scares, 'f', scares < 10.0 && scares != std::floor(scares) ? 1 : 0);
}

}  // namespace

HoursPlot::HoursPlot(QWidget* parent)
    : Plot("Scares by the hour", "Run the forecast to see what each hour brings.", parent) {}

void HoursPlot::set(std::vector<ScareHour> hours) {
    hours_ = std::move(hours);
    most_ = 1.0;
    for (const ScareHour& hour : hours_) {
        most_ = std::max(most_, hour.delivered + hour.weak + hour.refused);
    }
    most_ *= 1.06;
    take_figures();
}

QString HoursPlot::summary() const {
    ScareHour all;
    for (const ScareHour& hour : hours_) {
        all.delivered += hour.delivered;
        all.weak += hour.weak;
        all.refused += hour.refused;
    }
    return hours_.empty() ? QString()
                          : QStringLiteral("a night: %1 good, %2 weak, %3 refused")
                                .arg(count(all.delivered), count(all.weak), count(all.refused));
}

int HoursPlot::places() const {
    return static_cast<int>(hours_.size());
}

QRectF HoursPlot::place_box(int place) const {
    const QRectF box = field();
    const double step = box.width() / static_cast<double>(hours_.size());
    return {box.left() + step * place, box.top(), step, box.height()};
}

QString HoursPlot::reading_of(int place) const {
    const ScareHour& hour = hours_[static_cast<std::size_t>(place)];
    return QStringLiteral("hour %1: %2 good, %3 weak, %4 refused")
        .arg(place + 1)
        .arg(count(hour.delivered), count(hour.weak), count(hour.refused));
}

std::vector<AxisTick> HoursPlot::across() const {
    std::vector<AxisTick> ticks;
    const int step = places() > 12 ? 4 : places() > 8 ? 2 : 1;
    for (int i = 0; i <= places(); i += step) {
        ticks.push_back({static_cast<double>(i), QString::number(i)});
    }
    if (!ticks.empty()) {
        ticks.back().text += " h";
    }
    return ticks;
}

std::vector<AxisTick> HoursPlot::upward() const {
    std::vector<AxisTick> ticks = round_ticks(0.0, most_, 5, {});
    // Half a scare is no tick.
    std::erase_if(ticks, [](const AxisTick& tick) { return tick.at != std::floor(tick.at); });
    return ticks;
}

double HoursPlot::share_across(double hour) const {
    return hours_.empty() ? 0.0 : hour / static_cast<double>(hours_.size());
}

double HoursPlot::share_up(double scares) const {
    return scares / most_;
}

void HoursPlot::paint_data(QPainter& painter) {
    const Palette& colours = look();
    double right = paint_legend(painter, width(), "refused", colours.stop_text, Fill::hollow);
    right = paint_legend(painter, right, "weak", colours.warn_text, Fill::hatched);
    paint_legend(painter, right, "good", colours.sound_core, Fill::solid);
    for (int i = 0; i < places(); ++i) {
        const ScareHour& hour = hours_[static_cast<std::size_t>(i)];
        const QRectF place = place_box(i);
        const double wide = std::min(place.width() * 0.7, widest_bar_px);
        double foot = 0.0;
        const auto stack = [&](double scares, const QColor& colour, Fill fill) {
            const double top = std::round(y_of(foot + scares));
            const double bottom = std::round(y_of(foot));
            if (bottom - top >= 1.0) {
                paint_fill(painter,
                           QRectF(std::round(place.center().x() - wide / 2), top, wide, bottom - top), colour,
                           fill);
            }
            foot += scares;
        };
        stack(hour.delivered, colours.sound_core, Fill::solid);
        stack(hour.weak, colours.warn_text, Fill::hatched);
        stack(hour.refused, colours.stop_text, Fill::hollow);
    }
}

}  // namespace gasp
