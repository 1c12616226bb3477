// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edit.hpp"
#include "core/show/show.hpp"

#include <rapidcheck.h>

#include <string>
#include <vector>

// RapidCheck generators of documents and edits. List tests/support/random_show.cpp among a test's sources.

namespace gasp::testing {

/// A name in any script, with quotes, line breaks and control characters; empty at times.
[[nodiscard]] rc::Gen<std::string> random_text();

/// A valid document: every field, blank or not; ids with gaps; members of the file that this version does not
/// know.
[[nodiscard]] rc::Gen<Show> random_show();

/// A random one of all edits, made for this document. Half of what it asks for is out of range or about
/// things that do not exist, as from a careless caller.
[[nodiscard]] rc::Gen<Edit> random_edit(const Show& show);

/// Edits one after the other, the first made for the document and each later one for what the others left.
[[nodiscard]] rc::Gen<std::vector<Edit>> random_edits(const Show& show);

}  // namespace gasp::testing
