// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/timeline_picture.hpp"

#include "tests/support/catch.hpp"
#include "ui/sheet/missing_letters.hpp"
#include "ui/sheet/picture_file.hpp"
#include "ui/sheet/picture_page.hpp"
#include "ui/sheet/picture_text.hpp"

#include <QImage>
#include <QPainter>
#include <QXmlStreamReader>

using namespace gasp;

namespace {

Channel channel(std::uint32_t id, std::string name, ChannelKind kind) {
    Channel result;
    result.id = {id};
    result.name = std::move(name);
    result.kind = kind;
    result.output = id;
    return result;
}

Cue cue(std::uint32_t id, std::uint32_t on, Micros at, Micros length, std::string name = {}) {
    Cue result;
    result.id = {id};
    result.channel = {on};
    result.at = at;
    result.length = length;
    result.name = std::move(name);
    return result;
}

constexpr Micros s{1'000'000};

/// A lamp lit from 2 to 4 s of ten, and a valve with a figure out from 5 to 7 s.
struct Scene {
    Show show;
    SequenceRun run;
    std::vector<Finding> findings;

    Scene() {
        show.name = "Locker";
        Actuator& keeper = show.rig.actuators.emplace_back();
        keeper.id = {9};
        keeper.name = "Keeper";
        keeper.motion.out_ms = 500;
        keeper.motion.back_ms = 500;
        show.rig.channels = {channel(1, "lantern", ChannelKind::lamp),
                             channel(2, "lunge", ChannelKind::valve)};
        show.rig.channels[1].actuator = keeper.id;
        Sequence& night = show.sequences.emplace_back();
        night.id = {3};
        night.name = "night";
        night.length = 10 * s;
        night.cues = {cue(4, 1, 2 * s, 2 * s), cue(5, 2, 5 * s, 2 * s, "lunge")};
        work_out();
    }

    void work_out() {
        AirMemo memo;
        run = gasp::work_out(show, show.sequences[0], memo);
    }

    [[nodiscard]] PictureContent content() const {
        return {show, show.sequences[0], run.schedule, run.air, findings, {}};
    }
};

QImage image_of(const Scene& scene, QSize size, const PictureStyle& style = {}) {
    QImage image(size, QImage::Format_RGB32);
    QPainter painter(&image);
    TimelinePicture(scene.content(), style).paint(painter, image.rect());
    return image;
}

/// The colour in a channel's lane at a time; low in the lane, where cues are and no words. The ruler's lines
/// stand at half seconds.
QColor at(const QImage& image, const Scene& scene, const PictureStyle& style, std::size_t lane, Micros time) {
    const PictureContent content = scene.content();
    const PicturePage page(content, style, image.size());
    const QRectF box = page.lanes.at(lane).box;
    return image.pixelColor(static_cast<int>(page.x_of(time)), static_cast<int>(box.bottom() - 9));
}

}  // namespace

TEST_CASE("cues stand where the schedule has them, in the colour of their kind") {
    const Scene scene;
    for (const Theme theme : {Theme::light, Theme::dark}) {
        const PictureStyle style{.theme = theme, .units = UnitSystem::metric, .from = {}, .to = {}};
        const QImage image = image_of(scene, {1600, 900}, style);
        CHECK(at(image, scene, style, 1, 3 * s + s / 3) == palette(theme).lamp);
        CHECK(at(image, scene, style, 1, s + s / 3) == palette(theme).canvas_soft);
        CHECK(at(image, scene, style, 1, 4 * s + s / 3) == palette(theme).canvas_soft);
        CHECK(at(image, scene, style, 2, 6 * s + s / 3) == palette(theme).valve);
        CHECK(at(image, scene, style, 2, 8 * s + s / 3) == palette(theme).canvas);
    }
}

TEST_CASE("only the stretch asked for is shown") {
    const Scene scene;
    const PictureStyle style{.theme = Theme::light, .units = UnitSystem::metric, .from = 2 * s, .to = 4 * s};
    const QImage image = image_of(scene, {1600, 900}, style);
    CHECK(at(image, scene, style, 1, 2 * s + s / 3) == palette(Theme::light).lamp);
    CHECK(at(image, scene, style, 1, 3 * s + 2 * s / 3) == palette(Theme::light).lamp);
    CHECK(at(image, scene, style, 2, 3 * s + s / 3) == palette(Theme::light).canvas);
}

TEST_CASE("the ruler is divided by the grid: its lines stand on beats, not on seconds") {
    const Scene scene;
    PictureStyle style;
    const Micros beat = 4 * s + s / 3;
    const auto line_at_beat = [&] {
        const QImage image = image_of(scene, {1600, 900}, style);
        const PictureContent content = scene.content();
        const PicturePage page(content, style, image.size());
        const auto y = static_cast<int>(page.ruler.bottom()) - 2;
        return image.pixelColor(static_cast<int>(page.x_of(beat) - 0.5), y) !=
               image.pixelColor(static_cast<int>(page.x_of(beat)) + 3, y);
    };
    CHECK_FALSE(line_at_beat());
    // Bars of two seconds, the first after a third of a second.
    style.grid = {.kind = Grid::Kind::beats, .beats_a_minute = 120.0, .beats_a_bar = 4, .first_beat = s / 3};
    CHECK(line_at_beat());
}

TEST_CASE("flashes are drawn as scheduled") {
    Scene scene;
    scene.show.sequences[0].cues[0].flashes = Flashes{.rate_hz = 1.0, .duty_percent = 50.0};
    scene.work_out();
    const PictureStyle style;
    const QImage image = image_of(scene, {1600, 900}, style);
    CHECK(at(image, scene, style, 1, 3 * s + s / 3) == palette(Theme::light).lamp);
    CHECK(at(image, scene, style, 1, 3 * s + 2 * s / 3) != palette(Theme::light).lamp);
}

TEST_CASE("the travel of the figure is drawn over its cue") {
    const Scene scene;
    const PictureStyle style;
    const QImage image = image_of(scene, {1600, 900}, style);
    const PictureContent content = scene.content();
    const PicturePage page(content, style, image.size());
    const QRectF lane = page.lanes.at(2).box;
    const auto tinted = [&](Micros time) {
        const QColor colour = image.pixelColor(static_cast<int>(page.x_of(time)),
                                               static_cast<int>(lane.top() + lane.height() * 0.35));
        return colour != palette(Theme::light).canvas;
    };
    CHECK_FALSE(tinted(4 * s + s / 3));
    CHECK(tinted(6 * s + s / 3));
    CHECK_FALSE(tinted(8 * s + s / 3));
}

TEST_CASE("lanes share the page without overlap and stay inside it") {
    Scene scene;
    for (std::uint32_t id = 100; id < 160; ++id) {
        scene.show.rig.channels.push_back(channel(id, "lamp", ChannelKind::lamp));
    }
    scene.work_out();
    const PictureContent content = scene.content();
    const PictureStyle style;
    for (const QSizeF size : {QSizeF(1600, 900), QSizeF(320, 320), QSizeF(1600, 4000)}) {
        const PicturePage page(content, style, size);
        REQUIRE(page.lanes.size() == 64);
        CHECK(page.lanes.front().box.top() >= page.marks.bottom() - 0.01);
        for (std::size_t lane = 1; lane < page.lanes.size(); ++lane) {
            CHECK(page.lanes[lane].box.top() == Approx(page.lanes[lane - 1].box.bottom()));
        }
        CHECK(page.findings.bottom() <= page.legend.top());
    }
    const TimelinePicture picture(content);
    CHECK(picture.height_for(1600) > 60 * 32);
    CHECK(picture.height_for(3200) == Approx(2 * picture.height_for(1600)).margin(2));
    image_of(scene, {320, 320});
}

TEST_CASE("a second row of flags is there only for names that the first has no room for") {
    Scene scene;
    const PictureStyle style;
    const auto page_of = [&](Micros second_mark) {
        scene.show.sequences[0].marks = {{{20}, "the lamp goes out", 2 * s, {}},
                                         {{21}, "knocking", second_mark, {}}};
        return PicturePage(scene.content(), style, {1600, 900}).flags;
    };
    const std::vector<PictureFlag> apart = page_of(6 * s);
    REQUIRE(apart.size() == 2);
    CHECK(apart[0].row == 0);
    CHECK(apart[1].row == 0);
    const int one_row = TimelinePicture(scene.content()).height_for(1600);
    const std::vector<PictureFlag> close = page_of(2 * s + s / 4);
    CHECK(close[0].row == 0);
    CHECK(close[1].row == 1);
    CHECK(TimelinePicture(scene.content()).height_for(1600) - one_row ==
          static_cast<int>(PicturePage::flag_px));
}

TEST_CASE("no line crosses the name of a sound") {
    Scene scene;
    SoundClip clip;
    clip.id = {30};
    clip.file = "voice-of-the-keeper.wav";
    clip.file_length = 9 * s;
    clip.start = s / 2;
    clip.length = 9 * s;
    scene.show.sequences[0].clips = {clip};
    const auto ink = [&](std::vector<Mark> marks) {
        scene.show.sequences[0].marks = std::move(marks);
        const PictureContent content = scene.content();
        const PictureStyle style;
        const PicturePage page(content, style, {1600, 900});
        const QRectF lane = page.lanes[0].box;
        const auto left = static_cast<int>(page.x_of(s / 2)) + 4;
        return image_of(scene, {1600, 900}).copy(left, static_cast<int>(lane.top()) + 6, 100, 12);
    };
    CHECK(ink({}) == ink({{{20}, "in its middle", s * 9 / 10, {}}}));
}

TEST_CASE("each sound lane of the sequence is drawn, its clips on it and on no other") {
    Scene scene;
    SoundClip voice;
    voice.id = {30};
    voice.file = "voice.wav";
    voice.file_length = voice.length = 4 * s;
    SoundClip bang = voice;
    bang.id = {31};
    bang.lane = 3;
    bang.start = 5 * s;
    scene.show.sequences[0].clips = {voice, bang};
    const PictureContent content = scene.content();
    const PictureStyle style;
    const PicturePage page(content, style, {1600, 900});
    const LaneLayout editor(scene.show, scene.show.sequences[0]);
    REQUIRE(page.lanes.size() == editor.lanes().size());
    for (std::size_t lane = 0; lane < page.lanes.size(); ++lane) {
        CHECK(page.lanes[lane].lane == editor.lanes()[lane]);
    }
    const QImage image = image_of(scene, {1600, 900});
    const auto framed = [&](std::size_t lane, Micros time) {
        const QRectF box = page.lanes[lane].box;
        const auto x = static_cast<int>(page.x_of(time));
        const QColor ground = image.pixelColor(x, static_cast<int>(box.top()) + 2);
        for (int y = static_cast<int>(box.top()) + 3; y < static_cast<int>(box.top()) + 8; ++y) {
            if (image.pixelColor(x, y) != ground) {
                return true;
            }
        }
        return false;
    };
    CHECK(framed(0, 3 * s + s / 3));
    CHECK_FALSE(framed(0, 7 * s + s / 3));
    CHECK_FALSE(framed(1, 3 * s + s / 3));
    CHECK_FALSE(framed(1, 7 * s + s / 3));
    CHECK_FALSE(framed(2, 3 * s + s / 3));
    CHECK(framed(2, 7 * s + s / 3));
}

TEST_CASE("the painter is left as it was") {
    const Scene scene;
    QImage image(1600, 900, QImage::Format_RGB32);
    QPainter painter(&image);
    painter.setPen(Qt::red);
    const QTransform before = painter.transform();
    TimelinePicture(scene.content()).paint(painter, image.rect());
    CHECK(painter.transform() == before);
    CHECK(painter.pen().color() == QColor(Qt::red));
}

TEST_CASE("an SVG is well-formed whatever the names") {
    Scene scene;
    scene.show.name = "a<b>&\"\x01\x1b\xff]]>";
    scene.show.rig.channels[0].name = std::string("\0\n\t", 3);
    scene.findings.push_back({.check = "x",
                              .severity = Severity::stop,
                              .place = {},
                              .what = "<\x02>",
                              .figure = "1",
                              .limit = "2",
                              .remedy = "3"});
    const std::string svg = svg_of(TimelinePicture(scene.content()), {1600, 0}).value();
    QXmlStreamReader reader(QByteArray::fromStdString(svg));
    while (!reader.atEnd()) {
        reader.readNext();
    }
    CHECK(reader.errorString().toStdString() == "");
    CHECK(svg.find("lunge") != std::string::npos);
}

TEST_CASE("names of unknown origin become printable") {
    CHECK(shown("lamp \xC3\xA9") == QString::fromUtf8("lamp \xC3\xA9"));
    CHECK(shown(std::string("a\0b\n", 4)) == QString::fromUtf8("a\xEF\xBF\xBD"
                                                               "b\xEF\xBF\xBD"));
    CHECK(shown("\xD9\x85\xDB\x8C\xE2\x80\x8C\xD8\xAE").contains(QChar(0x200c)));  // Persian
    CHECK(shown("\xD8\xAD 8") ==
          QString::fromUtf8("\xD8\xAD 8\xE2\x80\x8E"));  // Arabic, and what stands after
    CHECK(shown("\xD8\xAD lamp").endsWith("lamp"));
    CHECK(shown("\xE2\x80\xAE") == QString(QChar::ReplacementCharacter));
}

TEST_CASE("names that no installed font can paint are told of, the first by its name") {
    Scene scene;
    CHECK_FALSE(letters_missing(scene.show));
    scene.show.rig.channels[0].name = "\xCE\xA6\xCE\xAC\xCF\x81\xCE\xBF\xCF\x82";  // Greek: in DejaVu Sans
    CHECK_FALSE(letters_missing(scene.show));
    const std::string sign =
        "\xF0\x92\xBE\x90";  // U+12F90, Cypro-Minoan: younger than the fonts of Debian 12
    scene.show.rig.channels[1].name = "lunge " + sign;
    scene.show.sequences[0].cues[0].name = sign;
    const auto missing = letters_missing(scene.show);
    REQUIRE(missing);
    CHECK(missing->find("lunge") == std::string::npos);
    CHECK(missing->find("and 1 more") != std::string::npos);
    CHECK(missing->find("Install a font") != std::string::npos);
}

TEST_CASE("a PNG has the size asked for") {
    const Scene scene;
    const std::string png = png_of(TimelinePicture(scene.content()), {1200, 700}).value();
    const QImage image = QImage::fromData(QByteArray::fromStdString(png), "PNG");
    CHECK(image.size() == QSize(1200, 700));
}
