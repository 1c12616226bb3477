// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/support/catch.hpp"
#include "ui/look/palette.hpp"

using namespace gasp;

TEST_CASE("the contrast ratio is that of WCAG 2.1") {
    // W3C, Web Content Accessibility Guidelines 2.1, "contrast ratio": 1 to 21; the luminance of the
    // primaries are the coefficients of "relative luminance". #767676 on white as the lightest grey
    // with 4.5:1 is from memory.
    REQUIRE(contrast_ratio(Qt::black, Qt::white) == Approx(21.0));
    REQUIRE(contrast_ratio(Qt::white, Qt::white) == Approx(1.0));
    REQUIRE(relative_luminance(QColor(255, 0, 0)) == Approx(0.2126).epsilon(1e-4));
    REQUIRE(relative_luminance(QColor(0, 255, 0)) == Approx(0.7152).epsilon(1e-4));
    REQUIRE(relative_luminance(QColor(0, 0, 255)) == Approx(0.0722).epsilon(1e-4));
    REQUIRE(contrast_ratio(QColor("#767676"), Qt::white) >= 4.5);
    REQUIRE(contrast_ratio(QColor("#777777"), Qt::white) < 4.5);
}

TEST_CASE("every pair of colours that meets on the screen has the contrast it needs") {
    // W3C, WCAG 2.1: 1.4.3 Contrast (Minimum), 4.5:1 for text; 1.4.11 Non-text Contrast, 3:1.
    for (const Theme theme : {Theme::light, Theme::dark}) {
        for (const ColourPair& pair : colour_pairs(palette(theme))) {
            INFO((theme == Theme::light ? "light: " : "dark: ")
                 << pair.what << " " << pair.front.name().toStdString() << " on "
                 << pair.back.name().toStdString());
            CHECK(contrast_ratio(pair.front, pair.back) >= pair.least);
        }
    }
}

TEST_CASE("kinds of channel and findings wear the Okabe-Ito colours") {
    // Okabe and Ito, "Color Universal Design" (2008): orange 230,159,0; sky blue 86,180,233; bluish green
    // 0,158,115; yellow 240,228,66; blue 0,114,178; vermilion 213,94,0; reddish purple 204,121,167.
    for (const Theme theme : {Theme::light, Theme::dark}) {
        const Palette& p = palette(theme);
        REQUIRE(p.kind(ChannelKind::valve) == QColor(0, 114, 178));
        REQUIRE(p.kind(ChannelKind::lamp) == QColor(240, 228, 66));
        REQUIRE(p.kind(ChannelKind::motor) == QColor(0, 158, 115));
        REQUIRE(p.kind(ChannelKind::jaw) == QColor(204, 121, 167));
        REQUIRE(p.severity(Severity::stop) == QColor(213, 94, 0));
        REQUIRE(p.severity(Severity::warn) == QColor(230, 159, 0));
        REQUIRE(p.severity(Severity::note) == QColor(86, 180, 233));
    }
}
