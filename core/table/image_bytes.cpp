// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/board_image.hpp"
#include "core/table/image_form.hpp"

#include "player/crc.h"

namespace gasp {

namespace {

void put(std::string& bytes, std::size_t size, std::uint64_t value) {
    for (std::size_t place = 0; place < size; ++place) {
        bytes += static_cast<char>(value >> (8 * place));
    }
}

void put_name(std::string& bytes, std::string_view name, std::size_t size) {
    bytes += name.substr(0, size);
    bytes.append(size - std::min(size, name.size()), '\0');
}

std::uint8_t bits(std::initializer_list<bool> flags) {
    unsigned value = 0;
    unsigned bit = 1;
    for (const bool flag : flags) {
        value |= flag ? bit : 0;
        bit <<= 1;
    }
    return static_cast<std::uint8_t>(value);
}

void put_head(std::string& bytes, const BoardImage& image) {
    bytes += image_magic;
    put(bytes, 1, image_version);
    put(bytes, 1, bits({image.trigger_high, image.in_turn, image.hold_to_run, image.waits_for_rearm}));
    put(bytes, 1, image.outputs.size());
    put(bytes, 1, image.sequences.size());
    put(bytes, 4, bytes_of(image));
    put(bytes, 4, image.revision);
    put(bytes, 4, image.board.value);
    put(bytes, 4, static_cast<std::uint64_t>(image.tick.count()));
    put(bytes, 4, image.warm_up);
    put(bytes, 2, image.debounce);
    put(bytes, 1, static_cast<std::uint64_t>(image.start));
    put(bytes, 1, 0);
    put_name(bytes, image.name, image_board_name);
}

void put_sequence(std::string& bytes, const ImageSequence& sequence, std::size_t first_event) {
    put(bytes, 4, sequence.id.value);
    put(bytes, 1, static_cast<std::uint64_t>(sequence.kind));
    put(bytes, 3, 0);
    put(bytes, 4, sequence.length);
    put(bytes, 4, sequence.lockout);
    put(bytes, 4, sequence.events.size());
    put(bytes, 4, first_event);
    put_name(bytes, sequence.name, image_sequence_name);
}

}  // namespace

std::uint32_t crc32_of(std::string_view bytes) {
    std::uint32_t crc = GB_CRC32_BEGIN;
    for (const char byte : bytes) {
        crc = gb_crc32(crc, static_cast<std::uint8_t>(byte));
    }
    return ~crc;
}

std::size_t bytes_of(const BoardImage& image) {
    std::size_t size =
        image_head + image.outputs.size() + image.sequences.size() * image_sequence + image_crc;
    for (const ImageSequence& sequence : image.sequences) {
        size += sequence.events.size() * image_event;
    }
    return size;
}

std::string write_image(const BoardImage& image) {
    std::string bytes;
    bytes.reserve(bytes_of(image));
    put_head(bytes, image);
    for (const ImageOutput& output : image.outputs) {
        put(bytes, 1, bits({output.low, output.normally_closed, output.used}));
    }
    std::size_t event = bytes.size() + image.sequences.size() * image_sequence;
    for (const ImageSequence& sequence : image.sequences) {
        put_sequence(bytes, sequence, event);
        event += sequence.events.size() * image_event;
    }
    for (const ImageSequence& sequence : image.sequences) {
        for (const ImageEvent& one : sequence.events) {
            put(bytes, 4, one.tick);
            put(bytes, 1, one.output);
            put(bytes, 1, one.driven ? 1 : 0);
        }
    }
    put(bytes, 4, crc32_of(bytes));
    return bytes;
}

}  // namespace gasp
