// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/ids.hpp"
#include "core/units/quantity.hpp"
#include "ui/editor/grid.hpp"
#include "ui/editor/moments.hpp"
#include "ui/editor/paper.hpp"

#include <QByteArray>
#include <QObject>
#include <QSettings>
#include <QStringList>
#include <QVariantMap>

namespace gasp {

enum class LaneHeight { compact, normal, tall };

/// What is remembered between sessions, of this user on this machine; nothing of it is in a show. Every
/// change is kept within the second. A setting that is missing or makes no sense reads as its default.
class Settings : public QObject {
    Q_OBJECT

  public:
    using QObject::QObject;

    [[nodiscard]] UnitSystem units() const;  ///< metric at first, or US where the system's locale measures so
    void set_units(UnitSystem units);

    [[nodiscard]] bool light_theme() const;
    void set_light_theme(bool light);

    [[nodiscard]] LaneHeight lane_height() const;  ///< of the timeline; normal at first
    void set_lane_height(LaneHeight height);

    /// By what the ruler of a sequence was last divided; else as that of another sequence of the same show;
    /// of the newest fifty. An empty path is a show that was never saved.
    [[nodiscard]] Grid grid(const QString& show, SequenceId sequence) const;
    void set_grid(const QString& show, SequenceId sequence, const Grid& grid);

    [[nodiscard]] Paper paper()
        const;  ///< of the build pack; at first what is usual where the locale is from
    void set_paper(Paper paper);

    [[nodiscard]] double volume() const;  ///< 0..1
    void set_volume(double volume);

    [[nodiscard]] bool scrub_sounds() const;  ///< whether a dragged playhead is heard; at first it is
    void set_scrub_sounds(bool on);

    /// Shows last opened or saved, newest first, at most ten; whether they still exist is not asked.
    [[nodiscard]] QStringList recent() const;
    void add_recent(const QString& path);
    void forget_recent();

    /// Where the last file was chosen; empty at first.
    [[nodiscard]] QString last_folder() const;
    void set_last_folder(const QString& folder);

    /// What was last to be sized: figures by the keys of their fields; empty at first.
    [[nodiscard]] QVariantMap sizing_task() const;
    void set_sizing_task(const QVariantMap& task);

    /// By what moments in the sound are found.
    [[nodiscard]] MomentOptions moments() const;
    void set_moments(const MomentOptions& options);

    [[nodiscard]] QByteArray geometry() const;
    [[nodiscard]] QByteArray layout() const;
    void set_window(const QByteArray& geometry, const QByteArray& layout);
    void forget_layout();

  signals:
    void units_changed();
    void recent_changed();

  private:
    QSettings store_;
};

}  // namespace gasp
