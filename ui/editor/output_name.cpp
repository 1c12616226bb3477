// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/output_name.hpp"

#include "core/file/output_name.hpp"
#include "ui/editor/document.hpp"
#include "ui/editor/file_path.hpp"

namespace gasp {

Result<void> check_output_name(const Document& document, const QString& output) {
    return check_output_name(as_path(output),
                             files_of(document.show(), as_path(document.path()), as_path(document.folder())));
}

}  // namespace gasp
