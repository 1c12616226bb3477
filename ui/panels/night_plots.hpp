// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/air_curves.hpp"
#include "core/show/rig.hpp"
#include "core/units/quantity.hpp"
#include "ui/panels/plot.hpp"

#include <QString>

#include <vector>

namespace gasp {

/// The receiver's gauge pressure over one night, with the switch's and the regulator's settings.
struct PressureNight {
    Curve receiver_kpa;
    double hours = 0.0;
    Figure cut_in_kpa;
    Figure cut_out_kpa;
    Figure regulator_kpa;
};

class PressurePlot : public Plot {
    Q_OBJECT

  public:
    explicit PressurePlot(QWidget* parent = nullptr);
    void set(PressureNight night);
    void set_units(UnitSystem units);
    [[nodiscard]] QString summary() const override;

  protected:
    [[nodiscard]] int places() const override;
    [[nodiscard]] QRectF place_box(int place) const override;
    [[nodiscard]] QString reading_of(int place) const override;
    [[nodiscard]] std::vector<AxisTick> across() const override;
    [[nodiscard]] std::vector<AxisTick> upward() const override;
    [[nodiscard]] double share_across(double hours) const override;
    [[nodiscard]] double share_up(double shown_pressure) const override;
    void paint_data(QPainter& painter) override;

  private:
    struct Range {
        double low = 0.0;
        double high = 0.0;
    };
    [[nodiscard]] std::vector<Range> ranges(int count) const;
    [[nodiscard]] double shown(double kpa) const;
    [[nodiscard]] QString text(double kpa) const;
    void paint_limit(QPainter& painter, const Figure& kpa, const QString& word);
    void take_extent();

    PressureNight night_;
    UnitSystem units_ = UnitSystem::metric;
    std::vector<Range> slices_;  ///< what is read out
    double low_ = 0.0;           ///< of the axis, as shown
    double high_ = 1.0;
    double lowest_kpa_ = 0.0;
    double lowest_at_h_ = 0.0;
};

/// By how much a strike comes after its usual moment, over all nights.
struct StrikeSpread {
    QString name;
    double low_ms = 0.0;  ///< 5 of 100 come before
    double middle_ms = 0.0;
    double high_ms = 0.0;  ///< 5 of 100 come after
};

class SpreadPlot : public Plot {
    Q_OBJECT

  public:
    explicit SpreadPlot(QWidget* parent = nullptr);
    /// A strike later than `weak_ms` is a weak one.
    void set(std::vector<StrikeSpread> strikes, double weak_ms);
    [[nodiscard]] QString summary() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

  protected:
    [[nodiscard]] int places() const override;
    [[nodiscard]] QRectF place_box(int place) const override;
    [[nodiscard]] QString reading_of(int place) const override;
    [[nodiscard]] std::vector<AxisTick> across() const override;
    [[nodiscard]] std::vector<AxisTick> upward() const override { return {}; }
    [[nodiscard]] double share_across(double ms) const override;
    [[nodiscard]] double share_up(double row) const override;
    void paint_data(QPainter& painter) override;
    [[nodiscard]] int left_px() const override;

  private:
    std::vector<StrikeSpread> strikes_;
    double weak_ms_ = 0.0;
    double low_ = 0.0;
    double high_ = 1.0;
};

/// Scares of one hour of the night, on average over all nights.
struct ScareHour {
    double delivered = 0.0;  ///< weak ones left out
    double weak = 0.0;
    double refused = 0.0;
};

class HoursPlot : public Plot {
    Q_OBJECT

  public:
    explicit HoursPlot(QWidget* parent = nullptr);
    void set(std::vector<ScareHour> hours);
    [[nodiscard]] QString summary() const override;

  protected:
    [[nodiscard]] int places() const override;
    [[nodiscard]] QRectF place_box(int place) const override;
    [[nodiscard]] QString reading_of(int place) const override;
    [[nodiscard]] std::vector<AxisTick> across() const override;
    [[nodiscard]] std::vector<AxisTick> upward() const override;
    [[nodiscard]] double share_across(double hour) const override;
    [[nodiscard]] double share_up(double count) const override;
    void paint_data(QPainter& painter) override;

  private:
    std::vector<ScareHour> hours_;
    double most_ = 1.0;
};

}  // namespace gasp
