// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/scene.hpp"

#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/look/type.hpp"
#include "ui/timeline/waveforms.hpp"

#include <QFontMetricsF>
#include <QTimer>

#include <algorithm>

namespace gasp {

namespace {

constexpr int flash_ms = 1200;
constexpr int late_after_ms = 150;
constexpr double tick_label_gap_px = 16.0;

/// What of the timeline an edit touches beside the cues.
struct Reach {
    bool rig = false;
    bool marks = false;
    bool clips = false;
    bool head = false;

    void operator()(const InSequence<Cue>&) {}
    void operator()(const InSequence<Mark>&) { marks = true; }
    void operator()(const InSequence<SoundClip>&) { clips = true; }
    void operator()(const Replacement<SequenceHead>&) { head = true; }
    void operator()(const Replacement<std::string>&) {}
    void operator()(const Replacement<NightPlan>&) {}
    template <class T>
    void operator()(const T&) {
        rig = true;
    }
};

}  // namespace

Scene::Scene(Document& document, Analysis& analysis, QObject* parent)
    : QObject(parent),
      document_(document),
      analysis_(analysis),
      waveforms_(std::make_unique<Waveforms>()),
      moments_(std::make_unique<Moments>()),
      ahead_(document, cues_) {
    patience_.setSingleShot(true);
    patience_.setInterval(late_after_ms);
    connect(&patience_, &QTimer::timeout, this, [this] {
        late_ = true;
        emit result_changed();
    });
    connect(&document_, &Document::changed, this, &Scene::take_edit);
    connect(&document_, &Document::replaced, this, [this] {
        fitted_ = {};
        take_all();
    });
    connect(&document_, &Document::selection_changed, this, &Scene::selection_changed);
    connect(&document_, &Document::file_changed, this, [this] {
        waveforms_->set_folder(document_.folder());
        moments_->set_folder(document_.folder());
    });
    connect(&analysis_, &Analysis::ready, this, &Scene::take_result);
    connect(waveforms_.get(), &Waveforms::progressed, this, &Scene::clips_changed);
    connect(moments_.get(), &Moments::changed, this, &Scene::clips_changed);
    take_all();
}

Scene::~Scene() = default;

void Scene::take_all() {
    waveforms_->set_folder(document_.folder());
    moments_->set_folder(document_.folder());
    lay_lanes();
    cues_.rebuild(document_.sequence());
    ahead_.clear();
    drag_ = {};
    flashed_cues_.clear();
    flashed_time_.reset();
    take_extent();
    emit lanes_changed();
}

void Scene::lay_lanes() {
    lanes_ = LaneLayout(document_.show(), document_.sequence(), lane_height_, lanes_px_);
    scroll_y_ = std::clamp(scroll_y_, 0, std::max(0, lanes_.height() - lanes_px_));
}

void Scene::take_extent() {
    ViewTransform view = view_;
    // A view of the whole stays one, but under a drag the ruler must not run away from the pointer.
    const bool whole = view.shows_just_the_whole() && !document_.previewing();
    view.set_extent(std::max(document_.sequence().length, end_of_sound(document_.sequence())));
    if (whole || fitted_ != document_.sequence().id) {
        fitted_ = document_.sequence().id;
        view.fit();
    }
    set_view(view);
}

void Scene::take_edit(const Edit& edit) {
    Reach reach;
    for (const Change& change : edit.changes) {
        std::visit(reach, change);
    }
    const std::vector<ChannelId> channels = cues_.follow(edit, document_.sequence());
    wait_for_result();
    if (reach.rig) {
        take_all();
        return;
    }
    if (reach.head) {
        take_extent();
        emit lanes_changed();
    }
    if (reach.clips) {
        take_extent();
        if (lanes_.sounds().size() != sound_lanes(document_.sequence())) {
            lay_lanes();
            emit lanes_changed();
        }
        emit clips_changed();
    }
    if (reach.marks) {
        emit marks_changed();
    }
    if (!channels.empty()) {
        ahead_.follow(channels, result().get());
        emit cues_changed(channels);
    }
}

void Scene::wait_for_result() {
    if (!late_ && !patience_.isActive()) {
        patience_.start();
    }
}

void Scene::take_result() {
    const auto result = this->result();
    const bool up_to_date = analysis_.up_to_date();
    patience_.stop();
    late_ = late_ && !up_to_date;
    if (!up_to_date) {
        wait_for_result();
    }
    if (result) {
        std::vector<CueLead> leads;
        for (const PlacedStrike& strike : result->strikes) {
            if (strike.lead) {
                leads.push_back({strike.cue, *strike.lead});
            }
        }
        know_leads(leads);
    }
    ahead_.take(result.get(), up_to_date);
    emit result_changed();
}

void Scene::know_leads(std::span<const CueLead> leads) {
    const std::vector<ChannelId> channels = cues_.take_leads(document_.sequence(), leads);
    if (!channels.empty()) {
        emit cues_changed(channels);
    }
}

std::shared_ptr<const AnalysisResult> Scene::result() const {
    auto result = analysis_.result();
    return result && result->sequence == document_.sequence().id ? result : nullptr;
}

std::span<const Dwell> Scene::dwells_of(ChannelId channel) const {
    const auto result = this->result();
    if (!result) {
        return {};
    }
    const auto& channels = result->schedule.channels;
    const auto found = std::find_if(channels.begin(), channels.end(),
                                    [channel](const ScheduledChannel& one) { return one.id == channel; });
    const auto i = static_cast<std::size_t>(found - channels.begin());
    return i < result->dwells.size() ? std::span<const Dwell>(result->dwells[i]) : std::span<const Dwell>();
}

void Scene::set_view(const ViewTransform& view) {
    if (!(view == view_)) {
        view_ = view;
        emit view_changed();
    }
}

TickScale Scene::tick_scale() const {
    const QFontMetricsF metrics(font(TypeSize::small));
    return gasp::tick_scale(grid_, view_.us_per_px(), view_.left(), view_.right(), tick_label_gap_px,
                            [&metrics](const std::string& label) {
                                return metrics.horizontalAdvance(QString::fromStdString(label));
                            });
}

std::vector<Tick> Scene::ticks_from(Micros time) const {
    return ticks(grid_, tick_scale(), time, view_.right());
}

void Scene::set_grid(const Grid& grid) {
    if (!(grid == grid_)) {
        grid_ = grid;
        emit view_changed();
    }
}

Micros Scene::nearest_on_grid(Micros time) const {
    std::vector<Micros> lines = grid_beside(grid_, tick_scale(), time);
    const std::vector<Micros> counted = grid_beside(grid_, {}, time);
    lines.insert(lines.end(), counted.begin(), counted.end());
    std::erase_if(lines, [](Micros line) { return line < Micros{0}; });
    return *std::ranges::min_element(lines, {},
                                     [time](Micros line) { return std::chrono::abs(line - time); });
}

void Scene::set_scroll_y(int y) {
    const int bounded = std::clamp(y, 0, std::max(0, lanes_.height() - lanes_px_));
    if (bounded != scroll_y_) {
        scroll_y_ = bounded;
        emit view_changed();
    }
}

void Scene::set_lanes_px(int height) {
    if (height != lanes_px_) {
        lanes_px_ = height;
        lay_lanes();
        emit view_changed();
    }
}

void Scene::set_lane_height(LaneHeight height) {
    if (height != lane_height_) {
        lane_height_ = height;
        lay_lanes();
        emit view_changed();
    }
}

void Scene::set_units(UnitSystem units) {
    if (units != units_) {
        units_ = units;
        emit result_changed();
    }
}

const Lane* Scene::pinned() const {
    constexpr int least_beside_px = 2 * LaneLayout::channel_px;
    if (lanes_.lanes().empty() || lanes_.height() <= lanes_px_) {
        return nullptr;
    }
    const Lane& last = lanes_.lanes().back();
    const bool room = lanes_px_ - last.height >= least_beside_px;
    return last.kind == Lane::Kind::pressure && room ? &last : nullptr;
}

int Scene::scrolling_px() const {
    const Lane* foot = pinned();
    return lanes_px_ - (foot != nullptr ? foot->height : 0);
}

int Scene::top_of(const Lane& lane) const {
    return &lane == pinned() ? scrolling_px() : lane.top - scroll_y_;
}

const Lane* Scene::lane_at(double y) const {
    const Lane* foot = pinned();
    return foot != nullptr && y >= scrolling_px() ? foot : lanes_.at(y + scroll_y_);
}

void Scene::set_playhead(Micros time) {
    if (time == playhead_) {
        return;
    }
    const Micros before = std::exchange(playhead_, time);
    if (follow_ && (time < view_.left() || time > view_.right())) {
        ViewTransform view = view_;
        view.place(time, view.width() / 8);
        set_view(view);
    }
    emit playhead_moved(before);
}

void Scene::set_loop(std::optional<Dwell> loop) {
    if (loop != loop_) {
        loop_ = loop;
        emit loop_changed();
    }
}

void Scene::set_follow(bool on) {
    if (on != follow_) {
        follow_ = on;
        emit follow_changed(on);
    }
}

void Scene::show_drag(DragShow drag) {
    drag_ = std::move(drag);
    emit drag_changed();
}

void Scene::flash(std::vector<CueId> cues, std::optional<Micros> time) {
    flashed_cues_ = std::move(cues);
    flashed_time_ = time;
    emit flash_changed();
    QTimer::singleShot(flash_ms, this, [this] {
        flashed_cues_.clear();
        flashed_time_.reset();
        emit flash_changed();
    });
}

SnapPlaces Scene::snap_places() const {
    return {document_.sequence(),
            cues_,
            lanes_,
            view_,
            playhead_,
            grid_,
            tick_scale(),
            moments_->shown(document_.sequence())};
}

}  // namespace gasp
