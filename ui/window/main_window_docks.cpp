// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// The docks: where they stand at first, what is in each, and what its parts have to do with the rest.
#include "ui/look/look.hpp"
#include "ui/panels/board_panel.hpp"
#include "ui/panels/findings_panel.hpp"
#include "ui/panels/fitting_panel.hpp"
#include "ui/panels/forecast_panel.hpp"
#include "ui/panels/moments_panel.hpp"
#include "ui/panels/power_panel.hpp"
#include "ui/panels/rig_panel.hpp"
#include "ui/panels/sizing_panel.hpp"
#include "ui/panels/wiring_panel.hpp"
#include "ui/stage/sound_with_board.hpp"
#include "ui/stage/stage_view.hpp"
#include "ui/timeline/timeline_view.hpp"
#include "ui/window/main_window.hpp"

#include <QAction>
#include <QDockWidget>
#include <QLabel>
#include <QMenu>
#include <QStatusBar>

#include <algorithm>

namespace gasp {
namespace {

constexpr int least_readable_px = 320;  // of a panel with a form and plots

}  // namespace

QDockWidget* MainWindow::make_dock(const QString& title, const char* name, Qt::DockWidgetArea area) {
    auto* dock = new QDockWidget(title, this);
    dock->setObjectName(name);
    addDockWidget(area, dock);
    return dock;
}

void MainWindow::make_docks() {
    setCorner(Qt::BottomLeftCorner, Qt::LeftDockWidgetArea);
    setCorner(Qt::BottomRightCorner, Qt::BottomDockWidgetArea);
    rig_dock_ = make_dock("Rig", "rig", Qt::LeftDockWidgetArea);
    stage_dock_ = make_dock("Stage", "stage", Qt::RightDockWidgetArea);
    findings_dock_ = make_dock("Findings", "findings", Qt::BottomDockWidgetArea);
    forecast_dock_ = make_dock("Forecast", "forecast", Qt::BottomDockWidgetArea);
    sizing_dock_ = make_dock("Sizing", "sizing", Qt::BottomDockWidgetArea);
    fitting_dock_ = make_dock("Fitting", "fitting", Qt::BottomDockWidgetArea);
    moments_dock_ = make_dock("Moments", "moments", Qt::BottomDockWidgetArea);
    board_dock_ = make_dock("Board", "board", Qt::BottomDockWidgetArea);
    power_dock_ = make_dock("Power", "power", Qt::BottomDockWidgetArea);
    wiring_dock_ = make_dock("Wiring", "wiring", Qt::BottomDockWidgetArea);
    lay_docks_as_at_first();
}

QList<QDockWidget*> MainWindow::docks() const {
    return {rig_dock_,     stage_dock_,   findings_dock_, forecast_dock_, sizing_dock_,
            fitting_dock_, moments_dock_, board_dock_,    power_dock_,    wiring_dock_};
}

void MainWindow::lay_docks_as_at_first() {
    for (QDockWidget* dock : docks()) {
        dock->setFloating(false);
    }
    addDockWidget(Qt::LeftDockWidgetArea, rig_dock_);
    addDockWidget(Qt::RightDockWidgetArea, stage_dock_);
    addDockWidget(Qt::BottomDockWidgetArea, findings_dock_);
    QDockWidget* before = findings_dock_;
    for (QDockWidget* dock : {forecast_dock_, sizing_dock_, fitting_dock_, moments_dock_, board_dock_,
                              power_dock_, wiring_dock_}) {
        addDockWidget(Qt::BottomDockWidgetArea, dock);
        tabifyDockWidget(before, dock);
        before = dock;
        dock->hide();
    }
    for (QDockWidget* dock : {rig_dock_, stage_dock_, findings_dock_}) {
        dock->show();
    }
}

void MainWindow::bring_up(QDockWidget* dock) {
    dock->show();
    dock->raise();
    const int readable = std::max(height() * 2 / 5, least_readable_px);
    if (!dock->isFloating() && dock->height() < least_readable_px) {
        resizeDocks({dock}, {readable}, Qt::Vertical);
    }
}

void MainWindow::fill_docks() {
    if (rig_ != nullptr) {
        return;
    }
    rig_ = new RigPanel(document_, analysis_, settings_, rig_dock_);
    rig_menu_->addActions(rig_->part_actions());
    rig_dock_->setWidget(rig_);

    auto* stage = new StageView(document_, analysis_, audition_, stage_dock_);
    const auto follow_units = [this, stage] {
        stage->set_units(settings_.units());
        timeline_->set_units(settings_.units());
        analysis_.set_units(settings_.units());
    };
    connect(&settings_, &Settings::units_changed, stage, follow_units);
    follow_units();
    stage_dock_->setWidget(stage);

    findings_ = new FindingsPanel(document_, analysis_, settings_, findings_dock_);
    connect(findings_, &FindingsPanel::chosen, this, &MainWindow::show_finding);
    findings_dock_->setWidget(findings_);
    fill_air_docks();
    fill_moments_dock();
    fill_board_dock();
    fill_power_docks();
}

void MainWindow::fill_board_dock() {
    board_ = new BoardPanel(document_, board_dock_);
    board_dock_->setWidget(board_);
    board_menu_->addActions(board_->board_actions());
    for (QAction* action : board_->board_actions()) {
        connect(action, &QAction::triggered, this, [this] { bring_up(board_dock_); });
    }
    connect(board_, &BoardPanel::said, this, &MainWindow::say);
    connect(forecast_, &ForecastPanel::forecast_made, board_,
            [this] { board_->set_forecast(forecast_->forecast() ? &*forecast_->forecast() : nullptr); });
    connect(board_, &BoardPanel::followed, this, [this](SequenceId sequence, Micros time) {
        if (!audition_.playing() && sequence == document_.sequence_id()) {
            timeline_->set_playhead(time);
        }
    });
    connect(board_, &BoardPanel::run_began, &document_, &Document::look_at);
    auto* armed = new QLabel(tr("The board is armed: its prop can be moved from here"));
    armed->setObjectName("armed");
    armed->hide();
    statusBar()->addPermanentWidget(armed);
    connect(board_, &BoardPanel::armed_changed, armed, [armed](bool on) {
        armed->setStyleSheet(QStringLiteral("color: %1; font-weight: bold").arg(look().warn_text.name()));
        armed->setVisible(on);
    });
    auto* sound = new SoundWithBoard(audition_, board_);
    connect(board_, &BoardPanel::sound_wanted, sound, [this, sound](SequenceId sequence, Deadline start) {
        document_.look_at(sequence);
        sound->begin(start);
    });
    connect(board_, &BoardPanel::run_ended, sound, &SoundWithBoard::end);
    connect(sound, &SoundWithBoard::measured, board_, &BoardPanel::show_sound_error);
}

void MainWindow::fill_power_docks() {
    power_ = new PowerPanel(document_, analysis_, settings_, power_dock_);
    power_dock_->setWidget(power_);
    const auto follow = [this] {
        const Dwell stretch = timeline_->stretch();
        power_->follow(stretch.begin, stretch.end, timeline_->lanes_on_screen());
    };
    connect(timeline_, &TimelineView::stretch_changed, power_, follow);
    connect(power_dock_, &QDockWidget::dockLocationChanged, power_, follow);
    connect(power_dock_, &QDockWidget::visibilityChanged, power_, follow);
    connect(&audition_, &Audition::position_changed, power_, &PowerPanel::set_playhead);
    follow();
    wiring_ = new WiringPanel(document_, analysis_, settings_, wiring_dock_);
    wiring_dock_->setWidget(wiring_);
    connect(wiring_, &WiringPanel::said, this, &MainWindow::say);
    rig_menu_->addSeparator();
    rig_menu_->addActions(wiring_->wiring_actions());
}

void MainWindow::fill_moments_dock() {
    moments_ = new MomentsPanel(document_, settings_, timeline_->moments(), moments_dock_);
    moments_dock_->setWidget(moments_);
    sound_menu_->addActions(moments_->moment_actions());
    connect(moments_, &MomentsPanel::said, this, &MainWindow::say);
    connect(moments_, &MomentsPanel::chosen, this, [this](Micros time) {
        audition_.seek(time);
        timeline_->reveal(time);
    });
}

void MainWindow::fill_air_docks() {
    forecast_ = new ForecastPanel(document_, settings_, forecast_dock_);
    forecast_dock_->setWidget(forecast_);
    sizing_ = new SizingPanel(document_, settings_, sizing_dock_);
    sizing_dock_->setWidget(sizing_);
    fitting_ = new FittingPanel(document_, settings_, fitting_dock_);
    fitting_dock_->setWidget(fitting_);
    const auto add = [this](const QList<QAction*>& actions, QDockWidget* dock) {
        air_menu_->addActions(actions);
        for (QAction* action : actions) {
            connect(action, &QAction::triggered, this, [this, dock] { bring_up(dock); });
        }
    };
    add(forecast_->night_actions(), forecast_dock_);
    air_menu_->addSeparator();
    add(findings_->finding_actions(), findings_dock_);
    air_menu_->addSeparator();
    add(sizing_->sizing_actions(), sizing_dock_);
    air_menu_->addSeparator();
    add(fitting_->fitting_actions(), fitting_dock_);
}

RigPanel& MainWindow::rig() {
    fill_docks();
    return *rig_;
}

FindingsPanel& MainWindow::findings() {
    fill_docks();
    return *findings_;
}

ForecastPanel& MainWindow::forecast() {
    fill_docks();
    return *forecast_;
}

SizingPanel& MainWindow::sizing() {
    fill_docks();
    return *sizing_;
}

FittingPanel& MainWindow::fitting() {
    fill_docks();
    return *fitting_;
}

BoardPanel& MainWindow::board() {
    fill_docks();
    return *board_;
}

PowerPanel& MainWindow::power() {
    fill_docks();
    return *power_;
}

WiringPanel& MainWindow::wiring() {
    fill_docks();
    return *wiring_;
}

MomentsPanel& MainWindow::moments() {
    fill_docks();
    return *moments_;
}

}  // namespace gasp
