// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/icons.hpp"

#include "tests/support/catch.hpp"
#include "ui/look/look.hpp"
#include "ui/look/signs.hpp"

#include <QImage>

#include <set>

using namespace gasp;

namespace {

QImage drawn(const QIcon& icon, QIcon::Mode mode = QIcon::Normal) {
    return icon.pixmap(QSize(32, 32), mode).toImage().convertToFormat(QImage::Format_ARGB32);
}

int inked(const QImage& image) {
    int count = 0;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            count += qAlpha(image.pixel(x, y)) > 100 ? 1 : 0;
        }
    }
    return count;
}

}  // namespace

TEST_CASE("every icon is drawn, and no two alike") {
    set_theme(Theme::dark);
    std::set<QByteArray> seen;
    for (int i = 0; i <= static_cast<int>(Icon::help); ++i) {
        const QImage image = drawn(icon(static_cast<Icon>(i)));
        INFO("icon " << i);
        CHECK(inked(image) > 20);
        CHECK(seen.emplace(reinterpret_cast<const char*>(image.constBits()), image.sizeInBytes()).second);
    }
}

TEST_CASE("signs differ by shape, not by colour alone") {
    std::set<QByteArray> shapes;
    const auto add_shape = [&](const QIcon& icon) {
        const QImage alpha = drawn(icon).convertToFormat(QImage::Format_Alpha8);
        CHECK(shapes.emplace(reinterpret_cast<const char*>(alpha.constBits()), alpha.sizeInBytes()).second);
    };
    for (int i = 0; i < 5; ++i) {
        add_shape(kind_icon(static_cast<ChannelKind>(i)));
    }
    for (int i = 0; i < 3; ++i) {
        add_shape(severity_icon(static_cast<Severity>(i)));
    }
    REQUIRE(shapes.size() == 8);
}

TEST_CASE("icons follow the theme") {
    const QIcon play = icon(Icon::play);
    set_theme(Theme::dark);
    const QImage dark = drawn(play);
    set_theme(Theme::light);
    const QImage light = drawn(play);
    REQUIRE(dark != light);
    REQUIRE(QColor(light.pixel(14, 16)) == look().text);
    REQUIRE(drawn(play, QIcon::Disabled) != light);
}
