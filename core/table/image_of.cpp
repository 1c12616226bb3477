// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/board_image.hpp"
#include "core/table/image_form.hpp"
#include "core/table/image_room.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr double usual_debounce_ms = 20.0;  // common practice, no source

/// As much of a name as fits, cut between characters of UTF-8.
std::string cut(std::string_view name, std::size_t most) {
    std::size_t size = std::min(name.size(), most);
    while (size < name.size() && size > 0 && (static_cast<unsigned char>(name[size]) & 0xC0U) == 0x80U) {
        --size;
    }
    name = name.substr(0, size);
    return std::string(name.substr(0, name.find('\0')));
}

std::int64_t ticks_up(Micros time, Micros tick) {
    return (time.count() + tick.count() - 1) / tick.count();
}

std::int64_t ticks_up(const Figure& figure, double us, Micros tick) {
    return ticks_up(Micros{std::llround(figure.value_or(0.0) * us)}, tick);
}

/// Makes the image of one board; the first trouble stays in `error_`.
class ImageMaker {
  public:
    ImageMaker(const Show& show, const Board& board) : show_(show), board_(board) {}
    Result<BoardImage> make(std::span<const EventTable> tables);

  private:
    bool refuse(std::string what, std::string remedy);
    bool outputs();
    bool place(const Channel& channel);
    bool head(std::span<const EventTable> tables);
    bool sequence(const EventTable& table);
    bool events(const EventTable& table, ImageSequence& sequence);
    bool fits(std::span<const EventTable> tables);

    const Show& show_;
    const Board& board_;
    BoardImage image_;
    std::vector<const Channel*> channels_;  ///< by output
    std::optional<Error> error_;
};

bool ImageMaker::refuse(std::string what, std::string remedy) {
    error_ = Error{std::move(what), fmt::format("board \"{}\"", board_.name), std::move(remedy)};
    return false;
}

bool ImageMaker::place(const Channel& channel) {
    const std::uint32_t output = *channel.output;
    if (board_.outputs && output > *board_.outputs) {
        return refuse(fmt::format("channel \"{}\" is on output {}, and the board has {}", channel.name,
                                  output, *board_.outputs),
                      "Put it on an output that the board has");
    }
    if (output < 1 || output > most_image_outputs) {
        return refuse(fmt::format("channel \"{}\" is on output {}, and a board plays 1 to {}", channel.name,
                                  output, most_image_outputs),
                      "Put it on another output, or on another board");
    }
    channels_.resize(std::max<std::size_t>(channels_.size(), output));
    if (const Channel* other = channels_[output - 1]) {
        return refuse(fmt::format("channels \"{}\" and \"{}\" are both on output {}", other->name,
                                  channel.name, output),
                      "Give each its own output");
    }
    channels_[output - 1] = &channel;
    return true;
}

bool ImageMaker::outputs() {
    for (const Channel& channel : show_.rig.channels) {
        if (channel.board == board_.id && channel.output && !place(channel)) {
            return false;
        }
    }
    for (const Channel* channel : channels_) {
        ImageOutput& output = image_.outputs.emplace_back();
        if (channel != nullptr) {
            output = {channel->driven_level == DrivenLevel::low, channel->contact == Contact::normally_closed,
                      true};
        }
    }
    return !channels_.empty() ||
           refuse("no channel has an output of this board", "Give a channel this board and an output");
}

bool ImageMaker::head(std::span<const EventTable> tables) {
    const Sensor& sensor = show_.rig.sensor;
    image_.trigger_high = sensor.trigger_level == TriggerLevel::high;
    image_.in_turn = sensor.sharing == TriggerSharing::in_turn;
    image_.hold_to_run = board_.hold_to_run == HoldToRun::yes;
    image_.waits_for_rearm = board_.power_up == PowerUp::waits_for_rearm;
    image_.board = board_.id;
    image_.name = cut(board_.name, image_board_name);
    image_.start = board_.start;
    image_.tick = from_ms(board_.tick_ms.value_or(1.0));
    if (image_.tick.count() < least_image_tick_us || image_.tick.count() > most_image_tick_us) {
        return refuse("its tick is not 0.1 ms to 250 ms", "Set a tick within that");
    }
    image_.warm_up = static_cast<std::uint32_t>(ticks_up(sensor.warm_up_s, 1e6, image_.tick));
    const std::int64_t debounce = ticks_up(sensor.debounce_ms.value_or(usual_debounce_ms), 1e3, image_.tick);
    image_.debounce = static_cast<std::uint16_t>(std::clamp<std::int64_t>(debounce, 1, 65535));
    if (tables.empty() || tables.size() > most_image_sequences) {
        return refuse(fmt::format("it would have {} sequences, and a board plays 1 to {}", tables.size(),
                                  most_image_sequences),
                      "Export fewer, one of them by its name");
    }
    return true;
}

bool ImageMaker::events(const EventTable& table, ImageSequence& sequence) {
    std::vector<std::optional<std::uint8_t>> outputs;
    for (const TableChannel& channel : table.channels) {
        const auto on_it = [&](const Channel* one) { return one != nullptr && one->id == channel.id; };
        const auto found = std::ranges::find_if(channels_, on_it);
        outputs.push_back(found == channels_.end()
                              ? std::nullopt
                              : std::optional(static_cast<std::uint8_t>(found - channels_.begin())));
    }
    for (const EventRow& row : table.changes()) {
        const TableChannel& channel = table.channels[row.channel];
        if (const auto output = outputs[row.channel]) {
            sequence.events.push_back(
                {static_cast<std::uint32_t>(row.time / image_.tick), *output, row.driven});
        } else if (channel.board == board_.name) {
            return refuse(fmt::format("channel \"{}\" has cues and no output", channel.name),
                          "Give it the output it is wired to");
        }
    }
    std::ranges::sort(sequence.events, {},
                      [](const ImageEvent& event) { return std::uint64_t{event.tick} << 8U | event.output; });
    return true;
}

bool ImageMaker::sequence(const EventTable& table) {
    const Sequence* in_show = find(show_, table.sequence_id);
    if (in_show == nullptr) {
        return refuse(fmt::format("the show has no sequence \"{}\"", table.sequence),
                      "Take a table of this show");
    }
    const std::int64_t length = ticks_up(table.length, image_.tick);
    if (length > most_image_length) {
        return refuse(fmt::format("sequence \"{}\" has too many ticks", table.sequence),
                      "Set a longer tick, or shorten the sequence");
    }
    const bool triggered = in_show->kind == SequenceKind::triggered;
    if (triggered && !image_.in_turn &&
        std::ranges::count(image_.sequences, SequenceKind::triggered, &ImageSequence::kind) > 0) {
        return refuse("it has one trigger for several triggered sequences",
                      "Let the sensor's sequences be played in turn, or export one of them by its name");
    }
    ImageSequence& sequence = image_.sequences.emplace_back();
    sequence.id = in_show->id;
    sequence.kind = in_show->kind;
    sequence.length = static_cast<std::uint32_t>(length);
    sequence.name = cut(table.sequence, image_sequence_name);
    if (triggered) {
        sequence.lockout = static_cast<std::uint32_t>(ticks_up(show_.rig.sensor.lockout_s, 1e6, image_.tick));
    }
    return events(table, sequence);
}

/// Says by how much it is too long, and what would fit.
bool ImageMaker::fits(std::span<const EventTable> tables) {
    const ImageRoom room = image_room(show_, tables, board_);
    return room.fits() || refuse(fmt::format("the table takes {} bytes and it has room for {}: {} too many",
                                             room.bytes, *room.has, room.bytes - *room.has),
                                 what_would_fit(room));
}

Result<BoardImage> ImageMaker::make(std::span<const EventTable> tables) {
    bool good = outputs() && head(tables);
    for (std::size_t index = 0; good && index < tables.size(); ++index) {
        good = sequence(tables[index]);
    }
    if (!good || !fits(tables)) {
        return tl::unexpected(*error_);
    }
    return std::move(image_);
}

Result<void> check_start_line(const Show& show) {
    const auto starts_by = [&](BoardStart start) {
        return std::ranges::count(show.rig.boards, start, &Board::start);
    };
    const auto leaders = starts_by(BoardStart::leads_line);
    const auto followers = starts_by(BoardStart::follows_line);
    if (leaders > 1 || (followers > 0 && leaders == 0)) {
        return fail(fmt::format("{} boards lead a start line and {} follow it", leaders, followers), "boards",
                    "Let one lead, and the others follow");
    }
    const Board* first = nullptr;
    for (const Board& board : show.rig.boards) {
        if (board.start == BoardStart::trigger) {
            continue;
        }
        if (first != nullptr && board.tick_ms.value_or(1.0) != first->tick_ms.value_or(1.0)) {
            return fail(fmt::format("\"{}\" and \"{}\" are on one start line and have different ticks",
                                    first->name, board.name),
                        "boards", "Give both the same tick");
        }
        first = first == nullptr ? &board : first;
    }
    return {};
}

/// A number that is the same for all boards of a show and differs as soon as anything in one of them does.
std::uint32_t revision_of(const Show& show, std::span<const EventTable> tables) {
    std::string all;
    for (const Board& board : show.rig.boards) {
        const Result<BoardImage> image = ImageMaker(show, board).make(tables);
        const std::string bytes = image ? write_image(*image) : image.error().text();
        // Without its own CRC: over bytes and their CRC any CRC is the same.
        all += image ? bytes.substr(0, bytes.size() - image_crc) : bytes;
    }
    return crc32_of(all);
}

}  // namespace

Result<BoardImage> image_of(const Show& show, std::span<const EventTable> tables, BoardId id) {
    const Board* board = find(show, id);
    if (board == nullptr) {
        return fail("the show has no such board", fmt::format("board {}", id.value),
                    "Choose one of its boards");
    }
    if (Result<void> line = check_start_line(show); !line) {
        return tl::unexpected(line.error());
    }
    Result<BoardImage> image = ImageMaker(show, *board).make(tables);
    if (image) {
        image->revision = revision_of(show, tables);
    }
    return image;
}

}  // namespace gasp
