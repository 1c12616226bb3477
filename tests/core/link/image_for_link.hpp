// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/table/board_image.hpp"

#include <string>

namespace gasp::testing {

/// An image with two outputs and one by-hand sequence that flashes them: `events` changes, 10 ms apart.
[[nodiscard]] inline std::string image_of_flashes(std::uint32_t events,
                                                  SequenceKind kind = SequenceKind::by_hand) {
    BoardImage image;
    image.board = {5};
    image.revision = 77;
    image.name = "quay";
    image.outputs = {{false, false, true}, {false, false, true}};
    ImageSequence& sequence = image.sequences.emplace_back();
    sequence.id = {9};
    sequence.kind = kind;
    sequence.name = "night";
    sequence.length = events * 10 + 10;
    for (std::uint32_t event = 0; event < events; ++event) {
        sequence.events.push_back({event * 10, static_cast<std::uint8_t>(event / 2 % 2), event % 2 == 0});
    }
    return write_image(image);
}

}  // namespace gasp::testing
