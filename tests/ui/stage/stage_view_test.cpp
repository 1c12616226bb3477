// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/stage_view.hpp"

#include "tests/support/catch.hpp"
#include "tests/ui/stage/rig_for_tests.hpp"
#include "ui/look/look.hpp"
#include "ui/stage/stage_layout.hpp"

#include <QCoreApplication>
#include <QImage>
#include <QPixmap>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

struct Stage {
    Document document;
    Analysis analysis{document};
    Audition audition{document};
    StageView view{document, analysis, audition};

    explicit Stage(const Show& show) {
        document.reset(show, {});
        analysis.wait();
        QCoreApplication::processEvents();
        view.resize(280, 500);
    }
    QImage at(Micros time) {
        audition.seek(time);
        return view.grab().toImage();
    }
};

int yellow_in(const QImage& image, const QRectF& box) {
    const QRgb lamp = look().lamp.rgb();
    int count = 0;
    for (int y = static_cast<int>(box.top()); y < static_cast<int>(box.bottom()); ++y) {
        for (int x = static_cast<int>(box.left()); x < static_cast<int>(box.left() + 24.0); ++x) {
            count += image.pixel(x, y) == lamp ? 1 : 0;
        }
    }
    return count;
}

}  // namespace

TEST_CASE("a lamp is lit on the stage while its channel is on, and only then", "[stage_view]") {
    for (const Theme theme : {Theme::dark, Theme::light}) {
        set_theme(theme);
        Stage stage(rig_for_tests());
        const StageLayout layout = stage_layout({280, 500}, 3, 1);
        REQUIRE(layout.channels.size() == 3);
        CHECK(yellow_in(stage.at(500ms), layout.channels[1]) == 0);
        CHECK(yellow_in(stage.at(1500ms), layout.channels[1]) > 50);
        CHECK(yellow_in(stage.at(500ms), layout.channels[2]) > 50);
        CHECK(yellow_in(stage.at(1500ms), layout.channels[2]) == 0);
    }
}

TEST_CASE("the figure moves with its travel, and stands still between", "[stage_view]") {
    Stage stage(rig_for_tests());
    const QRect tile = stage_layout({280, 500}, 3, 1).actuators.at(0).toRect();
    const auto figure = [&](Micros time) { return stage.at(time).copy(tile); };
    CHECK(figure(300ms) == figure(900ms));
    CHECK(figure(900ms) != figure(1110ms));
    CHECK(figure(1110ms) != figure(1200ms));
    CHECK(figure(1300ms) == figure(1900ms));
}

TEST_CASE("every part has its own place at any size and rig", "[stage_layout]") {
    for (const QSizeF size :
         {QSizeF(260, 300), QSizeF(280, 500), QSizeF(300, 520), QSizeF(700, 420), QSizeF(1400, 900)}) {
        for (int channels = 0; channels <= 20; ++channels) {
            for (int actuators = 0; actuators <= 6; ++actuators) {
                const StageLayout layout = stage_layout(size, channels, actuators);
                std::vector<QRectF> boxes{layout.clock, layout.state, layout.gauge, layout.loudspeaker};
                boxes.insert(boxes.end(), layout.channels.begin(), layout.channels.end());
                boxes.insert(boxes.end(), layout.actuators.begin(), layout.actuators.end());
                if (!layout.left_out.isEmpty()) {
                    boxes.push_back(layout.left_out);
                }
                CAPTURE(size.width(), size.height(), channels, actuators);
                const QRectF whole(QPointF(0, 0), size);
                for (std::size_t i = 0; i < boxes.size(); ++i) {
                    REQUIRE(whole.contains(boxes[i]));
                    for (std::size_t j = 0; j < i; ++j) {
                        REQUIRE_FALSE(boxes[i].intersects(boxes[j]));
                    }
                }
                REQUIRE(static_cast<int>(layout.channels.size()) + layout.channels_left_out == channels);
                REQUIRE(static_cast<int>(layout.actuators.size()) + layout.actuators_left_out == actuators);
                REQUIRE(layout.left_out.isEmpty() ==
                        (layout.channels_left_out + layout.actuators_left_out == 0));
            }
        }
    }
}

TEST_CASE("twelve channels and four actuators fit into 280 x 500", "[stage_layout]") {
    const StageLayout layout = stage_layout({280, 500}, 12, 4);
    CHECK(layout.channels_left_out == 0);
    CHECK(layout.actuators_left_out == 0);
}
