// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/night/night.hpp"
#include "core/air/night/night_answers.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"

#include <QTimer>
#include <QWidget>

#include <memory>
#include <optional>
#include <vector>

class QAction;
class QLabel;

namespace gasp {

class FigureList;
class FormRow;
class HoursPlot;
class PressurePlot;
class SpreadPlot;
class TileArea;
class WorkBar;

/// The night's plan, and what it comes to: played many times over in the background when asked. It says when
/// what it shows is of an earlier state of the show.
class ForecastPanel : public QWidget {
    Q_OBJECT

  public:
    ForecastPanel(Document& document, Settings& settings, QWidget* parent = nullptr);
    ~ForecastPanel() override;

    void run();
    void find_answers();
    /// For a menu.
    [[nodiscard]] QList<QAction*> night_actions() const { return actions_; }

    [[nodiscard]] const std::vector<FormRow*>& rows() const { return rows_; }
    [[nodiscard]] WorkBar& run_bar() { return *run_; }
    [[nodiscard]] WorkBar& answer_bar() { return *answer_; }
    [[nodiscard]] FigureList& figures() { return *figures_; }
    [[nodiscard]] FigureList& answers() { return *answers_; }
    [[nodiscard]] const std::optional<NightForecast>& forecast() const { return forecast_; }
    /// What is shown is not of the show as it is now.
    [[nodiscard]] bool out_of_date() const;

  signals:
    /// forecast() is another.
    void forecast_made();

  private:
    QWidget* make_form();
    void make_actions();
    void connect_parts();
    void refresh_rows();
    void show_forecast();
    void show_state();
    void take(Result<NightForecast> forecast, std::shared_ptr<const Show> show);
    void take_answers(Result<std::vector<NightAnswer>> answers, std::shared_ptr<const Show> show);

    Document& document_;
    Settings& settings_;
    QList<QAction*> actions_;
    std::vector<FormRow*> rows_;
    WorkBar* run_ = nullptr;
    WorkBar* answer_ = nullptr;
    TileArea* tiles_ = nullptr;
    FigureList* figures_ = nullptr;
    FigureList* answers_ = nullptr;
    PressurePlot* pressure_ = nullptr;
    SpreadPlot* spread_ = nullptr;
    HoursPlot* hours_ = nullptr;
    QLabel* assumed_ = nullptr;
    QTimer compare_;
    std::optional<NightForecast> forecast_;
    std::shared_ptr<const Show> of_;  ///< the show it was made for
    std::vector<NightAnswer> answers_found_;
    std::shared_ptr<const Show> answers_of_;
};

}  // namespace gasp
