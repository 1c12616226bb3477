// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <nlohmann/json.hpp>

#include <string>

namespace gasp {

/// Keys in the order they are put.
using Json = nlohmann::ordered_json;

/// In ASCII, so that no name can steer a terminal; bytes that are not UTF-8 become U+FFFD.
[[nodiscard]] inline std::string json_text(const Json& json) {
    return json.dump(2, ' ', true, Json::error_handler_t::replace) + "\n";
}

}  // namespace gasp
