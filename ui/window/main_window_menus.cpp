// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// The window's menus: every action of the program is in one of them, with its key.
#include "ui/look/icons.hpp"
#include "ui/look/look.hpp"
#include "ui/panels/rig_panel.hpp"
#include "ui/panels/sequence_bar.hpp"
#include "ui/timeline/timeline_view.hpp"
#include "ui/window/help_windows.hpp"
#include "ui/window/main_window.hpp"
#include "ui/window/transport_bar.hpp"

#include <QAction>
#include <QDockWidget>
#include <QMenu>
#include <QMenuBar>
#include <QUndoStack>

#include <utility>

namespace gasp {
namespace {

void add_actions(QMenu* menu, const std::vector<QAction*>& actions) {
    for (QAction* action : actions) {
        if (action == nullptr) {
            menu->addSeparator();
        } else {
            menu->addAction(action);
        }
    }
}

}  // namespace

QAction* MainWindow::add_action(QMenu* menu, int sign, const QString& text, const QKeySequence& key,
                                const QString& tip, std::function<void()> does) {
    QAction* action = menu->addAction(icon(static_cast<Icon>(sign)), text);
    action->setShortcut(key);
    const QString shown = key.toString(QKeySequence::NativeText);
    action->setToolTip(shown.isEmpty() ? tip : QStringLiteral("%1 (%2)").arg(tip, shown));
    action->setStatusTip(tip);
    connect(action, &QAction::triggered, this, std::move(does));
    return action;
}

void MainWindow::make_menus() {
    make_file_menu();
    make_edit_menu();
    make_view_menu();
    QMenu* sequence = menuBar()->addMenu("&Sequence");
    sequence->addActions(sequences_->sequence_actions());
    QMenu* play = menuBar()->addMenu("&Play");
    play->addActions(transport_->play_actions());
    play->addSeparator();
    play->addAction(timeline_->loop_action());
    sound_menu_ = menuBar()->addMenu("S&ound");
    air_menu_ = menuBar()->addMenu("&Air");
    board_menu_ = menuBar()->addMenu("&Board");
    make_help_menu();
}

void MainWindow::make_file_menu() {
    const auto sign = [](Icon i) { return static_cast<int>(i); };
    QMenu* menu = menuBar()->addMenu("&File");
    add_action(menu, sign(Icon::new_show), "&New show", QKeySequence::New, "Begin a new show",
               [this] { leave_then([this] { files_.start_new(); }); });
    add_action(menu, sign(Icon::open), "&Open...", QKeySequence::Open,
               "Open a show, or begin one from a sound", [this] { choose_open(); });
    recent_ = menu->addMenu("Open &recent");
    recent_->setToolTipsVisible(true);
    show_recent();
    connect(&settings_, &Settings::recent_changed, this, &MainWindow::show_recent);
    menu->addSeparator();
    add_action(menu, sign(Icon::save), "&Save", QKeySequence::Save, "Save the show",
               [this] { save_then([] {}); });
    add_action(menu, sign(Icon::save), "Save &as...", QKeySequence("Ctrl+Shift+S"),
               "Save the show under another name, its sounds beside it", [this] { choose_save_path([] {}); });
    QAction* back = add_action(menu, sign(Icon::undo), "&Go back to saved", QKeySequence("Ctrl+Shift+R"),
                               "Open the show again as it was last saved", [this] { revert(); });
    const auto update = [this, back] {
        back->setEnabled(document_.modified() && !document_.path().isEmpty());
    };
    connect(&document_, &Document::file_changed, back, update);
    update();
    menu->addSeparator();
    add_action(menu, sign(Icon::sound), "Add so&und...", QKeySequence("Ctrl+I"),
               "Add a sound to the sequence", [this] { choose_sounds(); });
    menu->addSeparator();
    add_action(menu, sign(Icon::export_table), "&Export event table...", QKeySequence("Ctrl+Shift+E"),
               "See the event table as it will be written, and save it", [this] { show_export(); });
    add_action(
        menu, sign(Icon::sound), "Sound &levels and mixes...", QKeySequence("Ctrl+Shift+M"),
        "How loud each clip and mix is; match clips, save mixes for a sound player, find missing sounds",
        [this] { show_sound(); });
    add_action(menu, sign(Icon::picture), "Save &picture of the timeline...", QKeySequence("Ctrl+Shift+P"),
               "Save the timeline as PNG or SVG", [this] { choose_picture(); });
    QMenu* circuits = menu->addMenu("Save picture of a &circuit");
    add_action(circuits, sign(Icon::picture), "&Air circuit...", {}, "Save the air circuit as PNG or SVG",
               [this] { choose_circuit_picture(false); });
    add_action(circuits, sign(Icon::picture), "&Wiring...", {}, "Save the wiring as PNG or SVG",
               [this] { choose_circuit_picture(true); });
    add_action(menu, sign(Icon::export_table), "&Build pack...", QKeySequence::Print,
               "See the pages for stage manager, fitter and electrician, print them or save them as PDF",
               [this] { show_pack(); });
    menu->addSeparator();
    QAction* quit = menu->addAction("&Quit", this, &QWidget::close);
    quit->setShortcut(QKeySequence::Quit);
    quit->setMenuRole(QAction::QuitRole);
}

void MainWindow::make_edit_menu() {
    QMenu* menu = menuBar()->addMenu("&Edit");
    QAction* undo = document_.undo_stack().createUndoAction(this, "&Undo");
    undo->setIcon(icon(Icon::undo));
    undo->setShortcut(QKeySequence::Undo);
    QAction* redo = document_.undo_stack().createRedoAction(this, "&Redo");
    redo->setIcon(icon(Icon::redo));
    redo->setShortcuts({QKeySequence("Ctrl+Shift+Z"), QKeySequence("Ctrl+Y")});
    menu->addAction(undo);
    menu->addAction(redo);
    menu->addSeparator();
    add_actions(menu, timeline_->edit_actions());
    menu->addSeparator();
    add_actions(menu->addMenu("&Move, stretch and sound"), timeline_->move_actions());
    rig_menu_ = menu->addMenu("&Rig");
}

void MainWindow::make_view_menu() {
    const auto sign = [](Icon i) { return static_cast<int>(i); };
    QMenu* menu = menuBar()->addMenu("&View");
    add_actions(menu, timeline_->view_actions());
    add_actions(menu->addMenu("Grid of the &ruler"), timeline_->grid_actions());
    menu->addSeparator();
    add_action(menu, sign(Icon::cue), "Go to the timeline", QKeySequence("F3"),
               "Leave the panel the keys are in for the lanes", [this] { timeline_->setFocus(); });
    int number = 0;
    for (QDockWidget* dock : docks()) {
        QAction* action = dock->toggleViewAction();
        number = (number + 1) % 10;  // the tenth has the key 0
        action->setShortcut(QKeySequence(QStringLiteral("Ctrl+%1").arg(number)));
        menu->addAction(action);
        connect(action, &QAction::triggered, this, [this, dock](bool on) {
            if (on) {
                bring_up(dock);
                dock->widget()->setFocus();
            }
        });
    }
    add_action(menu, sign(Icon::settings), "Panels as at &first", {},
               "Put every panel back where it was at first", [this] {
                   settings_.forget_layout();
                   lay_docks_as_at_first();
               });
    menu->addSeparator();
    QAction* look_action =
        add_action(menu, sign(Icon::theme), "&Light or dark", QKeySequence("Ctrl+Shift+L"),
                   "Change between the light and the dark theme", [this] { toggle_theme(); });
    QAction* units = add_action(menu, sign(Icon::settings), "US &units", QKeySequence("Ctrl+M"),
                                "Show psi, inches and pounds instead of bar, mm and kg", [] {});
    units->setCheckable(true);
    units->setChecked(settings_.units() == UnitSystem::us);
    connect(units, &QAction::toggled, this,
            [this](bool on) { settings_.set_units(on ? UnitSystem::us : UnitSystem::metric); });
    transport_->addAction(look_action);
}

void MainWindow::make_help_menu() {
    const auto sign = [](Icon i) { return static_cast<int>(i); };
    QMenu* menu = menuBar()->addMenu("&Help");
    add_action(menu, sign(Icon::help), "&Keys", QKeySequence("F1"), "Every action with its key",
               [this] { make_keys_window(this)->show(); });
    add_action(menu, sign(Icon::air), "&Before you let air in", QKeySequence("Shift+F1"),
               "The usual cautions of work with compressed air",
               [this] { make_cautions_window(this)->show(); });
    add_action(menu, sign(Icon::help), "&About Gaspworks", {}, "Version and licence",
               [this] { make_about_window(this)->show(); });
}

}  // namespace gasp
