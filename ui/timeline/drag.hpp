// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/timeline/scene.hpp"

#include <QPointF>

#include <memory>

namespace gasp {

/// Where the pointer is during a drag.
struct Pointer {
    QPointF at;  ///< on the lanes
    Micros time{0};
    Qt::KeyboardModifiers keys;
    [[nodiscard]] bool snaps() const { return !keys.testFlag(Qt::AltModifier); }
};

/// One drag from the press to the release: it changes the document by previews, so that finishing leaves one
/// step to undo and cancelling leaves none. Each kind stands in a file of its own.
class Drag {
  public:
    virtual ~Drag() = default;
    virtual void move(const Pointer& pointer) = 0;
    virtual void finish();
    virtual void cancel();

  protected:
    explicit Drag(Scene& scene) : scene_(scene) {}
    [[nodiscard]] Scene& scene() const { return scene_; }
    /// The edges snapped, unless Alt is held.
    [[nodiscard]] std::optional<Snap> snapped(const Pointer& pointer, std::span<const Micros> edges,
                                              const SnapWithout& without) const;

  private:
    Scene& scene_;
};

/// Moves the selected cues; `grasped` is the one whose edges snap. Another lane of its kind takes them if all
/// lie on one channel. Set on a mark, the grasped cue becomes tied to it.
[[nodiscard]] std::unique_ptr<Drag> move_cues_drag(Scene& scene, CueId grasped, Micros from);
/// Moves the start or the end of one cue.
[[nodiscard]] std::unique_ptr<Drag> stretch_cue_drag(Scene& scene, CueId cue, bool start);
/// Moves the strike of a valve cue, which is from then on placed by it; set on a mark, it becomes tied to it.
[[nodiscard]] std::unique_ptr<Drag> strike_drag(Scene& scene, CueId cue, Micros from);
/// From an empty place of a lane: along the lane it draws a cue, across lanes it is a rubber band. With
/// `band`, or outside channel lanes, it is a rubber band at once; `add` keeps what is selected.
[[nodiscard]] std::unique_ptr<Drag> empty_drag(Scene& scene, const Pointer& from, bool band, bool add);
/// Moves a mark with the cues tied to it.
[[nodiscard]] std::unique_ptr<Drag> mark_drag(Scene& scene, MarkId mark, Micros from);
/// Moves a clip, along the ruler and to other sound lanes, cuts its start or end, or draws its fades out.
enum class ClipPart { body, start, end, fade_in, fade_out };
[[nodiscard]] std::unique_ptr<Drag> clip_drag(Scene& scene, ClipId clip, ClipPart part, const Pointer& from);

/// "0:01.250  420 ms": start and length of a cue, and its offset from its mark.
[[nodiscard]] QString figures_of(const Sequence& sequence, const Cue& cue);

}  // namespace gasp
