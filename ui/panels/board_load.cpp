// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/board_load.hpp"

#include "core/checks/check.hpp"
#include "core/schedule/schedule.hpp"
#include "core/table/board_image.hpp"

#include <string>
#include <utility>

namespace gasp {
namespace {

/// What a board is to play: all sequences of the show.
std::vector<EventTable> tables_of_show(const Show& show) {
    std::vector<EventTable> tables;
    for (const Sequence& sequence : show.sequences) {
        tables.push_back(tabulate(show, sequence, resolve(show, sequence)));
    }
    return tables;
}

Result<std::string> image_bytes(const Show& show, std::span<const EventTable> tables, BoardId board) {
    return image_of(show, tables, board).map([](const BoardImage& image) { return write_image(image); });
}

/// Empty as well once it is cancelled.
std::vector<Finding> stops_against(const Show& show, const std::atomic<bool>& cancel) {
    CheckSetting setting;
    setting.stopped = [&cancel] { return cancel.load(); };
    std::vector<Finding> stops = check(show, setting);
    std::erase_if(stops, [](const Finding& finding) { return finding.severity != Severity::stop; });
    return stops;
}

/// The CRC an image ends on, which is of all before it.
std::uint32_t crc_in(const std::string& image) {
    constexpr std::size_t crc_bytes = 4;
    return crc32_of(std::string_view(image).substr(0, image.size() - crc_bytes));
}

}  // namespace

WantedTable wanted_table(const Show& show, BoardId board) {
    const std::vector<EventTable> tables = tables_of_show(show);
    const Result<std::string> image = image_bytes(show, tables, board);
    const Board* found = find(show, board);
    return {image ? std::optional(crc_in(*image)) : std::nullopt,
            found != nullptr ? image_room(show, tables, *found) : ImageRoom{}};
}

Result<BoardLoad> load_board(const Show& show, BoardId board, const BoardTalk::Loader& loader,
                             bool despite_stops, const std::atomic<bool>& cancel,
                             const std::function<void(double share)>& progress) {
    const Result<std::string> image = image_bytes(show, tables_of_show(show), board);
    if (!image) {
        return tl::unexpected(image.error());
    }
    if (!despite_stops) {
        if (std::vector<Finding> stops = stops_against(show, cancel); !stops.empty()) {
            return BoardLoad{{}, 0, std::move(stops)};
        }
    }
    return loader(*image, cancel, progress).map([&](const LoadReport& report) {
        return BoardLoad{report, crc_in(*image), {}};
    });
}

}  // namespace gasp
