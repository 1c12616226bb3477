// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/image_listing.hpp"

#include "core/show/fields.hpp"
#include "core/table/board_image.hpp"
#include "core/table/image_form.hpp"
#include "core/units/time.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gasp {

namespace {

constexpr std::size_t bytes_a_line = 8;

/// Walks through the bytes; each call takes some and says what they mean.
class Listing {
  public:
    Listing(std::string_view bytes, std::size_t most) : bytes_(bytes), most_(most) {}

    void take(std::size_t size, std::string_view meaning) {
        for (std::size_t done = 0; done < size; done += bytes_a_line) {
            const std::string_view part = bytes_.substr(place_, std::min(bytes_a_line, size - done));
            std::string hex;
            for (const char byte : part) {
                hex += fmt::format("{:02x} ", static_cast<unsigned char>(byte));
            }
            text_ +=
                fmt::format("{:06x}  {:<{}} {}\n", place_, hex, bytes_a_line * 3, done == 0 ? meaning : "");
            place_ += part.size();
        }
    }
    [[nodiscard]] bool full() const { return text_.size() > most_; }
    [[nodiscard]] std::string text() && { return std::move(text_); }
    void say(std::string_view line) { text_ += fmt::format("{}\n", line); }

  private:
    std::string_view bytes_;
    std::size_t most_;
    std::size_t place_ = 0;
    std::string text_;
};

std::string time_of(std::uint32_t ticks, Micros tick) {
    return print_duration(ticks * tick);
}

void list_head(Listing& listing, const BoardImage& image, std::size_t size) {
    listing.take(4, "a table image of a board");
    listing.take(1, fmt::format("form {}", image_version));
    listing.take(
        1, fmt::format("trigger is {}; it plays {}{}{}", image.trigger_high ? "high" : "low",
                       image.in_turn ? "the triggered sequences in turn" : "the first triggered sequence",
                       image.hold_to_run ? "; only while the hold-to-run input is held" : "",
                       image.waits_for_rearm ? "; waits for re-arm after power-up" : ""));
    listing.take(1, fmt::format("outputs: {}", image.outputs.size()));
    listing.take(1, fmt::format("sequences: {}", image.sequences.size()));
    listing.take(4, fmt::format("length: {} bytes", size));
    listing.take(4, fmt::format("revision of the show: {:08x}", image.revision));
    listing.take(4, fmt::format("id of the board: {}", image.board.value));
    listing.take(4, fmt::format("tick: {}", print_duration(image.tick)));
    listing.take(4, fmt::format("warm-up: {}", time_of(image.warm_up, image.tick)));
    listing.take(2, fmt::format("debounce: {}", time_of(image.debounce, image.tick)));
    const auto start = static_cast<std::size_t>(image.start);
    listing.take(1, fmt::format("runs start by: {}", fields<Board>().choices.front().labels[start]));
    listing.take(1, "");
    listing.take(image_board_name, fmt::format("board \"{}\"", image.name));
}

void list_sequence(Listing& listing, const ImageSequence& sequence, Micros tick) {
    listing.take(4, fmt::format("sequence \"{}\", id {}", sequence.name, sequence.id.value));
    const auto kind = static_cast<std::size_t>(sequence.kind);
    listing.take(4, sequence_kind_labels()[kind]);
    listing.take(4, fmt::format("length: {}", time_of(sequence.length, tick)));
    listing.take(4, fmt::format("lockout: {}", time_of(sequence.lockout, tick)));
    listing.take(4, fmt::format("events: {}", sequence.events.size()));
    listing.take(4, "where they begin");
    listing.take(image_sequence_name, "its name");
}

void list_events(Listing& listing, const BoardImage& image) {
    for (const ImageSequence& sequence : image.sequences) {
        for (const ImageEvent& event : sequence.events) {
            if (listing.full()) {
                listing.say("(The rest is not shown here; it is saved.)");
                return;
            }
            listing.take(image_event, fmt::format("{} output {} {}", print_time(event.tick * image.tick),
                                                  event.output + 1, event.driven ? "driven" : "at rest"));
        }
    }
    listing.take(image_crc, "CRC-32 of all before");
}

}  // namespace

std::string image_listing(std::string_view bytes, std::size_t most) {
    Listing listing(bytes, most);
    const Result<BoardImage> image = read_image(bytes, "image");
    if (!image) {
        listing.say(image.error().text());
        listing.take(std::min(bytes.size(), most / 4), "");
        return std::move(listing).text();
    }
    list_head(listing, *image, bytes.size());
    for (std::size_t output = 0; output < image->outputs.size(); ++output) {
        const ImageOutput& one = image->outputs[output];
        listing.take(1, fmt::format("output {}: {}", output + 1,
                                    one.used ? fmt::format("{} drives it, {}", one.low ? "low" : "high",
                                                           one.normally_closed ? "NC" : "NO")
                                             : "not used"));
    }
    for (const ImageSequence& sequence : image->sequences) {
        list_sequence(listing, sequence, image->tick);
    }
    list_events(listing, *image);
    return std::move(listing).text();
}

}  // namespace gasp
