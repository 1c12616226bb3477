// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/link/board_in_process.hpp"

#include <algorithm>
#include <cstring>

extern "C" {
#include "player/image.h"
#include "player/link.h"
#include "player/log.h"
#include "player/player.h"
#include "player/port.h"
}

namespace {

gasp::testing::BoardInProcess* board = nullptr;

}  // namespace

extern "C" {

void gb_port_store_read(gb_at at, void* to, uint8_t count) {
    std::memset(to, 0xFF, count);
    if (at < board->store_.size()) {
        std::memcpy(to, board->store_.data() + at, std::min<std::size_t>(count, board->store_.size() - at));
    }
}

bool gb_port_store_write(gb_at at, const uint8_t* bytes, uint8_t count) {
    std::memcpy(board->store_.data() + at, bytes, count);
    return true;
}

void gb_port_nv_read(uint16_t at, void* to, uint8_t count) {
    std::memcpy(to, board->kept_.data() + at, count);
}

void gb_port_nv_write(uint16_t at, const void* from, uint8_t count) {
    std::memcpy(board->kept_.data() + at, from, count);
}

void gb_port_levels(gb_mask levels) {
    board->levels_ = levels;
}

void gb_port_outputs(gb_mask, gb_mask levels) {
    board->levels_ = levels;
}

void gb_port_line(bool) {}

void gb_port_use(const struct gb_image* image) {
    board->tick_us_ = image->head.tick_us;
}

uint32_t gb_port_clock_us(void) {
    return static_cast<std::uint32_t>(board->clock_us_);
}

uint32_t gb_port_seconds(void) {
    return static_cast<std::uint32_t>((board->clock_us_ - board->since_power_up_) / 1'000'000);
}

gb_lock gb_port_lock(void) {
    return 0;
}

void gb_port_unlock(gb_lock) {}

void gb_port_alive(void) {}

void gb_port_put(uint8_t byte) {
    board->to_host_.push_back(byte);
}
}

namespace gasp::testing {

BoardInProcess::BoardInProcess() : store_(GB_STORE_BYTES, 0xFF), kept_(GB_NV_BYTES, 0xFF) {
    board = this;
    power_cycle();
}

BoardInProcess::~BoardInProcess() {
    board = nullptr;
}

void BoardInProcess::power_cycle() {
    // What a chip forgets without power, a process keeps: what was armed lapses first.
    pass(std::chrono::seconds(3));
    since_power_up_ = clock_us_;
    to_host_.clear();
    gb_link_begin();
    gb_log_begin();
    gb_player_begin(gb_reset_power);
    next_tick_ = clock_us_ + tick_us_;
}

void BoardInProcess::pass(std::chrono::microseconds time) {
    const std::uint64_t end = clock_us_ + static_cast<std::uint64_t>(time.count());
    while (next_tick_ <= end) {
        clock_us_ = next_tick_;
        next_tick_ += tick_us_;
        const bool active = trigger_us_ > 0;
        if (sampling_) {
            sampling_ = gb_player_trigger(active) == gb_sample_again;
        } else {
            sampling_ = active && !was_active_;
        }
        was_active_ = active;
        trigger_us_ -= std::min(trigger_us_, tick_us_);
        gb_player_tick(static_cast<std::uint8_t>(gb_input_hold | (open_ ? 0 : gb_input_enable) |
                                                 (trigger_us_ > 0 ? gb_input_trigger : 0)));
        gb_log_write();
    }
    clock_us_ = end;
}

Result<std::size_t> BoardInProcess::read(std::span<std::uint8_t> into, Deadline until) {
    if (to_host_.empty()) {
        const auto wait = std::chrono::duration_cast<std::chrono::microseconds>(until - LinkClock::now());
        pass(std::clamp(wait, std::chrono::microseconds(1000), std::chrono::microseconds(50'000)));
        return 0;
    }
    const std::size_t count = std::min(into.size(), to_host_.size());
    std::copy_n(to_host_.begin(), count, into.begin());
    to_host_.erase(to_host_.begin(), to_host_.begin() + static_cast<std::ptrdiff_t>(count));
    return count;
}

Result<void> BoardInProcess::write(std::span<const std::uint8_t> bytes, Deadline) {
    constexpr std::chrono::microseconds on_the_line{87};
    for (const std::uint8_t byte : bytes) {
        pass(on_the_line);
        gb_link_take(byte);
        gb_link_poll();
    }
    return {};
}

}  // namespace gasp::testing
