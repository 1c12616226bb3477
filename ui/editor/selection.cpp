// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/selection.hpp"

#include <algorithm>

namespace gasp {

bool Selection::has(CueId id) const {
    return std::binary_search(cues.begin(), cues.end(), id);
}

}  // namespace gasp
