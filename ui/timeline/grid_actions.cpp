// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/grid_actions.hpp"

#include "ui/editor/document.hpp"
#include "ui/look/icons.hpp"
#include "ui/timeline/grid_dialog.hpp"

#include <QAction>
#include <QActionGroup>
#include <QKeySequence>
#include <QWidget>

#include <utility>

namespace gasp {

namespace {

QString words_for(FrameRate rate) {
    switch (rate) {
        case FrameRate::fps_24:
            return "24";
        case FrameRate::fps_25:
            return "25";
        case FrameRate::fps_2997_drop:
            return "29.97 df";
        case FrameRate::fps_2997:
            return "29.97";
        case FrameRate::fps_30:
            break;
    }
    return "30";
}

}  // namespace

GridActions::GridActions(Scene& scene, Settings& settings, QWidget& home)
    : QObject(&home), scene_(scene), settings_(settings), home_(home) {
    make_kinds();
    QAction* first = make(tr("First beat at the playhead"), QKeySequence("Shift+B"));
    connect(first, &QAction::triggered, this, [this] {
        Grid grid = scene_.grid();
        grid.kind = Grid::Kind::beats;
        grid.first_beat = scene_.playhead();
        take(grid);
    });
    connect(make(tr("Frame rate and tempo..."), QKeySequence("Alt+4")), &QAction::triggered, this,
            &GridActions::ask);
    // Saved under another name, a show keeps its grid.
    connect(&scene_.document(), &Document::file_changed, this, &GridActions::keep);
    connect(&scene_.document(), &Document::replaced, this, &GridActions::recall);
    recall();
}

QAction* GridActions::make(const QString& text, const QKeySequence& key) {
    auto* action = new QAction(icon(Icon::grid), text, this);
    action->setShortcut(key);
    action->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    action->setToolTip(QStringLiteral("%1 (%2)").arg(text, key.toString(QKeySequence::NativeText)));
    home_.addAction(action);
    actions_.push_back(action);
    return action;
}

void GridActions::make_kinds() {
    auto* group = new QActionGroup(this);
    const std::pair<QString, const char*> choices[] = {
        {tr("Grid of seconds"), "Alt+1"}, {tr("Grid of frames"), "Alt+2"}, {tr("Grid of beats"), "Alt+3"}};
    for (const auto& [text, key] : choices) {
        QAction* action = make(text, QKeySequence(key));
        action->setCheckable(true);
        group->addAction(action);
        const auto kind = static_cast<Grid::Kind>(kinds_.size());
        connect(action, &QAction::triggered, this, [this, kind] {
            Grid grid = scene_.grid();
            grid.kind = kind;
            take(grid);
        });
        kinds_.push_back(action);
    }
    actions_.push_back(nullptr);
}

QString GridActions::words() const {
    const Grid& grid = scene_.grid();
    switch (grid.kind) {
        case Grid::Kind::frames:
            return tr("Frames %1").arg(words_for(grid.rate));
        case Grid::Kind::beats:
            return tr("Beats %1").arg(grid.beats_a_minute, 0, 'g', 5);
        case Grid::Kind::seconds:
            break;
    }
    return tr("Seconds");
}

void GridActions::show_kind() {
    kinds_[static_cast<std::size_t>(scene_.grid().kind)]->setChecked(true);
    emit changed();
}

void GridActions::take(const Grid& grid) {
    scene_.set_grid(grid);
    keep();
    show_kind();
}

void GridActions::keep() {
    const Document& document = scene_.document();
    if (!(settings_.grid(document.path(), document.sequence_id()) == scene_.grid())) {
        settings_.set_grid(document.path(), document.sequence_id(), scene_.grid());
    }
}

void GridActions::recall() {
    const Document& document = scene_.document();
    scene_.set_grid(settings_.grid(document.path(), document.sequence_id()));
    show_kind();
}

void GridActions::ask() {
    GridDialog dialog(scene_.grid(), scene_.playhead(), &home_);
    if (dialog.exec() == QDialog::Accepted) {
        take(dialog.grid());
    }
}

}  // namespace gasp
