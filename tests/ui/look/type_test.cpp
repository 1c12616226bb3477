// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/type.hpp"

#include "tests/support/catch.hpp"

#include <QFontInfo>
#include <QFontMetricsF>

using namespace gasp;

TEST_CASE("sizes stand on a scale of 1.2") {
    const TypeSize sizes[] = {TypeSize::small, TypeSize::body, TypeSize::head, TypeSize::clock};
    for (int i = 1; i < 4; ++i) {
        const double ratio = static_cast<double>(font_px(sizes[i])) / font_px(sizes[i - 1]);
        CHECK(ratio == Approx(1.2).margin(0.04));  // whole pixels
    }
}

TEST_CASE("all digits are of one width") {
    for (const bool strong : {false, true}) {
        const QFontMetricsF metrics(font(TypeSize::body, strong));
        for (const char* digit = "0123456789"; *digit != 0; ++digit) {
            CHECK(metrics.horizontalAdvance(*digit) == metrics.horizontalAdvance('0'));
        }
    }
}
