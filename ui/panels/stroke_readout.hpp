// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/quantity.hpp"
#include "ui/editor/analysis.hpp"
#include "ui/editor/settings.hpp"
#include "ui/panels/figure_list.hpp"

#include <vector>

namespace gasp {

/// How a figure strikes in a result: of its strokes out the one that ends hardest, and beside it the first
/// after the air is let on, which is none of the sequence's. Empty where the sequence does not send it out,
/// or it is not simulated.
[[nodiscard]] std::vector<FigureLine> stroke_lines(const AnalysisResult& result, const Actuator& actuator,
                                                   UnitSystem units);

/// The same as a part of a form, kept up with the analysis.
class StrokeReadout : public FigureList {
    Q_OBJECT

  public:
    StrokeReadout(Document& document, Analysis& analysis, const Settings& settings, ActuatorId actuator,
                  QWidget* parent = nullptr);

  private:
    void refresh();

    Document& document_;
    Analysis& analysis_;
    const Settings& settings_;
    ActuatorId actuator_;
};

}  // namespace gasp
