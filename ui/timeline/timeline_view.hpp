// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "core/schedule/schedule.hpp"
#include "core/units/quantity.hpp"
#include "core/units/time.hpp"

#include <QRect>
#include <QWidget>

#include <memory>
#include <optional>
#include <vector>

class QAction;

namespace gasp {

class Analysis;
class Document;
class Moments;
class Waveforms;

/// The timeline of the sequence looked at: ruler, marks, sound, cues, the figures' travel, pressure,
/// findings. It shows the document as it is, every edit goes through the document, and what the background
/// works out (dwells, strokes, pressure, findings) appears when it is ready. Window thread.
class TimelineView : public QWidget {
    Q_OBJECT

  public:
    /// Both must outlive it.
    TimelineView(Document& document, Analysis& analysis, QWidget* parent = nullptr);
    ~TimelineView() override;

    [[nodiscard]] Micros playhead() const;
    /// Moves the drawn playhead and emits nothing; with follow on, turns the page to keep it in sight.
    void set_playhead(Micros time);
    [[nodiscard]] std::optional<Dwell> loop() const;
    void set_loop(std::optional<Dwell> loop);
    /// Of the pressures that are written.
    void set_units(UnitSystem units);
    [[nodiscard]] bool follow() const;
    /// Scrolling by hand switches it off.
    void set_follow(bool on);

    void zoom_in();
    void zoom_out();
    void fit();
    /// Does nothing while nothing is selected.
    void zoom_to_selection();
    /// Scrolls only if the time is out of sight.
    void reveal(Micros time);
    /// Selects what the place names, scrolls to it, and lights it up for a moment; looks at its sequence
    /// first.
    void jump_to(const Place& place);
    /// "Mark 1", "Mark 2"...: for a key that is tapped while it plays.
    void add_mark_at_playhead();

    /// What can be done with cues and marks, with text, key, icon and tooltip, in the order of a menu; a null
    /// pointer stands for a separator. They belong to this view and are enabled as the selection allows.
    [[nodiscard]] std::vector<QAction*> edit_actions() const;
    /// Moving and stretching by keys, and going from cue to cue; in the same way.
    [[nodiscard]] std::vector<QAction*> move_actions() const;
    /// Looping what is selected.
    [[nodiscard]] QAction* loop_action() const;
    /// By what the ruler is divided; in the same way.
    [[nodiscard]] std::vector<QAction*> grid_actions() const;
    /// Zooming, following and the height of lanes; in the same way.
    [[nodiscard]] std::vector<QAction*> view_actions() const;

    /// What part of the ruler is in sight, and where the lanes are on the screen: for what stands under them.
    [[nodiscard]] Dwell stretch() const;
    [[nodiscard]] QRect lanes_on_screen() const;

    [[nodiscard]] Waveforms& waveforms();
    [[nodiscard]] Moments& moments();

  signals:
    /// The user clicked the ruler.
    void playhead_requested(gasp::Micros time);
    /// The user drags the playhead along it, or steps with keys.
    void playhead_dragged(gasp::Micros time);
    /// Something was moved here by a key: to be heard.
    void moved_by_key(gasp::Micros time);
    /// The user drew or cleared a loop on the ruler.
    void loop_requested(std::optional<gasp::Dwell> loop);
    void follow_changed(bool on);
    /// Another stretch is in sight, or the lanes stand elsewhere.
    void stretch_changed();
    /// The empty timeline's words for a rig without channels were clicked.
    void rig_requested();
    /// The empty sound lane was clicked.
    void sound_requested();
    /// Another file is to be chosen for a sound.
    void sound_file_requested(gasp::ClipId clip);
    /// Something to say in passing, as why a paste did nothing.
    void said(const QString& sentence);

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace gasp
