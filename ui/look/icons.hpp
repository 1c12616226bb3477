// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QIcon>

namespace gasp {

/// Every drawn icon of the program, on a grid of 16.
enum class Icon {
    play,
    pause,
    stop,
    loop,
    slow,
    to_start,
    follow,
    grid,
    trigger,
    lockout,
    undo,
    redo,
    open,
    save,
    new_show,
    export_table,
    picture,
    sheet,
    zoom_in,
    zoom_out,
    fit,
    zoom_selection,
    add,
    remove,
    up,
    down,
    cut,
    copy,
    paste,
    rename,
    mark,
    cue,
    tie,
    untie,
    flashes,
    steady,
    nudge_left,
    nudge_right,
    rig,
    air,
    actuator,
    channel,
    board,
    supply,
    sensor,
    sound,
    findings,
    search,
    settings,
    theme,
    hand,
    help,
};

/// Drawn in the text colour of the theme worn when it is painted, paler while disabled, brass while switched
/// on.
[[nodiscard]] QIcon icon(Icon icon);

}  // namespace gasp
