// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/link_client.hpp"

#include <algorithm>
#include <stdexcept>

#include "player/frame.h"

namespace gasp::board_test {

Bytes u32_bytes(std::uint32_t value) {
    Bytes bytes;
    for (int i = 0; i < 4; ++i) {
        bytes.push_back(static_cast<std::uint8_t>(value >> (8 * i)));
    }
    return bytes;
}

Bytes frame_of(std::uint8_t version, std::uint8_t type, std::uint8_t sequence, const Bytes& payload) {
    gb_frame frame{};
    frame.bytes[gb_frame_version] = version;
    frame.bytes[gb_frame_type] = type;
    frame.bytes[gb_frame_sequence] = sequence;
    std::ranges::copy(payload, frame.bytes + gb_frame_payload);
    frame.count = static_cast<std::uint8_t>(payload.size());
    gb_frame_close(&frame);
    return {frame.bytes, frame.bytes + frame.count};
}

Bytes frame_in(const Bytes& line) {
    gb_frame frame{};
    gb_frame_begin(&frame);
    for (const std::uint8_t byte : line) {
        if (gb_frame_take(&frame, byte)) {
            if (gb_frame_open(&frame)) {
                return {frame.bytes + gb_frame_version, frame.bytes + gb_frame_payload + frame.count};
            }
            gb_frame_begin(&frame);
        }
    }
    return {};
}

Answer LinkClient::exchange() {
    const Bytes bytes = frame_in(chip_.received());
    const Bytes asked = frame_in(last_);
    if (bytes.size() < 4 || bytes[0] != 1 || bytes[1] != (asked[1] | 0x80) || bytes[2] != asked[2]) {
        throw std::runtime_error("an answer that is none");
    }
    return {bytes[3], Bytes(bytes.begin() + 4, bytes.end())};
}

std::optional<Answer> LinkClient::try_ask(Ask type, const Bytes& payload, double most_us) {
    last_ = frame_of(1, static_cast<std::uint8_t>(type), ++sequence_, payload);
    chip_.send(last_);
    if (!chip_.run_until_frame(most_us)) {
        return std::nullopt;
    }
    return exchange();
}

Answer LinkClient::ask(Ask type, const Bytes& payload, double most_us) {
    if (auto answer = try_ask(type, payload, most_us)) {
        return *answer;
    }
    throw std::runtime_error("no answer");
}

Answer LinkClient::ask_again() {
    chip_.send(last_);
    if (!chip_.run_until_frame(250'000.0)) {
        throw std::runtime_error("no answer");
    }
    return exchange();
}

namespace {

Bytes load_of(const Bytes& image) {
    Bytes payload = u32_bytes(static_cast<std::uint32_t>(image.size()));
    payload.insert(payload.end(), image.end() - 4, image.end());
    return payload;
}

}  // namespace

void LinkClient::load_part(const Bytes& image, unsigned chunks) {
    constexpr std::size_t chunk_bytes = 128;
    const Answer begun = ask(Ask::begin, load_of(image));
    if (begun.result != 0) {
        throw std::runtime_error("begin refused");
    }
    for (std::size_t at = begun.u32(0); at < image.size() && chunks > 0; --chunks) {
        Bytes payload = u32_bytes(static_cast<std::uint32_t>(at));
        const auto end = std::min(at + chunk_bytes, image.size());
        payload.insert(payload.end(), image.begin() + static_cast<std::ptrdiff_t>(at),
                       image.begin() + static_cast<std::ptrdiff_t>(end));
        const Answer answer = ask(Ask::chunk, payload);
        if (answer.result != 0) {
            throw std::runtime_error("chunk refused");
        }
        at = answer.u32(0);
    }
}

std::uint8_t LinkClient::load(const Bytes& image) {
    load_part(image, 100'000);
    return ask(Ask::commit, load_of(image)).result;
}

Bytes LinkClient::read_back(std::uint32_t length) {
    Bytes all;
    while (all.size() < length) {
        Bytes payload = u32_bytes(static_cast<std::uint32_t>(all.size()));
        payload.push_back(static_cast<std::uint8_t>(std::min<std::size_t>(128, length - all.size())));
        const Answer answer = ask(Ask::read_back, payload);
        if (answer.result != 0) {
            throw std::runtime_error("read back refused");
        }
        all.insert(all.end(), answer.more.begin(), answer.more.end());
    }
    return all;
}

Bytes LinkClient::arm() {
    const Answer answer = ask(Ask::arm);
    if (answer.result != 0) {
        throw std::runtime_error("arm refused");
    }
    return answer.more;
}

std::vector<Entry> read_log(LinkClient& link) {
    std::vector<Entry> entries;
    for (std::uint32_t kept = 1; entries.size() < kept;) {
        const auto index = static_cast<std::uint16_t>(entries.size());
        const Answer answer =
            link.ask(Ask::log, {static_cast<std::uint8_t>(index), static_cast<std::uint8_t>(index >> 8)});
        kept = answer.u16(0);
        for (std::size_t at = 2; at + 6 <= answer.more.size(); at += 6) {
            entries.push_back({answer.u8(at), answer.u8(at + 1), answer.u32(at + 2)});
        }
        if (answer.more.size() == 2) {
            break;
        }
    }
    return entries;
}

}  // namespace gasp::board_test
