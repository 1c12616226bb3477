// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/power/current_ranges.hpp"
#include "core/show/rig.hpp"
#include "ui/panels/plot.hpp"

#include <optional>
#include <vector>

namespace gasp {

/// "2.5 A"
[[nodiscard]] QString current_text(double amps);

/// What one supply gives over the stretch of the sequence that the timeline shows, against its rating.
class CurrentPlot : public Plot {
    Q_OBJECT

  public:
    explicit CurrentPlot(const QString& supply, QWidget* parent = nullptr);

    void set_supply(const QString& name);
    /// `planned_a`: the share of the rating to plan with. `complete`: every current is known.
    void set(CurrentCurve curve, Micros length, const Figure& rated_a, double planned_a, bool complete);
    /// What part of the ruler is looked at.
    void set_stretch(Micros from, Micros to);
    /// The field's left edge stands here if the ticks leave room; 0: as near as they allow.
    void set_left_edge(int px);
    void set_playhead(Micros time);
    [[nodiscard]] QString summary() const override;

  protected:
    [[nodiscard]] int places() const override;
    [[nodiscard]] QRectF place_box(int place) const override;
    [[nodiscard]] QString reading_of(int place) const override;
    [[nodiscard]] std::vector<AxisTick> across() const override;
    [[nodiscard]] std::vector<AxisTick> upward() const override;
    [[nodiscard]] double share_across(double seconds) const override;
    [[nodiscard]] double share_up(double amps) const override;
    void paint_data(QPainter& painter) override;
    [[nodiscard]] int left_px() const override;

  private:
    /// The least and the most within a slice of the stretch; empty beyond the sequence.
    [[nodiscard]] std::vector<std::optional<CurrentRange>> ranges(int count) const;
    void take_slices();
    void paint_limit(QPainter& painter, double amps, const QString& word, Qt::Alignment side);

    CurrentCurve curve_;
    std::vector<std::optional<CurrentRange>> slices_;
    Micros length_{0};
    Micros from_{0};
    Micros to_{1'000'000};
    Micros playhead_{-1};
    Figure rated_a_;
    double planned_a_ = 0.0;
    double most_a_ = 1.0;
    bool complete_ = false;
    int left_edge_ = 0;
};

}  // namespace gasp
