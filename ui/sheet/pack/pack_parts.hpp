// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/sheet/pack/pack.hpp"

// The sections of a build pack, each in a file of its name. Nobody outside this folder includes this.

namespace gasp {

/// What a section is made from.
struct PackSource {
    const PackContent& content;
    const PackStyle& style;
    std::shared_ptr<const std::vector<PackSection>> sections;  ///< filled when all pages are laid out
};

void add_cover(PackFlow& flow, const PackSource& source);
void add_cue_sheet(PackFlow& flow, const PackSource& source, const PackSequence& one);
void add_timeline(PackFlow& flow, const PackSource& source, const PackSequence& one);
void add_night(PackFlow& flow, const PackSource& source);
void add_air_circuit(PackFlow& flow, const PackSource& source);
void add_wiring(PackFlow& flow, const PackSource& source);
void add_power(PackFlow& flow, const PackSource& source);
void add_boards(PackFlow& flow, const PackSource& source);
void add_parts_list(PackFlow& flow, const PackSource& source);
void add_checklists(PackFlow& flow, const PackSource& source);
void add_stops(PackFlow& flow, const PackSource& source);
void add_notices(PackFlow& flow, const PackSource& source);

}  // namespace gasp
