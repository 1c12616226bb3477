// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/type.hpp"

#include <QFontDatabase>
#include <QStringList>

namespace gasp {

namespace {

/// B612 was drawn to be read on instruments; both have digits of one width.
const QStringList& families() {
    static const QStringList names{"B612", "DejaVu Sans"};
    return names;
}

}  // namespace

int font_px(TypeSize size) {
    switch (size) {
        case TypeSize::small:
            return 11;
        case TypeSize::body:
            return 13;
        case TypeSize::head:
            return 16;
        case TypeSize::clock:
            return 19;
    }
    return 13;
}

QFont font(TypeSize size, bool strong) {
    QFont result;
    result.setFamilies(families());
    result.setPixelSize(font_px(size));
    result.setBold(strong);
    result.setStyleHint(QFont::SansSerif);
    result.setHintingPreference(QFont::PreferFullHinting);
    return result;
}

}  // namespace gasp
