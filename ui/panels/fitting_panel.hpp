// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/fitting/fitting.hpp"
#include "core/sound/heard_strokes.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"

#include <QWidget>

#include <memory>
#include <optional>
#include <vector>

class QAction;
class QComboBox;
class QLabel;
class QPushButton;
class QTableWidget;

namespace gasp {

class FigureList;
class FitPlot;
class FormRow;
class TileArea;
class WorkBar;

/// Fits an actuator's model to strokes timed on the real thing: typed in, or heard in a recording. Typed
/// times are kept in the show at once, the fit when asked.
class FittingPanel : public QWidget {
    Q_OBJECT

  public:
    FittingPanel(Document& document, Settings& settings, QWidget* parent = nullptr);
    ~FittingPanel() override;

    void fit();
    void keep();
    /// Finds the strokes of the actuator in a recording.
    void listen(const QString& recording);
    /// For a menu.
    [[nodiscard]] QList<QAction*> fitting_actions() const { return actions_; }

    [[nodiscard]] QComboBox& actuator_box() { return *actuator_; }
    [[nodiscard]] QComboBox& timed_by() { return *timed_by_; }
    [[nodiscard]] const std::vector<FormRow*>& rows() const { return rows_; }
    [[nodiscard]] WorkBar& fit_bar() { return *fit_; }
    [[nodiscard]] WorkBar& listen_bar() { return *listen_; }
    [[nodiscard]] QPushButton& keep_button() { return *keep_; }
    [[nodiscard]] FigureList& figures() { return *figures_; }
    [[nodiscard]] QTableWidget& heard_table() { return *heard_table_; }
    [[nodiscard]] const std::optional<StrokeFit>& result() const { return result_; }

  protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    void make_actions();
    QWidget* make_form();
    QWidget* make_heard();
    void connect_parts();
    void choose_recording();
    void choose_actuator(ActuatorId id);
    void list_actuators();
    void take_heard(Result<std::vector<HeardStroke>> heard, const QString& recording);
    void show_heard();
    void forget_heard();
    void take(Result<StrokeFit> fit, std::shared_ptr<const Show> show, ActuatorId actuator);
    void show_result();
    void show_state();
    [[nodiscard]] std::vector<TimedStroke> strokes() const;
    [[nodiscard]] double reading_ms() const;

    Document& document_;
    Settings& settings_;
    std::shared_ptr<ActuatorId> id_;  ///< the actuator that is fitted; 0 for none
    QList<QAction*> actions_;
    QComboBox* actuator_ = nullptr;
    QComboBox* timed_by_ = nullptr;
    std::vector<FormRow*> rows_;
    WorkBar* fit_ = nullptr;
    WorkBar* listen_ = nullptr;
    QPushButton* keep_ = nullptr;
    QLabel* recording_name_ = nullptr;
    QTableWidget* heard_table_ = nullptr;
    QPushButton* forget_ = nullptr;
    FigureList* figures_ = nullptr;
    FitPlot* plot_ = nullptr;
    QWidget* heard_tile_ = nullptr;
    TileArea* tiles_ = nullptr;
    std::vector<HeardStroke> heard_;
    QString recording_;
    std::optional<StrokeFit> result_;
    std::vector<TimedStroke> fitted_to_;
    std::optional<Actuator> of_;  ///< the actuator as it was fitted
};

}  // namespace gasp
