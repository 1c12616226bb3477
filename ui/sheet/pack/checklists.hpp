// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/sheet/pack/pack_content.hpp"

#include <QString>
#include <QStringList>

#include <vector>

namespace gasp {

struct Checklist {
    QString title;
    QStringList items;
};

/// Set-up, pre-opening and shut-down of this rig, each a sentence to be ticked: the usual cautions of the
/// trade, with the rig's names and figures.
[[nodiscard]] std::vector<Checklist> checklists_of(const PackContent& content);

}  // namespace gasp
