// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/paper.hpp"

#include <QLocale>

#include <algorithm>
#include <array>

namespace gasp {

Paper usual_paper(const QLocale& locale) {
    static constexpr std::array letter{QLocale::Belize,       QLocale::Canada,      QLocale::Chile,
                                       QLocale::Colombia,     QLocale::CostaRica,   QLocale::ElSalvador,
                                       QLocale::Guatemala,    QLocale::Mexico,      QLocale::Nicaragua,
                                       QLocale::Panama,       QLocale::Philippines, QLocale::PuertoRico,
                                       QLocale::UnitedStates, QLocale::Venezuela};
    return std::ranges::find(letter, locale.territory()) != letter.end() ? Paper::letter : Paper::a4;
}

}  // namespace gasp
