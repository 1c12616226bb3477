// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/board_image.hpp"
#include "core/table/image_form.hpp"

#include <fmt/format.h>

#include <optional>

namespace gasp {

namespace {

/// Takes an image apart from its front. After a refusal nothing more is read.
class ImageReader {
  public:
    ImageReader(std::string_view bytes, std::string_view name) : bytes_(bytes), name_(name) {}
    Result<BoardImage> read();

  private:
    std::uint32_t number(std::size_t size);
    std::string text(std::size_t size);
    bool refuse(std::string what);
    bool require(bool holds, std::string_view what) { return holds || refuse(std::string(what)); }
    bool frame();
    bool head();
    bool outputs();
    bool sequence(ImageSequence& sequence, std::size_t& events_before);
    bool events(ImageSequence& sequence, std::uint32_t count);

    std::string_view bytes_;
    std::string_view name_;
    std::size_t place_ = 0;
    BoardImage image_;
    std::vector<std::uint32_t> counts_;  ///< of the events of each sequence
    std::optional<Error> error_;
};

bool ImageReader::refuse(std::string what) {
    error_ = Error{std::move(what), fmt::format("{}, byte {}", name_, place_), "Write the image again"};
    return false;
}

std::uint32_t ImageReader::number(std::size_t size) {
    std::uint32_t value = 0;
    for (std::size_t byte = 0; byte < size; ++byte) {
        value |= std::uint32_t{static_cast<std::uint8_t>(bytes_[place_ + byte])} << (8 * byte);
    }
    place_ += size;
    return value;
}

std::string ImageReader::text(std::size_t size) {
    const std::string_view field = bytes_.substr(place_, size);
    place_ += size;
    return std::string(field.substr(0, field.find('\0')));
}

/// What makes it an image at all: first bytes, version, length and CRC.
bool ImageReader::frame() {
    if (!require(bytes_.starts_with(image_magic), "this is no table image of a board") ||
        !require(bytes_.size() >= image_head + 1 + image_sequence + image_crc, "the image is cut short")) {
        return false;
    }
    place_ = image_magic.size();
    if (number(1) != image_version) {
        --place_;
        return refuse("the image is of a version this program does not know");
    }
    place_ = 8;
    if (!require(number(4) == bytes_.size(), "the image is not as long as it says")) {
        return false;
    }
    place_ = bytes_.size() - image_crc;
    return require(crc32_of(bytes_.substr(0, place_)) == number(4), "the image is damaged: its CRC is wrong");
}

bool ImageReader::head() {
    place_ = 5;
    const std::uint32_t flags = number(1);
    image_.trigger_high = (flags & 1U) != 0;
    image_.in_turn = (flags & 2U) != 0;
    image_.hold_to_run = (flags & 4U) != 0;
    image_.waits_for_rearm = (flags & 8U) != 0;
    const std::uint32_t outputs = number(1);
    const std::uint32_t sequences = number(1);
    place_ = 12;
    image_.revision = number(4);
    image_.board.value = number(4);
    image_.tick = Micros{number(4)};
    image_.warm_up = number(4);
    image_.debounce = static_cast<std::uint16_t>(number(2));
    const std::uint32_t start = number(1);
    const std::uint32_t zero = number(1);
    image_.start = static_cast<BoardStart>(start);
    image_.name = text(image_board_name);
    image_.outputs.resize(outputs);
    image_.sequences.resize(sequences);
    return require(flags < 16 && start <= 2 && zero == 0, "the head has a bit that means nothing") &&
           require(outputs >= 1 && outputs <= most_image_outputs, "it has not 1 to 32 outputs") &&
           require(sequences >= 1 && sequences <= most_image_sequences, "it has not 1 to 16 sequences") &&
           require(image_.tick.count() >= least_image_tick_us && image_.tick.count() <= most_image_tick_us,
                   "the tick is not 0.1 ms to 250 ms") &&
           require(image_.debounce >= 1, "the debounce is 0") &&
           require(place_ + outputs + sequences * image_sequence + image_crc <= bytes_.size(),
                   "the image is too short for its sequences");
}

bool ImageReader::outputs() {
    for (ImageOutput& output : image_.outputs) {
        const std::uint32_t bits = number(1);
        if (!require(bits < 8, "the output has a bit that means nothing")) {
            return false;
        }
        output = {(bits & 1U) != 0, (bits & 2U) != 0, (bits & 4U) != 0};
    }
    return true;
}

bool ImageReader::sequence(ImageSequence& sequence, std::size_t& event) {
    sequence.id.value = number(4);
    const std::uint32_t kind = number(1);
    sequence.kind = static_cast<SequenceKind>(kind);
    const std::uint32_t zero = number(3);
    sequence.length = number(4);
    sequence.lockout = number(4);
    counts_.push_back(number(4));
    const std::uint32_t first = number(4);
    sequence.name = text(image_sequence_name);
    if (!require(kind <= 2 && zero == 0, "the sequence has a bit that means nothing") ||
        !require(sequence.length >= 1 && sequence.length <= most_image_length,
                 "the length of the sequence is not 1 to 2147483647 ticks") ||
        !require(sequence.lockout == 0 || sequence.kind == SequenceKind::triggered,
                 "a sequence that is not triggered has a lockout") ||
        !require(first == event, "the events do not begin where they should")) {
        return false;
    }
    event += std::size_t{counts_.back()} * image_event;
    return require(event + image_crc <= bytes_.size(), "the image is too short for its events");
}

bool ImageReader::events(ImageSequence& sequence, std::uint32_t count) {
    std::vector<bool> driven(image_.outputs.size());
    std::uint64_t before = 0;
    sequence.events.reserve(count);
    for (std::uint32_t done = 0; done < count; ++done) {
        const ImageEvent event{number(4), static_cast<std::uint8_t>(number(1)), bytes_[place_] != 0};
        const std::uint32_t level = number(1);
        const std::uint64_t order = (std::uint64_t{event.tick} << 8U | event.output) + 1;
        if (!require(event.output < driven.size() && image_.outputs[event.output].used,
                     "the event is of an output that is not used") ||
            !require(level <= 1 && driven[event.output] != event.driven, "the event changes nothing") ||
            !require(event.tick < sequence.length || (event.tick == sequence.length && !event.driven),
                     "the event is beyond the sequence") ||
            !require(order > before, "the events are out of order")) {
            return false;
        }
        before = order;
        driven[event.output] = event.driven;
        sequence.events.push_back(event);
    }
    return require(driven == std::vector<bool>(driven.size()), "an output is still driven at the end");
}

Result<BoardImage> ImageReader::read() {
    bool good = frame() && head() && outputs();
    std::size_t event = place_ + image_.sequences.size() * image_sequence;
    for (std::size_t index = 0; good && index < image_.sequences.size(); ++index) {
        good = sequence(image_.sequences[index], event);
    }
    good = good && require(event + image_crc == bytes_.size(), "something stands behind the events");
    for (std::size_t index = 0; good && index < image_.sequences.size(); ++index) {
        good = events(image_.sequences[index], counts_[index]);
    }
    if (!good) {
        return tl::unexpected(*error_);
    }
    return std::move(image_);
}

}  // namespace

Result<BoardImage> read_image(std::string_view bytes, std::string_view name) {
    return ImageReader(bytes, name).read();
}

}  // namespace gasp
