// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/look/icons.hpp"
#include "ui/timeline/scene.hpp"

#include <QKeySequence>
#include <QList>
#include <QObject>

#include <vector>

class QAction;
class QWidget;

namespace gasp {

/// What can be done with cues and marks from menu and keys. Keys work while the timeline has the focus.
class EditActions : public QObject {
    Q_OBJECT

  public:
    /// The actions are added to `home`.
    EditActions(Scene& scene, QWidget& home);

    /// In the order of a menu; null is a separator.
    [[nodiscard]] const std::vector<QAction*>& edit() const { return edit_; }
    [[nodiscard]] const std::vector<QAction*>& move() const { return move_; }

    /// Selects the cue after (1) or before (-1) the selected one in order of time; false at the end.
    bool select_cue_after(int way);
    void add_mark_at(Micros time);
    void add_cue_at(Micros time);

  signals:
    void said(const QString& sentence);
    void rename_requested();
    void sound_file_requested(gasp::ClipId clip);  ///< another file for it is to be chosen
    void moved_by_key(gasp::Micros time);          ///< what is selected stands here now
    void playhead_dragged(gasp::Micros time);
    void shown(gasp::Micros time);  ///< what was selected or made there should be in sight

  private:
    struct Words {
        Icon icon;
        const char* text;
        QList<QKeySequence> keys;
        enum class Needs { nothing, cues, clip, anything } needs = Needs::cues;
    };
    QAction* make(const Words& words, void (EditActions::*does)());
    void make_clipboard_actions();
    void make_cue_actions();
    void make_sound_actions();
    void make_move_actions();
    void refresh();

    void remove();
    void copy();
    void cut();
    void paste();
    void duplicate();
    void select_all();
    void select_lane();
    void rename();
    void choose_sound_file();
    void split_sound();
    void fade_in();
    void fade_out();
    void louder();
    void quieter();
    void add_cue();
    void add_mark();
    void tie();
    void free();
    void place_by_strike();
    void place_by_start();
    void more_freedom();
    void less_freedom();
    void flash();
    void steady();
    void faster();
    void slower();
    void earlier_tick();
    void later_tick();
    void earlier_10();
    void later_10();
    void earlier_100();
    void later_100();
    void shorter_tick();
    void longer_tick();
    void shorter_10();
    void longer_10();
    void all_earlier();
    void all_later();
    void all_to_playhead();
    void to_grid();
    void lane_up();
    void lane_down();
    void playhead_back();
    void playhead_on();
    void next_cue();
    void previous_cue();

    [[nodiscard]] const SoundClip* selected_clip() const;
    /// Does something to the selected clip: Edit(const Show&, SequenceId, const SoundClip&).
    template <class F>
    void edit_clip(F&& make);
    void repeat_clip(const SoundClip& clip);
    void move_mark_by(Micros by, int merge);
    void move_clip(Micros by, int merge);
    void change_sound_lane(int way);
    void change_gain(double by_db);
    void nudge(Micros by, int merge);
    void shift_all(Micros by, int merge);
    void step_playhead(int way);
    void stretch(Micros by, int merge);
    void change_lane(int way);
    void change_rate(int way);
    void change_freedom(Micros by);
    [[nodiscard]] std::vector<CueLead> selected_leads() const;
    void put(std::vector<Cue> cues);
    [[nodiscard]] Micros tick() const;
    [[nodiscard]] const std::vector<CueId>& selected() const;
    [[nodiscard]] Micros earliest_selected() const;

    Scene& scene_;
    QWidget& home_;
    std::vector<QAction*> edit_;
    std::vector<QAction*> move_;
    std::vector<QAction*> need_cues_;
    std::vector<QAction*> need_any_;
    std::vector<QAction*> need_clip_;
};

}  // namespace gasp
