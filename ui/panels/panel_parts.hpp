// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"
#include "ui/look/icons.hpp"

#include <QString>

class QAction;
class QObject;
class QWidget;

namespace gasp {

// What the panels of long work have in common.

/// `key` stands in the tooltip too.
[[nodiscard]] QAction* make_action(QObject* parent, Icon sign, const QString& text, const char* key,
                                   const QString& help);

/// An error as a sentence.
[[nodiscard]] QString sentence_of(const Error& error);

/// A column of rows that scrolls, at the left of a panel.
[[nodiscard]] QWidget* scrolled_form(QWidget* page);

/// Form at the left, below each other a bar and results at the right, in `panel`.
void lay_panel(QWidget* panel, QWidget* form, QWidget* bar, QWidget* results);

}  // namespace gasp
