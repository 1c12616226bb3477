// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QString>

#include <filesystem>

namespace gasp {

/// A file's name of the window as core takes it.
[[nodiscard]] inline std::filesystem::path as_path(const QString& file) {
    return std::filesystem::path(file.toStdU16String());
}

}  // namespace gasp
