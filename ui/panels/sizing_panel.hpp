// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/sizing/sizing.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/settings.hpp"

#include <QWidget>

#include <memory>
#include <optional>
#include <vector>

class QAction;
class QCheckBox;
class QComboBox;
class QLabel;
class QPushButton;

namespace gasp {

class FigureList;
class FormRow;
class WorkBar;

/// What a figure is to do, and the parts that do it; they are put into the rig when asked. The task is
/// remembered on this machine, it is no part of the show.
class SizingPanel : public QWidget {
    Q_OBJECT

  public:
    SizingPanel(Document& document, Settings& settings, QWidget* parent = nullptr);
    ~SizingPanel() override;

    void run();
    void put();
    /// For a menu.
    [[nodiscard]] QList<QAction*> sizing_actions() const { return actions_; }

    [[nodiscard]] const std::vector<FormRow*>& rows() const { return rows_; }
    [[nodiscard]] WorkBar& run_bar() { return *run_; }
    [[nodiscard]] FigureList& parts() { return *parts_; }
    [[nodiscard]] FigureList& motion() { return *motion_; }
    [[nodiscard]] QComboBox& target() { return *target_; }
    /// Its menu takes what the rig says of an actuator.
    [[nodiscard]] QPushButton& take_button() { return *take_; }
    [[nodiscard]] QCheckBox& with_plant() { return *with_plant_; }
    [[nodiscard]] const std::optional<Sizing>& sizing() const { return sizing_; }

  private:
    void make_actions();
    QWidget* make_form();
    QWidget* make_put_row();
    QWidget* make_take_row();
    void take_task();
    void show_linkage();
    void task_changed();
    void list_targets();
    void take(Result<Sizing> sizing, const SizingTask& of);
    void show_sizing();
    void show_state();

    Document& document_;
    Settings& settings_;
    std::shared_ptr<SizingTask> task_;
    QList<QAction*> actions_;
    std::vector<FormRow*> rows_;
    WorkBar* run_ = nullptr;
    FigureList* parts_ = nullptr;
    FigureList* motion_ = nullptr;
    QComboBox* target_ = nullptr;
    QCheckBox* with_plant_ = nullptr;
    QPushButton* put_ = nullptr;
    QPushButton* take_ = nullptr;
    QLabel* linkage_ = nullptr;
    QPushButton* straight_ = nullptr;
    std::optional<Sizing> sizing_;
    SizingTask of_;  ///< the task it was made for
};

}  // namespace gasp
