// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/type.hpp"

#include <QStringList>

namespace gasp {

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
    result.setFamilies({QStringLiteral("DejaVu Sans")});
    result.setPixelSize(font_px(size));
    result.setBold(strong);
    result.setStyleHint(QFont::SansSerif);
    return result;
}

}  // namespace gasp
