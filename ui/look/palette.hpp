// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "core/show/rig.hpp"

#include <QColor>

#include <vector>

namespace gasp {

enum class Theme { light, dark };

/// The colours of a harbour instrument: slate and bone with one brass accent, fine rules. Kinds of channel
/// and findings take theirs from the Okabe-Ito set (Okabe and Ito, "Color Universal Design", 2008), as they
/// are for fills and drawn marks, and darkened or lightened where they are read as text.
struct Palette {
    QColor ground;       ///< of the window
    QColor canvas;       ///< behind what is drawn: lanes, stage, lists, fields
    QColor canvas_soft;  ///< every other row; past the end of a sequence
    QColor raised;       ///< headers, buttons
    QColor rule;         ///< fine lines between things
    QColor rule_strong;  ///< lines that are read: ticks, borders of fields
    QColor text;
    QColor text_soft;   ///< units, second lines, what is switched off; still 4.5:1
    QColor brass;       ///< the accent: playhead, focus, what is selected
    QColor on_brass;    ///< text on it
    QColor brass_text;  ///< the accent as text on ground, canvas or raised
    QColor selection;   ///< a quiet fill behind what is selected

    QColor valve, lamp, motor, jaw, other;                 ///< fills of cues
    QColor on_valve, on_lamp, on_motor, on_jaw, on_other;  ///< text on them
    QColor sound;                                          ///< waveform, outer envelope
    QColor sound_core;                                     ///< waveform, root mean square
    QColor pressure;                                       ///< curve of the receiver
    QColor stop, warn, note;                               ///< fills of finding marks
    QColor stop_text, warn_text, note_text;                ///< the same as text on ground, canvas or raised

    [[nodiscard]] QColor kind(ChannelKind kind) const;
    /// The outline of a cue, and a sign on the canvas: the fill, darkened where it would be lost on it.
    [[nodiscard]] QColor kind_edge(ChannelKind kind) const;
    [[nodiscard]] QColor on_kind(ChannelKind kind) const;
    [[nodiscard]] QColor severity(Severity severity) const;
    [[nodiscard]] QColor severity_text(Severity severity) const;
};

[[nodiscard]] const Palette& palette(Theme theme);

/// One colour laid over another: `share` 0 leaves the one below, 1 covers it.
[[nodiscard]] QColor mixed(const QColor& below, const QColor& above, double share);

/// Relative luminance and contrast ratio, 1 to 21, as defined by WCAG 2.1.
[[nodiscard]] double relative_luminance(const QColor& colour);
[[nodiscard]] double contrast_ratio(const QColor& one, const QColor& other);

/// Two colours that meet on the screen, and the least contrast they need: 4.5 for text (WCAG 2.1, 1.4.3, AA),
/// 3 for marks and lines that carry meaning (1.4.11).
struct ColourPair {
    const char* what;
    QColor front;
    QColor back;
    double least;
};
[[nodiscard]] std::vector<ColourPair> colour_pairs(const Palette& palette);

}  // namespace gasp
