// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <QString>

namespace gasp {

class Document;

/// check_output_name (core/file) against the files of the open show.
[[nodiscard]] Result<void> check_output_name(const Document& document, const QString& output);

}  // namespace gasp
