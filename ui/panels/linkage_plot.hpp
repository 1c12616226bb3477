// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/units/quantity.hpp"
#include "ui/panels/plot.hpp"

#include <vector>

namespace gasp {

/// A measured linkage: its points, and the curve through them that is simulated.
struct LinkageCurve {
    std::vector<LinkagePoint> measured;
    std::vector<LinkagePoint> line;  ///< over the stroke; empty where it cannot be simulated
    QString trouble;                 ///< why not
    bool operator==(const LinkageCurve&) const = default;
};

/// Of an actuator with a table; over its stroke, or while that is blank over the points.
[[nodiscard]] LinkageCurve linkage_curve(const Show& show, ActuatorId actuator);

/// The arm's slope over the rod's travel.
class LinkagePlot : public Plot {
    Q_OBJECT

  public:
    explicit LinkagePlot(QWidget* parent = nullptr);
    void set(LinkageCurve curve, UnitSystem units);
    [[nodiscard]] const LinkageCurve& curve() const { return curve_; }
    [[nodiscard]] QString summary() const override;

  protected:
    [[nodiscard]] int places() const override;
    [[nodiscard]] QRectF place_box(int place) const override;
    [[nodiscard]] QString reading_of(int place) const override;
    [[nodiscard]] std::vector<AxisTick> across() const override;
    [[nodiscard]] std::vector<AxisTick> upward() const override;
    [[nodiscard]] double share_across(double value) const override;
    [[nodiscard]] double share_up(double deg) const override;
    void paint_data(QPainter& painter) override;

  private:
    [[nodiscard]] double shown(double mm) const;

    LinkageCurve curve_;
    UnitSystem units_ = UnitSystem::metric;
    double most_mm_ = 1.0;
    double low_deg_ = 0.0;
    double high_deg_ = 1.0;
};

}  // namespace gasp
