// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/fields.hpp"
#include "ui/sheet/pack/pack_parts.hpp"
#include "ui/sheet/pack/pack_words.hpp"

#include <algorithm>
#include <limits>
#include <tuple>

namespace gasp {

namespace {

std::size_t place_of(const Show& show, const Channel& channel) {
    const auto board = std::ranges::find(show.rig.boards, channel.board,
                                         [](const Board& one) { return std::optional(one.id); });
    return channel.board ? static_cast<std::size_t>(board - show.rig.boards.begin())
                         : std::numeric_limits<std::size_t>::max();
}

QString start_text(StartLevel level) {
    switch (level) {
        case StartLevel::rest:
            return QStringLiteral("stays at rest");
        case StartLevel::driven:
            return QStringLiteral("is driven");
        case StartLevel::unknown:
            break;
    }
    return QStringLiteral("not known: measure it");
}

QString does_text(const Show& show, const Channel& channel) {
    const Actuator* actuator = channel.actuator ? find(show, *channel.actuator) : nullptr;
    if (channel.kind == ChannelKind::valve && actuator != nullptr) {
        return text_of(actuator->name) + (channel.coil == Coil::out ? " out" : " back");
    }
    return text_of(fields<Channel>().choices.front().labels[static_cast<std::size_t>(channel.kind)])
        .toLower();
}

PackRow row_of(const Show& show, const Channel& channel) {
    const bool closes = channel.contact == Contact::normally_open;
    const Board* board = channel.board ? find(show, *channel.board) : nullptr;
    return {board != nullptr ? text_of(board->name) : QStringLiteral("no board"),
            channel.output ? QString::number(*channel.output) : QString(QChar(0x2013)),
            text_of(channel.name),
            does_text(show, channel),
            channel.driven_level == DrivenLevel::high ? "high" : "low",
            closes ? "closes when driven (NO)" : "opens when driven (NC)",
            closes ? "no power" : "power",
            start_text(channel.start_level)};
}

QString facts_of(const Board& board) {
    QString text = text_of(board.name);
    if (board.outputs) {
        text += QStringLiteral(", %1 outputs").arg(*board.outputs, 0, 'f', 0);
    }
    text += QStringLiteral(", a step of %1 ms").arg(board.tick_ms.value_or(1.0), 0, 'g', 4);
    text += ", started by " +
            text_of(fields<Board>().choices.front().labels[static_cast<std::size_t>(board.start)])
                .replace(0, 1, QStringLiteral("t"));
    text += board.hold_to_run == HoldToRun::yes ? ", runs only while its input is held" : "";
    text += board.power_up == PowerUp::waits_for_rearm ? ", waits for its re-arm button after power-up"
                                                       : ", ready as soon as it has power";
    return text + '.';
}

}  // namespace

void add_boards(PackFlow& flow, const PackSource& source) {
    const Show& show = source.content.show;
    if (show.rig.channels.empty()) {
        return;
    }
    flow.section(QStringLiteral("Board connections"), true);
    flow.heading(QStringLiteral("Board connections"));
    for (const Board& board : show.rig.boards) {
        flow.paragraph(facts_of(board));
    }
    std::vector<const Channel*> channels;
    for (const Channel& channel : show.rig.channels) {
        channels.push_back(&channel);
    }
    std::ranges::stable_sort(channels, {}, [&](const Channel* channel) {
        return std::tuple(place_of(show, *channel),
                          channel->output.value_or(std::numeric_limits<std::uint32_t>::max()));
    });
    std::vector<PackRow> rows;
    for (const Channel* channel : channels) {
        rows.push_back(row_of(show, *channel));
    }
    flow.table({{"Board", 0, 2},
                {"Output", 120, 0, true, true},
                {"Channel", 0, 2.4, false, true},
                {"Works", 0, 2},
                {"Level", 110},
                {"Contact", 0, 2.2},
                {"Load at rest", 220},
                {"While the board starts it", 0, 2}},
               rows);
    flow.paragraph(
        QStringLiteral("Label both ends of each wire before anything is dressed. Try each output with the "
                       "air off, one after the other, against this table."),
        {PrintSize::small, false, true});
}

}  // namespace gasp
