// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

class QLocale;

namespace gasp {

/// What pages are printed on.
enum class Paper { a4, letter };

/// What is usual where the locale is from: US Letter in the territories that Unicode's CLDR lists for it
/// (from memory), A4 in all others.
[[nodiscard]] Paper usual_paper(const QLocale& locale);

}  // namespace gasp
