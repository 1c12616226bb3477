// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/verbs.hpp"

namespace gasp {

namespace {

Result<Outcome> no_painter() {
    return fail("this gasp was built without the editor, which paints pictures and pages", {},
                "Build it with GASPWORKS_UI=ON, or run the one beside the editor");
}

}  // namespace

Result<Outcome> run(const PictureOptions&) {
    return no_painter();
}

Result<Outcome> run(const SheetOptions&) {
    return no_painter();
}

}  // namespace gasp
