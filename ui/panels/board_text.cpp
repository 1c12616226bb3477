// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/board_text.hpp"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>

namespace gasp {

namespace {

QString tr(const char* words) {
    return QCoreApplication::translate("gasp::BoardPanel", words);
}

QString text_of(std::string_view words) {
    return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}

/// Why a board that is new has no table: its store holds nothing yet.
constexpr std::uint8_t erased = 2;

FigureLine table_line(const BoardIdentity& board, std::optional<std::uint32_t> wanted) {
    FigureLine line{tr("table"), tr("none"), {}, Severity::warn};
    if (board.image == 1) {
        line.figure = tr("%1 bytes").arg(board.image_bytes);
        const bool same = wanted && *wanted == board.image_crc;
        line.beside = !wanted ? tr("of which show is not known")
                      : same  ? tr("\u2713 the one of this show")
                              : tr("not the one of this show as it is now");
        line.severity = same ? std::nullopt : std::optional(wanted ? Severity::warn : Severity::note);
    } else if (board.image > erased) {
        line.figure = tr("bad");
        line.beside = text_of(reason_words(board.image));
        line.severity = Severity::stop;
    }
    return line;
}

FigureLine taken_line(const BoardIdentity& board, const ImageRoom& room) {
    FigureLine line{tr("this show takes"), tr("%1 bytes").arg(room.bytes), {}, {}};
    if (room.bytes > board.store) {
        line.beside = tr("%1 too many").arg(room.bytes - board.store);
        line.severity = Severity::stop;
    } else {
        line.beside = tr("%1 events").arg(room.events());
    }
    return line;
}

bool stopped(BoardState state) {
    return state == BoardState::stopped_output_enable || state == BoardState::stopped_wants_rearm ||
           state == BoardState::stopped_by_link;
}

QString name_of(const Show& show, std::uint8_t index) {
    return index < show.sequences.size() ? QString::fromStdString(show.sequences[index].name)
                                         : QString::number(index + 1);
}

QString seconds_of(std::uint32_t ticks, Micros tick) {
    return QString::fromStdString(print_duration(tick * static_cast<Micros::rep>(ticks)));
}

}  // namespace

QString stops_line(const std::vector<Finding>& stops) {
    constexpr std::size_t most_named = 1;  // the list of findings has them all
    QStringList named;
    for (std::size_t i = 0; i < std::min(stops.size(), most_named); ++i) {
        named << QString::fromStdString(stops[i].what);
    }
    const QString more =
        stops.size() > most_named ? tr("; and %1 more").arg(stops.size() - most_named) : QString();
    return tr("Not loaded. Open stop findings: %1. %2%3. Mend them, or press \u201cLoad all the same\u201d.")
        .arg(stops.size())
        .arg(named.join("; "), more);
}

std::vector<FigureLine> identity_lines(const BoardIdentity& board, const WantedTable& wanted) {
    std::vector<FigureLine> lines{
        {tr("chip"),
         QString::fromStdString(board.chip),
         tr("player %1.%2").arg(board.player_version >> 8).arg(board.player_version & 0xFF),
         {}},
        {tr("outputs"), QString::number(board.outputs), {}, {}},
        {tr("room for"), tr("%1 bytes").arg(board.store), {}, {}}};
    if (wanted.room.bytes > 0) {
        lines.push_back(taken_line(board, wanted.room));
    }
    lines.push_back(table_line(board, wanted.crc));
    lines.push_back({tr("power-ups"), QString::number(board.power_ups), {}, {}});
    return lines;
}

std::vector<FigureLine> status_lines(const BoardStatus& status, const Show& show, Micros tick) {
    std::vector<FigureLine> lines;
    lines.push_back({tr("state"), text_of(words(status.state)),
                     status.running() ? name_of(show, status.sequence) : QString(),
                     stopped(status.state) ? std::optional(Severity::warn) : std::nullopt});
    if (status.lockout_ticks > 0) {
        lines.push_back({tr("lockout"), seconds_of(status.lockout_ticks, tick), tr("left"), {}});
    }
    if (status.warm_up_ticks > 0) {
        lines.push_back({tr("warm-up"), seconds_of(status.warm_up_ticks, tick), tr("left"), {}});
    }
    lines.push_back({tr("triggers"),
                     QString::number(status.triggers),
                     tr("and %1 refused, since the log was cleared").arg(status.refusals),
                     {}});
    lines.push_back({tr("faults"),
                     QString::number(status.faults),
                     {},
                     status.faults > 0 ? std::optional(Severity::warn) : std::nullopt});
    lines.push_back({tr("power on for"), up_time(status.up_s), {}, {}});
    return lines;
}

FigureLine latency_line(const LinkLatency& latency) {
    const auto ms = [](std::chrono::microseconds time) {
        return QString::number(static_cast<double>(time.count()) / 1000.0, 'f', 1);
    };
    return {tr("link, there and back"),
            tr("%1 ms").arg(ms(latency.median)),
            tr("%1 to %2 ms in %3 tries").arg(ms(latency.least), ms(latency.most)).arg(latency.answers),
            {}};
}

FigureLine sound_line(Micros ahead) {
    const double ms = static_cast<double>(std::chrono::abs(ahead).count()) / 1000.0;
    return {tr("sound"),
            tr("%1 ms").arg(ms, 0, 'f', 1),
            ahead.count() >= 0 ? tr("ahead of the board") : tr("behind the board"),
            {}};
}

QString up_time(std::uint32_t seconds) {
    const auto two = [](std::uint32_t number) { return QStringLiteral("%1").arg(number, 2, 10, QChar('0')); };
    if (seconds < 3600) {
        return tr("%1 min %2 s").arg(seconds / 60).arg(two(seconds % 60));
    }
    return tr("%1 h %2 min %3 s").arg(seconds / 3600).arg(two(seconds / 60 % 60), two(seconds % 60));
}

}  // namespace gasp
