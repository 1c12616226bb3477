// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "tests/board/test_image.hpp"

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

struct avr_t;
struct avr_irq_t;
struct avr_vcd_t;

namespace gasp::board_test {

/// A change at an output of the board: at which level its pin is, and whether it is driven by the chip at
/// all.
struct PinChange {
    double us = 0.0;
    unsigned output = 0;
    bool level = false;
    bool driven = false;
};

/// What hangs on the inputs, in the words of the board, not as levels.
enum class Input { trigger, enable, rearm, hold, line };

/// What outlives power.
struct ChipMemory {
    Bytes flash;
    Bytes eeprom;
};

/// The real firmware in a simulated ATmega328P at 16 MHz (libsimavr). Its crystal is perfect, and unless
/// told otherwise it writes flash in no time; a real one does neither.
class SimulatedChip {
  public:
    static constexpr double cycles_per_us = 16.0;
    static constexpr std::uint32_t store_bytes = GASPWORKS_BOARD_STORE_BYTES;

    /// Power-up with an image in the store; empty: an erased one. `firmware`: the folder it was built in.
    explicit SimulatedChip(const Bytes& image = {}, const char* firmware = GASPWORKS_BOARD_FIRMWARE);
    /// Power-up with what was there before.
    explicit SimulatedChip(const ChipMemory& memory);
    ~SimulatedChip();
    SimulatedChip(const SimulatedChip&) = delete;
    SimulatedChip& operator=(const SimulatedChip&) = delete;

    /// From power-up to when the longest image has been checked.
    static constexpr double boot_ms = 400.0;
    /// Time goes on.
    void run(double us);
    void run_ms(double ms) { run(ms * 1000.0); }
    [[nodiscard]] double now_us() const;

    /// Closed: the enable input lets the outputs work; the trigger is tripped; the button is pressed; the
    /// line is low.
    void set(Input input, bool closed);
    /// The trigger trips for so long, then is let go; time goes on to its end.
    void trip(double us = 20'000.0);

    [[nodiscard]] const std::vector<PinChange>& changes() const { return changes_; }
    void forget_changes() { changes_.clear(); }
    /// The level of a pin, and whether the chip drives it.
    [[nodiscard]] PinChange pin(unsigned output) const;
    /// Whether every output of the board is at the level given or not driven.
    [[nodiscard]] bool all_at(bool level) const;
    [[nodiscard]] bool line_pulled_low() const;
    [[nodiscard]] bool lamp() const;

    /// The link: bytes in at 115 200 baud (time goes on), and what came back since the last call.
    void send(const Bytes& bytes);
    [[nodiscard]] Bytes received();
    /// Time goes on until a zero byte has come back, at most so long.
    bool run_until_frame(double most_us);

    /// From now on a page of flash takes so long to write, in which the chip stands still, as a real one
    /// does.
    void write_flash_in(double page_us) { page_us_ = page_us; }
    /// From now on the levels of the outputs' pins and of the trigger are written to a value change dump, by
    /// libsimavr itself, until record_no_more().
    void record(const std::string& vcd_file);
    void record_no_more();
    [[nodiscard]] ChipMemory memory() const;
    /// Reset by the brown-out detector.
    void brown_out();
    /// The main program stops where it is; interrupts go on, or do not.
    void hang(bool interrupts);
    [[nodiscard]] int resets() const { return resets_; }
    [[nodiscard]] double last_reset_us() const { return last_reset_us_; }

    /// Steps instruction by instruction for so long; the share of that time spent in interrupts.
    [[nodiscard]] double interrupt_load(double us);
    /// Bytes of stack used at the deepest since power-up.
    [[nodiscard]] unsigned deepest_stack() const;

  private:
    int step();
    void start(const ChipMemory& memory);
    void connect();
    void raise(Input input, bool closed, bool again);
    void raise_inputs();
    [[nodiscard]] bool bit(char port, bool direction, int bit) const;
    static void write_register(avr_t* avr, std::uint16_t address, std::uint8_t value, void* watch);
    /// The inputs of a port that something outside pulls low.
    [[nodiscard]] std::uint8_t pulled_low(char port) const;
    void note_pins(char port);
    static void on_register(avr_irq_t* irq, std::uint32_t value, void* watch);
    static void on_reset(avr_t* avr);

    std::unique_ptr<avr_t, void (*)(avr_t*)> avr_;
    std::vector<PinChange> changes_;
    Bytes received_;
    std::vector<PinChange> pins_;
    /// What a port's two registers of outputs hold; libsimavr tells of a write before it is done.
    struct Port {
        std::uint8_t direction = 0;
        std::uint8_t level = 0;
    };
    Port ports_[3];
    struct Watch {
        SimulatedChip* chip;
        char port;
        bool direction;
        void (*write)(avr_t*, std::uint16_t, std::uint8_t, void*);
        void* param;
    };
    std::vector<Watch> watches_;
    bool inputs_[5] = {false, true, false, false, false};
    double page_us_ = 0.0;
    std::unique_ptr<avr_vcd_t> vcd_;
    int resets_ = 0;
    double last_reset_us_ = 0.0;
    std::function<void()> after_reset_;
    void (*reset_of_core_)(avr_t*) = nullptr;
};

}  // namespace gasp::board_test
