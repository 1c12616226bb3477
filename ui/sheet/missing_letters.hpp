// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"

#include <QString>

#include <optional>
#include <string>

namespace gasp {

/// Whether some installed font has every letter of the text. Requires: a QGuiApplication.
[[nodiscard]] bool can_be_painted(const QString& text);

/// A sentence that names the first of the show's names with letters no installed font has, what is painted
/// instead, and what to do; none where all can be painted. Requires: a QGuiApplication.
[[nodiscard]] std::optional<std::string> letters_missing(const Show& show);

}  // namespace gasp
