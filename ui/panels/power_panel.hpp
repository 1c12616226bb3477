// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"

#include <QRect>
#include <QWidget>

#include <vector>

class QLabel;
class QScrollArea;
class QVBoxLayout;

namespace gasp {

class CurrentPlot;
class FigureList;

/// What the supplies give over the sequence, a curve for each under the timeline and on its scale; beside
/// them the figures of each, and the voltage that is left at each load at its worst moment.
class PowerPanel : public QWidget {
    Q_OBJECT

  public:
    PowerPanel(Document& document, Analysis& analysis, Settings& settings, QWidget* parent = nullptr);

    /// What part of the ruler the timeline shows, and where its lanes are on the screen.
    void follow(Micros from, Micros to, const QRect& lanes_on_screen);
    void set_playhead(Micros time);

    [[nodiscard]] const std::vector<CurrentPlot*>& plots() const { return plots_; }
    [[nodiscard]] FigureList& supplies() { return *supplies_; }
    [[nodiscard]] FigureList& together() { return *together_; }
    [[nodiscard]] FigureList& loads() { return *loads_; }

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;

  private:
    void refresh();
    void refresh_plots();
    void refresh_figures();
    void lay_out();

    Document& document_;
    Analysis& analysis_;
    Settings& settings_;
    QScrollArea* area_;
    QWidget* curves_;
    QVBoxLayout* column_;
    QLabel* empty_;
    FigureList* supplies_;
    FigureList* together_;
    FigureList* loads_;
    std::vector<CurrentPlot*> plots_;
    Micros from_{0};
    Micros to_{1'000'000};
    Micros playhead_{0};
    QRect lanes_;
};

}  // namespace gasp
