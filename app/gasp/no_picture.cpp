// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/verbs.hpp"

namespace gasp {

Result<Outcome> run(const PictureOptions&) {
    return fail("this gasp was built without the editor, which paints the pictures", {},
                "Build it with GASPWORKS_UI=ON, or run the one beside the editor");
}

}  // namespace gasp
