// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/schedule.hpp"
#include "ui/timeline/lane_index.hpp"
#include "ui/timeline/lane_layout.hpp"
#include "ui/timeline/look_ahead.hpp"
#include "ui/timeline/snapping.hpp"
#include "ui/timeline/ticks.hpp"
#include "ui/timeline/view_transform.hpp"

#include <QObject>
#include <QRectF>
#include <QString>
#include <QTimer>

#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace gasp {

class Analysis;
class Document;
class Moments;
class Waveforms;
struct AnalysisResult;

/// What a drag shows beside the document it changes.
struct DragShow {
    std::optional<Snap> snap;
    QString figures;             ///< the read-out beside the pointer; empty for none
    QPointF at;                  ///< the pointer, on the lanes
    std::optional<QRectF> band;  ///< a rubber band, on the lanes
};

/// What ruler, headers and lanes of one timeline share: what part is seen, where everything lies, the
/// playhead. The one place that listens to the document and the analysis. Window thread.
class Scene : public QObject {
    Q_OBJECT

  public:
    Scene(Document& document, Analysis& analysis, QObject* parent = nullptr);
    ~Scene() override;

    [[nodiscard]] Document& document() const { return document_; }
    [[nodiscard]] Waveforms& waveforms() const { return *waveforms_; }
    [[nodiscard]] Moments& moments() const { return *moments_; }
    [[nodiscard]] const LaneLayout& lanes() const { return lanes_; }
    [[nodiscard]] const LaneIndex& cues() const { return cues_; }
    /// The newest result if it is of the sequence looked at, else null. It may lag behind the document.
    [[nodiscard]] std::shared_ptr<const AnalysisResult> result() const;
    /// How a figure moves since its cues were edited; null while that is as in the result.
    [[nodiscard]] const MotionPreview* ahead_of(ActuatorId actuator) const { return ahead_.of(actuator); }
    [[nodiscard]] const LookAhead& ahead() const { return ahead_; }
    /// The result has lagged behind the document for longer than an eye forgives.
    [[nodiscard]] bool late() const { return late_; }
    /// The driven stretches of a channel, as last resolved; empty while unknown.
    [[nodiscard]] std::span<const Dwell> dwells_of(ChannelId channel) const;

    [[nodiscard]] const ViewTransform& view() const { return view_; }
    /// The one way to change what is seen: tells once, and only if it did change.
    void set_view(const ViewTransform& view);
    [[nodiscard]] TickScale tick_scale() const;
    /// The ticks in sight, from a time on.
    [[nodiscard]] std::vector<Tick> ticks_from(Micros time) const;
    [[nodiscard]] const Grid& grid() const { return grid_; }
    /// Requires: valid(grid).
    void set_grid(const Grid& grid);
    /// Of the ticks that are drawn and of what the grid is counted in, what is nearest.
    [[nodiscard]] Micros nearest_on_grid(Micros time) const;
    [[nodiscard]] int scroll_y() const { return scroll_y_; }
    void set_scroll_y(int y);
    [[nodiscard]] int lanes_px() const { return lanes_px_; }  ///< height of the lanes' window
    void set_lanes_px(int height);
    [[nodiscard]] LaneHeight lane_height() const { return lane_height_; }
    void set_lane_height(LaneHeight height);
    [[nodiscard]] UnitSystem units() const { return units_; }
    void set_units(UnitSystem units);

    /// The pressure while it stands at the foot of the window and the other lanes scroll behind it; null
    /// where all lanes fit, or where it would leave them no room.
    [[nodiscard]] const Lane* pinned() const;
    /// What is left of the window's height to the lanes that scroll.
    [[nodiscard]] int scrolling_px() const;
    /// On the window of the lanes, logical pixels.
    [[nodiscard]] int top_of(const Lane& lane) const;
    [[nodiscard]] const Lane* lane_at(double y) const;

    [[nodiscard]] Micros playhead() const { return playhead_; }
    void set_playhead(Micros time);
    [[nodiscard]] const std::optional<Dwell>& loop() const { return loop_; }
    void set_loop(std::optional<Dwell> loop);
    [[nodiscard]] bool follow() const { return follow_; }
    void set_follow(bool on);

    [[nodiscard]] const DragShow& drag() const { return drag_; }
    void show_drag(DragShow drag);
    /// Lights up cues and a time for a moment.
    void flash(std::vector<CueId> cues, std::optional<Micros> time);
    [[nodiscard]] const std::vector<CueId>& flashed_cues() const { return flashed_cues_; }
    [[nodiscard]] const std::optional<Micros>& flashed_time() const { return flashed_time_; }

    [[nodiscard]] SnapPlaces snap_places() const;
    /// Leads of strikes, ahead of the analysis: cues that are placed by them are drawn where they begin.
    void know_leads(std::span<const CueLead> leads);

  signals:
    void view_changed();   ///< scale, offset or vertical scroll
    void lanes_changed();  ///< lanes, names, another sequence: everything is new
    void cues_changed(const std::vector<gasp::ChannelId>& channels);
    void marks_changed();
    void clips_changed();
    void selection_changed();
    void result_changed();
    void playhead_moved(gasp::Micros before);
    void loop_changed();
    void follow_changed(bool on);
    void drag_changed();
    void flash_changed();

  private:
    void take_edit(const Edit& edit);
    void take_all();
    void take_extent();
    void take_result();
    void lay_lanes();
    void wait_for_result();

    Document& document_;
    Analysis& analysis_;
    std::unique_ptr<Waveforms> waveforms_;
    std::unique_ptr<Moments> moments_;
    LaneLayout lanes_;
    LaneIndex cues_;
    LookAhead ahead_;
    QTimer patience_;
    bool late_ = false;
    ViewTransform view_;
    Grid grid_;
    int scroll_y_ = 0;
    int lanes_px_ = 0;
    LaneHeight lane_height_ = LaneHeight::normal;
    UnitSystem units_ = UnitSystem::metric;
    SequenceId fitted_;  ///< the sequence that was already shown whole once
    Micros playhead_{0};
    std::optional<Dwell> loop_;
    bool follow_ = true;
    DragShow drag_;
    std::vector<CueId> flashed_cues_;
    std::optional<Micros> flashed_time_;
};

}  // namespace gasp
