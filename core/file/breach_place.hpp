// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"

#include <simdjson.h>

#include <optional>
#include <string>
#include <string_view>

namespace gasp {

/// A place in the text of a show file.
struct TextPlace {
    const char* at;
    std::string keys;  ///< the key path: "sequences[0].cues[3].length_us"
};

/// Where in its text a breach of a show stands. `where` is what breaches() says, `show` what the text was
/// read as. Where several things have that name, the last. Empty when the text does not hold it.
[[nodiscard]] std::optional<TextPlace> place_of_breach(const simdjson::padded_string& text, const Show& show,
                                                       std::string_view where);

}  // namespace gasp
