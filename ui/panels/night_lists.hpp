// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/panels/part_fields.hpp"

namespace gasp {

// The lists of the night's plan, each as a row of a form.

[[nodiscard]] ListEntry by_hour_entry();
[[nodiscard]] ListEntry arrivals_entry();

}  // namespace gasp
