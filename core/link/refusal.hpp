// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/link/link_exchange.hpp"

#include <string_view>

namespace gasp {

/// What a board means by an answer, in a few words: "a run is on".
[[nodiscard]] std::string_view answer_words(BoardAnswer answer);

/// What a user is told of an answer that is not done.
[[nodiscard]] Error refusal(const BoardReply& answer, const std::string& port);

}  // namespace gasp
