// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/missing_letters.hpp"

#include "ui/look/type.hpp"
#include "ui/sheet/picture_text.hpp"

#include <QGlyphRun>
#include <QHash>
#include <QTextLayout>

#include <fmt/format.h>

#include <algorithm>
#include <functional>

namespace gasp {

namespace {

bool has_glyph(char32_t letter) {
    QTextLayout layout(QString::fromUcs4(&letter, 1), font(TypeSize::body));
    layout.beginLayout();
    layout.createLine();
    layout.endLayout();
    return std::ranges::none_of(layout.glyphRuns(), [](const QGlyphRun& run) {
        return run.glyphIndexes().contains(0);  // by OpenType, what is drawn for a letter that is not there
    });
}

/// Joiners and variation selectors change what stands beside them; by themselves nothing is painted.
bool is_unseen(char32_t letter) {
    return (letter >= 0x200c && letter <= 0x200e) || (letter >= 0xfe00 && letter <= 0xfe0f);
}

/// Remembers what it has seen: names repeat their letters.
class Letters {
  public:
    [[nodiscard]] bool known(const QString& text) {
        return std::ranges::all_of(text.toUcs4(), [this](char32_t letter) {
            constexpr char32_t last_plain = 0x7e;
            if (letter <= last_plain || is_unseen(letter)) {
                return true;
            }
            const auto seen = seen_.constFind(letter);
            return seen != seen_.constEnd() ? *seen : *seen_.insert(letter, has_glyph(letter));
        });
    }

  private:
    QHash<char32_t, bool> seen_;
};

std::string shortened(const QString& name) {
    constexpr qsizetype most = 40;
    return (name.size() > most ? name.left(most) + QChar(0x2026) : name).toStdString();
}

/// Everything of a show that a builder named, in the order of the pages.
void for_each_name(const Show& show, const std::function<void(const std::string&)>& take) {
    take(show.name);
    for (const Sequence& sequence : show.sequences) {
        take(sequence.name);
        std::ranges::for_each(sequence.cues, take, &Cue::name);
        std::ranges::for_each(sequence.marks, take, &Mark::name);
        std::ranges::for_each(sequence.clips, take, &SoundClip::file);
    }
    std::ranges::for_each(show.rig.actuators, take, &Actuator::name);
    std::ranges::for_each(show.rig.boards, take, &Board::name);
    std::ranges::for_each(show.rig.supplies, take, &Supply::name);
    for (const Channel& channel : show.rig.channels) {
        take(channel.name);
        take(channel.circuit.wire_colour);
        take(channel.circuit.route);
    }
}

}  // namespace

bool can_be_painted(const QString& text) {
    return Letters().known(text);
}

std::optional<std::string> letters_missing(const Show& show) {
    Letters letters;
    std::string first;
    int count = 0;
    for_each_name(show, [&](const std::string& name) {
        if (!letters.known(shown(name))) {
            first = count++ == 0 ? shortened(shown(name)) : first;
        }
    });
    if (count == 0) {
        return std::nullopt;
    }
    return fmt::format(
        "No font on this computer has all letters of \"{}\"{}: a box stands for each that is missing. "
        "Install "
        "a font of that script.",
        first, count > 1 ? fmt::format(" and {} more", count - 1) : "");
}

}  // namespace gasp
