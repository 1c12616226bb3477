// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/sizing/sizing.hpp"
#include "ui/panels/form_row.hpp"

#include <functional>
#include <memory>
#include <vector>

namespace gasp {

/// Rows for the figures of a sizing task, which is no part of the show: what is typed goes into the task,
/// and `changed` is told.
[[nodiscard]] std::vector<FormRow*> make_task_rows(Document& document, const Settings& settings,
                                                   const std::shared_ptr<SizingTask>& task,
                                                   const std::function<void()>& changed, QWidget* parent);

}  // namespace gasp
