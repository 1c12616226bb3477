// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <tl/expected.hpp>

#include <string>
#include <utility>

namespace gasp {

/// Something that went wrong in a way a user can act on. Programmer mistakes are asserted instead.
struct Error {
    std::string what;    ///< what is wrong, in one sentence without its full stop
    std::string where;   ///< file, line and key, or the field; empty when there is no place
    std::string remedy;  ///< one thing to do about it

    /// "where: what. remedy." in one line, leaving out what is empty.
    [[nodiscard]] std::string text() const {
        std::string line = where.empty() ? what : where + ": " + what;
        if (!remedy.empty()) {
            line += ". " + remedy;
        }
        return line + ".";
    }

    bool operator==(const Error&) const = default;
};

/// A value, or the reason why there is none. Nothing in core throws across its border.
template <class T>
using Result = tl::expected<T, Error>;

[[nodiscard]] inline tl::unexpected<Error> fail(std::string what, std::string where = {},
                                                std::string remedy = {}) {
    return tl::unexpected<Error>(Error{std::move(what), std::move(where), std::move(remedy)});
}

}  // namespace gasp
