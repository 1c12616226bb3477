// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/quantity.hpp"
#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/stage/audition.hpp"
#include "ui/stage/stage_state.hpp"

#include <QWidget>

namespace gasp {

/// The rig as it stands at the audition's position: contacts, lamps, valves, figures, receiver and
/// loudspeaker, all drawn from the schedule and the air budget of the analysis.
class StageView : public QWidget {
    Q_OBJECT

  public:
    StageView(Document& document, Analysis& analysis, Audition& audition, QWidget* parent = nullptr);

    void set_units(UnitSystem units);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    void plan();
    void paint_head(QPainter& painter, const QRectF& clock, const QRectF& state) const;
    void paint_empty(QPainter& painter, const QRectF& box) const;
    void paint_left_out(QPainter& painter, const QRectF& box, int channels, int actuators) const;
    [[nodiscard]] QString trigger_words() const;

    Document& document_;
    Analysis& analysis_;
    Audition& audition_;
    StagePlan plan_;
    UnitSystem units_ = UnitSystem::metric;
};

}  // namespace gasp
