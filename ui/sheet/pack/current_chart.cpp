// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/current_chart.hpp"

#include "core/power/current_ranges.hpp"
#include "core/units/quantity.hpp"
#include "ui/sheet/circuit/sketch.hpp"
#include "ui/sheet/pack/pack_words.hpp"
#include "ui/timeline/ticks.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr double side = 150.0;  // of the words at either end
constexpr double foot = 50.0;
constexpr double word_height = 34.0;
constexpr double slice_width = 3.0;
constexpr double headroom = 1.08;

class Chart {
  public:
    Chart(QPainter& painter, const QRectF& box, const CurrentChart& chart)
        : sketch_(painter),
          chart_(chart),
          plot_(box.adjusted(side, 8, -2 * side, -foot)),
          most_a_(std::max({amps(chart.curve.peak), chart.rated_a.value_or(0.0), 0.1}) * headroom) {}

    void paint() {
        paint_time();
        paint_levels();
        sketch_.path(outline());
        sketch_.line(plot_.bottomLeft(), plot_.bottomRight());
        sketch_.line(plot_.topLeft(), plot_.bottomLeft());
    }

  private:
    [[nodiscard]] double x_of(Micros time) const {
        return plot_.left() + plot_.width() * to_s(time) / to_s(chart_.length);
    }
    [[nodiscard]] double y_of(double current) const {
        return plot_.bottom() - plot_.height() * current / most_a_;
    }

    void paint_time() {
        const auto width = [](const std::string& label) {
            return static_cast<double>(label.size()) * print_px(PrintSize::small) * 0.65;
        };
        const Grid seconds;
        const TickScale scale =
            tick_scale(seconds, static_cast<double>(chart_.length.count()) / plot_.width(), Micros{0},
                       chart_.length, 40.0, width);
        for (const Tick& tick : ticks(seconds, scale, Micros{0}, chart_.length)) {
            const double x = x_of(tick.time);
            sketch_.line({x, plot_.bottom()}, {x, plot_.bottom() + (tick.labelled ? 12.0 : 6.0)});
            if (tick.labelled) {
                sketch_.words({x, plot_.bottom() + 32}, Sketch::Align::centre,
                              QString::fromStdString(tick_label(seconds, scale, tick.unit)), side);
            }
        }
    }

    /// Peak and nothing at the left; what it is held against at the right, the words apart.
    void paint_levels() {
        const double peak = amps(chart_.curve.peak);
        paint_current(0.0);
        if (y_of(0.0) - y_of(peak) > word_height) {
            paint_current(peak);
        }
        if (!chart_.rated_a) {
            return;
        }
        const double rated_y = y_of(*chart_.rated_a);
        paint_limit(*chart_.rated_a, rated_y, QStringLiteral("rated"));
        if (chart_.planned_a && *chart_.planned_a < *chart_.rated_a) {
            paint_limit(*chart_.planned_a, std::max(y_of(*chart_.planned_a), rated_y + word_height),
                        QStringLiteral("planned with"));
        }
    }

    void paint_current(double current) {
        const double y = y_of(current);
        sketch_.line({plot_.left() - 12, y}, {plot_.left(), y});
        sketch_.words({plot_.left() - 20, y}, Sketch::Align::right,
                      rounded_text(Quantity::current, current, UnitSystem::metric), side - 20);
    }

    void paint_limit(double current, double word_y, const QString& word) {
        sketch_.line({plot_.left(), y_of(current)}, {plot_.right(), y_of(current)}, Sketch::Stroke::dashed);
        sketch_.words({plot_.right() + 12, word_y}, Sketch::Align::left,
                      rounded_text(Quantity::current, current, UnitSystem::metric) + ' ' + word,
                      2 * side - 12);
    }

    /// Up and down within each slice; corners alone, so that a level line is two points.
    [[nodiscard]] QPolygonF outline() const {
        const int slices = std::max(static_cast<int>(plot_.width() / slice_width), 1);
        const auto ranges = current_ranges(chart_.curve, chart_.length, Micros{0}, chart_.length, slices);
        QPolygonF line;
        const auto add = [&line](double x, double y) {
            const qsizetype count = line.size();
            if (count > 1 && line[count - 1].y() == y && line[count - 2].y() == y) {
                line.last().setX(x);
            } else {
                line << QPointF(x, y);
            }
        };
        for (int i = 0; i < slices; ++i) {
            const CurrentRange& range = *ranges[static_cast<std::size_t>(i)];
            const double x = plot_.left() + plot_.width() * i / slices;
            const double low = y_of(range.low);
            const double high = y_of(range.high);
            const bool from_low =
                line.isEmpty() || std::abs(line.last().y() - low) < std::abs(line.last().y() - high);
            if (!line.isEmpty()) {
                add(x, line.last().y());
            }
            add(x, from_low ? low : high);
            if (low != high) {
                add(x, from_low ? high : low);
            }
        }
        add(plot_.right(), y_of(amps(chart_.curve.points.back().current)));
        return line;
    }

    Sketch sketch_;
    const CurrentChart& chart_;
    QRectF plot_;
    double most_a_;
};

}  // namespace

void paint_chart(QPainter& painter, const QRectF& box, const CurrentChart& chart) {
    Chart(painter, box, chart).paint();
}

}  // namespace gasp
