// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QDialog>
#include <QString>

class QAction;

namespace gasp {

/// Every action of a window that has a key, read from the window itself, and what the mouse does.
[[nodiscard]] QDialog* make_keys_window(QWidget* window);

/// The usual cautions of work with compressed air, and what this program is not.
[[nodiscard]] QDialog* make_cautions_window(QWidget* parent);
[[nodiscard]] QString cautions_text();

[[nodiscard]] QDialog* make_about_window(QWidget* parent);

/// An action's text without its mark for the keyboard: "Save as..." from "Save &as...".
[[nodiscard]] QString plain_text(const QAction& action);

}  // namespace gasp
