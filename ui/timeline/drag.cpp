// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/drag.hpp"

#include "ui/editor/document.hpp"

namespace gasp {

void Drag::finish() {
    scene_.document().commit_preview();
    scene_.show_drag({});
}

void Drag::cancel() {
    scene_.document().cancel_preview();
    scene_.show_drag({});
}

std::optional<Snap> Drag::snapped(const Pointer& pointer, std::span<const Micros> edges,
                                  const SnapWithout& without) const {
    return pointer.snaps() ? snap(scene_.snap_places(), edges, without) : std::nullopt;
}

QString figures_of(const Sequence& sequence, const Cue& cue) {
    QString text =
        QString::fromStdString(print_time(start_of(sequence, cue)) + "   " + print_duration(cue.length));
    if (const Mark* mark = cue.mark ? find(sequence, *cue.mark) : nullptr) {
        const std::string sign = cue.at > Micros{0} ? "+" : "";
        text += QStringLiteral("   %1 from \u201c%2\u201d")
                    .arg(QString::fromStdString(sign + print_duration(cue.at)),
                         QString::fromStdString(mark->name));
    }
    return text;
}

}  // namespace gasp
