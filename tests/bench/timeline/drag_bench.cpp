// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/bench/timeline/drag_bench.hpp"

#include "tests/bench/strikes/show_of_500.hpp"
#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/timeline/canvas.hpp"
#include "ui/timeline/hit.hpp"
#include "ui/timeline/scene.hpp"

#include <QApplication>
#include <QMouseEvent>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <functional>
#include <thread>
#include <vector>

namespace gasp::bench {
namespace {

constexpr int rounds = 41;
constexpr double bar_to_repaint = 3.0;
constexpr double frame_ms = 1000.0 / 60.0;
constexpr CueId dragged{1000 + 250};
constexpr Micros half_in_sight{10s};

double ms(const std::function<void()>& work) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
}

double median(std::vector<double> values) {
    std::ranges::sort(values);
    return values[values.size() / 2];
}

/// The lanes of a show in a window, the middle of its sequence in sight.
class Desk {
  public:
    explicit Desk(Show show) : analysis_(document_), scene_(document_, analysis_), canvas_(scene_) {
        document_.reset(std::move(show), {});
        canvas_.setWindowFlag(Qt::BypassWindowManagerHint);
        canvas_.resize(1920, 700);
        canvas_.show();
        analysis_.wait();
        QApplication::processEvents();
        ViewTransform seen = scene_.view();
        const Micros middle = scene_.cues().find(dragged)->begin;
        seen.fit_to(middle - half_in_sight, middle + half_in_sight);
        scene_.set_view(seen);
        canvas_.repaint();
    }

    /// Press on the cue; false where it is not there.
    bool take_hold() {
        const QRectF box = box_of(scene_, dragged);
        at_ = box.center();
        mouse(QEvent::MouseButtonPress, at_);
        return !box.isEmpty();
    }
    void move() { mouse(QEvent::MouseMove, at_ += QPointF(step_ = -step_ * 1.01, 0.0)); }
    void let_go() { mouse(QEvent::MouseButtonRelease, at_); }
    void paint() {
        QApplication::processEvents();
        QGuiApplication::sync();
    }
    void repaint_all() {
        ViewTransform seen = scene_.view();
        seen.scroll_by(shift_ = -shift_);
        scene_.set_view(seen);
        canvas_.repaint();
        QGuiApplication::sync();
    }
    /// What is drawn of the cue is where the cue is now, by its own stroke or by the run.
    [[nodiscard]] bool followed() const {
        const Cue* cue = find(document_.sequence(), dragged);
        const ActuatorId actuator = *find(document_.show(), cue->channel)->actuator;
        const MotionPreview* ahead = scene_.ahead_of(actuator);
        if (ahead == nullptr) {
            return analysis_.up_to_date();
        }
        const Micros begin = scene_.cues().find(dragged)->begin;
        return std::ranges::any_of(ahead->strokes, [begin](const Stroke& stroke) {
            return stroke.strike_s() && std::chrono::abs(stroke.command.time - begin) <= Micros{500};
        });
    }
    [[nodiscard]] std::size_t strokes_simulated() const { return scene_.ahead().strokes_simulated(); }
    void wait() { analysis_.wait(); }

  private:
    void mouse(QEvent::Type type, QPointF at) {
        const auto button = type == QEvent::MouseMove ? Qt::NoButton : Qt::LeftButton;
        const auto held = type == QEvent::MouseButtonRelease ? Qt::NoButton : Qt::LeftButton;
        QMouseEvent event(type, at, canvas_.mapToGlobal(at), button, held, Qt::AltModifier);
        QApplication::sendEvent(&canvas_, &event);
    }

    Document document_;
    Analysis analysis_;
    Scene scene_;
    Canvas canvas_;
    QPointF at_;
    double step_ = 40.0;
    double shift_ = 1.0;
};

bool drag(const char* plant, Show show) {
    Desk desk(std::move(show));
    if (!desk.take_hold()) {
        std::fprintf(stderr, "bench drag: the cue is not in sight\n");
        return false;
    }
    std::vector<double> answers;
    std::vector<double> repaints;
    std::size_t most = 0;
    bool followed = true;
    for (int round = 0; round <= rounds; ++round) {
        const std::size_t before = desk.strokes_simulated();
        const double answer = ms([&] {
            desk.move();
            desk.paint();
        });
        followed = followed && desk.followed();
        const std::size_t again = desk.strokes_simulated() - before;
        const double repaint = ms([&] { desk.repaint_all(); });
        std::this_thread::sleep_for(std::chrono::milliseconds{5});  // as a hand pauses
        if (round > 0) {
            answers.push_back(answer);
            repaints.push_back(repaint);
            most = std::max(most, again);
        }
    }
    desk.let_go();
    const double worst = *std::ranges::max_element(answers);
    const double ratio = median(answers) / median(repaints);
    std::fprintf(
        stderr,
        "drag among 500 cues, %s: answered in %.2f ms (worst %.2f), all lanes in %.2f ms; %zu strokes "
        "simulated at most before the run follows\n",
        plant, median(answers), worst, median(repaints), most);
    if (!followed) {
        std::printf("bench drag: the travel did not follow\n");
    }
    const bool good = ratio <= bar_to_repaint && worst <= frame_ms;
    std::printf("bench timeline_drag_%s_to_repaint = %.2f (bar %.2f) %s\n", plant, ratio, bar_to_repaint,
                good ? "ok" : "short");
    return followed && good;
}

}  // namespace

bool drag_among_500() {
    const bool served = drag("served", show_of_500());
    return drag("starved", starved_show_of_500()) && served;
}

}  // namespace gasp::bench
