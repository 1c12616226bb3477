// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edits.hpp"
#include "ui/editor/document.hpp"
#include "ui/timeline/drag.hpp"

#include <algorithm>
#include <vector>

namespace gasp {

namespace {

constexpr Micros shortest_clip{10'000};

class ClipDrag : public Drag {
  public:
    ClipDrag(Scene& scene, ClipId id, ClipPart part, Micros from)
        : Drag(scene), id_(id), part_(part), from_(from) {
        if (const SoundClip* clip = find(scene.document().sequence(), id)) {
            before_ = *clip;
        }
    }

    void move(const Pointer& pointer) override {
        std::vector<Micros> edges;
        const Micros by = pointer.time - from_;
        if (part_ != ClipPart::end) {
            edges.push_back(before_.start + by);
        }
        if (part_ != ClipPart::start) {
            edges.push_back(before_.start + before_.length + by);
        }
        const auto found = snapped(pointer, edges, {{}, {}, id_});
        const SoundClip after = moved(by + (found ? found->shift : Micros{0}));
        const SequenceId sequence = scene().document().sequence_id();
        scene().document().preview([&](const Show& show) { return set_clip(show, sequence, after); });
        const QString figures =
            QString::fromStdString(print_time(after.start) + "   " + print_duration(after.length));
        scene().show_drag({found, figures, pointer.at, {}});
    }

  private:
    [[nodiscard]] SoundClip moved(Micros by) const {
        SoundClip clip = before_;
        switch (part_) {
            case ClipPart::body:
                clip.start = std::max(clip.start + by, Micros{0});
                break;
            case ClipPart::start: {
                const Micros least = std::max(-clip.from, -clip.start);
                const Micros cut = std::clamp(by, least, std::max(least, clip.length - shortest_clip));
                clip.start += cut;
                clip.from += cut;
                clip.length -= cut;
                break;
            }
            case ClipPart::end: {
                const Micros most = std::max(clip.file_length - clip.from, clip.length);
                clip.length = std::clamp(clip.length + by, shortest_clip, most);
                break;
            }
        }
        return clip;
    }

    ClipId id_;
    ClipPart part_;
    Micros from_;
    SoundClip before_;
};

}  // namespace

std::unique_ptr<Drag> clip_drag(Scene& scene, ClipId clip, ClipPart part, Micros from) {
    return std::make_unique<ClipDrag>(scene, clip, part, from);
}

}  // namespace gasp
