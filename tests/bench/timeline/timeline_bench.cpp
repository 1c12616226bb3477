// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
// Painting 40 lanes with 20 000 visible cues: against copying the frame, and in a window of an X server
// without a screen against a repaint of the background alone.
#include "core/show/edits.hpp"
#include "tests/bench/timeline/drag_bench.hpp"
#include "tests/bench/timeline/virtual_screen.hpp"
#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/look/look.hpp"
#include "ui/timeline/canvas.hpp"
#include "ui/timeline/lanes_image.hpp"
#include "ui/timeline/scene.hpp"

#include <QApplication>
#include <QPainter>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstring>
#include <functional>
#include <vector>

using namespace gasp;

namespace {

constexpr int width = 3840;
constexpr int height = 1200;
constexpr int lanes = 40;
constexpr int cues = 20'000;
constexpr int rounds = 15;

Show crowded_show() {
    Show show = empty_show();
    for (int i = 0; i < lanes; ++i) {
        Channel channel;
        channel.name = "channel " + std::to_string(i + 1);
        channel.kind = static_cast<ChannelKind>(1 + i % 4);
        apply(add_channel(show, channel), show);
    }
    std::vector<Cue> all;
    constexpr std::int64_t length_us = 10'000'000;
    constexpr int a_lane = cues / lanes;
    for (int i = 0; i < cues; ++i) {
        Cue cue;
        cue.channel = show.rig.channels[static_cast<std::size_t>(i % lanes)].id;
        cue.at = Micros{(i / lanes) * length_us / a_lane};
        cue.length = Micros{length_us / a_lane * 6 / 10};
        all.push_back(cue);
    }
    apply(add_cues(show, show.sequences.front().id, std::move(all)), show);
    return show;
}

using Cases = std::vector<std::function<void()>>;

/// The medians of the cases in us, timed in turn after one round of warming up.
std::vector<double> medians(const Cases& cases) {
    std::vector<std::vector<double>> times(cases.size());
    for (int round = 0; round <= rounds; ++round) {
        for (std::size_t i = 0; i < cases.size(); ++i) {
            const auto begin = std::chrono::steady_clock::now();
            cases[i]();
            const std::chrono::duration<double, std::micro> took = std::chrono::steady_clock::now() - begin;
            if (round > 0) {
                times[i].push_back(took.count());
            }
        }
    }
    std::vector<double> result;
    for (auto& one : times) {
        std::nth_element(one.begin(), one.begin() + rounds / 2, one.end());
        result.push_back(one[rounds / 2]);
    }
    return result;
}

bool told(const char* name, double value, double bar) {
    const bool ok = value <= bar;
    std::printf("bench %s = %.2f (bar %.2f) %s\n", name, value, bar, ok ? "ok" : "short");
    return ok;
}

bool picture(Scene& scene) {
    LanesImage image(scene);
    image.resize({width, height}, 1.0);
    QImage from(width, height, QImage::Format_RGB32);
    QImage to(width, height, QImage::Format_RGB32);
    from.fill(Qt::gray);
    const auto result = medians({
        [&] { std::memcpy(to.bits(), from.constBits(), static_cast<std::size_t>(from.sizeInBytes())); },
        [&] {
            image.dirty_all();
            static_cast<void>(image.fresh());
        },
    });
    const auto painted = image.cues_painted() / (rounds + 1);
    if (painted != cues) {
        std::printf("bench timeline: %zu cues painted instead of %d\n", painted, cues);
        return false;
    }
    std::fprintf(stderr, "copy of the frame %.0f us, lanes %.0f us\n", result[0], result[1]);
    return told("timeline_lanes_to_frame_copy", result[1] / result[0], 0.6);
}

class Background : public QWidget {
  protected:
    void paintEvent(QPaintEvent*) override { QPainter(this).fillRect(rect(), look().canvas); }
};

bool window(Scene& scene) {
    Background background;
    background.setAttribute(Qt::WA_OpaquePaintEvent);
    Canvas canvas(scene);
    // One below the other: the server would not copy what a window above it hides.
    int top = 0;
    for (QWidget* widget : {static_cast<QWidget*>(&background), static_cast<QWidget*>(&canvas)}) {
        widget->setWindowFlag(Qt::BypassWindowManagerHint);
        widget->setGeometry(0, top, width, height);
        widget->show();
        top += height;
    }
    QApplication::processEvents();
    double shift = 1.0;
    std::int64_t at = 1'000'000;
    const auto result = medians({
        [&] {
            background.repaint();
            QGuiApplication::sync();
        },
        [&] {
            ViewTransform view = scene.view();
            view.scroll_by(shift = -shift);
            scene.set_view(view);
            canvas.repaint();
            QGuiApplication::sync();
        },
        [&] {
            scene.set_playhead(Micros{at += 16'667});
            QApplication::sendPostedEvents();
            QGuiApplication::sync();
        },
    });
    std::fprintf(stderr, "background %.0f us, full %.0f us, playhead %.0f us\n", result[0], result[1],
                 result[2]);
    const bool full = told("timeline_full_repaint_to_background", result[1] / result[0], 1.8);
    return told("timeline_playhead_to_background", result[2] / result[0], 0.35) && full;
}

}  // namespace

int main(int argc, char** argv) {
    const VirtualScreen screen;
    if (!screen.running()) {
        std::fprintf(stderr, "bench timeline: not measured, Xvfb does not start\n");
        return 1;
    }
    qputenv("QT_QPA_PLATFORM", "xcb");
    const QApplication application(argc, argv);
    set_theme(Theme::dark);
    Document document;
    Analysis analysis(document);
    document.reset(crowded_show(), {});
    Scene scene(document, analysis);
    analysis.wait();
    scene.set_lane_height(LaneHeight::compact);
    scene.set_lanes_px(height);
    if (scene.lanes().height() > height) {
        std::fprintf(stderr, "bench timeline: the lanes do not fit\n");
        return 1;
    }
    ViewTransform view = scene.view();
    view.set_width(width);
    view.fit();
    scene.set_view(view);
    const bool drawn = picture(scene);
    const bool shown = window(scene);
    return bench::drag_among_500() && shown && drawn ? 0 : 1;
}
