// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/pack_words.hpp"

#include "core/units/rounded.hpp"
#include "ui/sheet/picture_text.hpp"

namespace gasp {

QString text_of(std::string_view utf8) {
    return shown(utf8);
}

QString time_text(Micros time) {
    return QString::fromStdString(print_time(time));
}

QString span_text(Micros time) {
    return QString::fromStdString(print_duration(time));
}

QString figure_text(Quantity quantity, const Figure& figure, UnitSystem units) {
    return figure ? QString::fromStdString(print_quantity(quantity, *figure, units)) : QString(QChar(0x2013));
}

QString rounded_text(Quantity quantity, double value, UnitSystem units, int digits) {
    return QString::fromStdString(print_rounded(quantity, value, units, digits));
}

QString name_of(const Cue& cue) {
    return cue.name.empty() ? QStringLiteral("cue %1").arg(cue.id.value) : shown(cue.name);
}

QString output_text(const Show& show, const Channel& channel) {
    const Board* board = channel.board ? find(show, *channel.board) : nullptr;
    const QString output = channel.output ? QString::number(*channel.output) : QStringLiteral("no output");
    return board != nullptr ? shown(board->name) + ' ' + output : output;
}

QString place_text(const Show& show, const Finding& finding) {
    const Sequence* sequence = finding.place.sequence ? find(show, *finding.place.sequence) : nullptr;
    QString text = sequence != nullptr ? shown(sequence->name) : QString();
    if (finding.place.time) {
        text += (text.isEmpty() ? "" : " ") + time_text(*finding.place.time);
    }
    return text.isEmpty() ? QStringLiteral("rig") : text;
}

}  // namespace gasp
