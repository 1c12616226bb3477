// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/stagger.hpp"
#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"

#include <QWidget>

#include <cstdint>
#include <optional>

class QAction;
class QLabel;
class QPushButton;

namespace gasp {

class FigureList;
class WorkBar;

/// Whether a finding is about air that runs short while this sequence runs.
[[nodiscard]] bool is_short_of_air(const Finding& finding, SequenceId sequence);

/// What helps a sequence that takes more air than the receiver has: its cues moved apart, or a reservoir
/// beside the figure that strikes late. Each is shown with what it changes before it is done as one step.
class AirRemedies : public QWidget {
    Q_OBJECT

  public:
    AirRemedies(Document& document, Analysis& analysis, const Settings& settings, QWidget* parent = nullptr);

    /// For a finding that is short of air: looks for both.
    void show_for(const Finding& finding);
    [[nodiscard]] FigureList& shifts() { return *shifts_; }
    [[nodiscard]] FigureList& reservoir() { return *reservoir_; }
    [[nodiscard]] QPushButton& move_button() { return *move_; }
    [[nodiscard]] QPushButton& fit_button() { return *fit_; }
    [[nodiscard]] WorkBar& search() { return *search_; }

  signals:
    void closed();

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    QWidget* make_shifts();
    QWidget* make_reservoir();
    void take_result();
    void show_shifts();
    void show_reservoir();
    void find_reservoir();
    void move_apart();
    void fit_reservoir();
    [[nodiscard]] ActuatorId figure_of(const Finding& finding) const;
    [[nodiscard]] const Result<Stagger>* stagger() const;

    Document& document_;
    Analysis& analysis_;
    const Settings& settings_;
    QLabel* what_;
    FigureList* shifts_ = nullptr;
    QPushButton* move_ = nullptr;
    FigureList* reservoir_ = nullptr;
    QPushButton* fit_ = nullptr;
    QAction* find_;
    WorkBar* search_ = nullptr;
    ActuatorId figure_;
    std::optional<PropReservoir> found_;
    std::uint64_t found_for_ = 0;  ///< revision
};

}  // namespace gasp
