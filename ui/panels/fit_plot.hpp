// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/fitting/fitting.hpp"
#include "ui/panels/plot.hpp"

#include <vector>

namespace gasp {

/// Every timed stroke beside what the model says of it, before the fit and after.
class FitPlot : public Plot {
    Q_OBJECT

  public:
    explicit FitPlot(QWidget* parent = nullptr);
    void set(std::vector<FittedStroke> strokes);
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
    enum class Sign { timed, before, after };
    static void paint_sign(QPainter& painter, QPointF at, Sign sign);
    void paint_signs(QPainter& painter) const;
    [[nodiscard]] QString name_of(int place) const;

    std::vector<FittedStroke> strokes_;
    double low_ = 0.0;
    double high_ = 1.0;
};

}  // namespace gasp
