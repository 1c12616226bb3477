// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/simulated_chip.hpp"

#include <avr_eeprom.h>
#include <avr_ioport.h>
#include <avr_uart.h>
#include <sim_avr.h>
#include <sim_cycle_timers.h>
#include <sim_regbit.h>
#include <sim_vcd_file.h>

#include <algorithm>
#include <cstring>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <utility>
// The macros of libsimavr make multi-character constants of names of ports.
#pragma GCC diagnostic ignored "-Wold-style-cast"

namespace gasp::board_test {

namespace {

// As ports/avr/pins.h has them.
struct Place {
    char port;
    int bit;
};
constexpr Place output_places[] = {{'D', 4}, {'D', 5}, {'D', 6}, {'D', 7}, {'B', 0}, {'B', 1},
                                   {'B', 2}, {'B', 3}, {'B', 4}, {'C', 3}, {'C', 4}, {'C', 5}};
constexpr Place input_places[] = {{'D', 2}, {'C', 0}, {'C', 1}, {'C', 2}, {'D', 3}};
constexpr Place lamp_place{'B', 5};
constexpr Place line_place{'D', 3};
constexpr double byte_us = 10.0 / 115200.0 * 1e6;
constexpr std::uint8_t untouched = 0xA5;

std::uint32_t port_request(char port) {
    return static_cast<std::uint32_t>(AVR_IOCTL_IOPORT_GETIRQ(port));
}

std::uint16_t register_of(char port, bool direction) {
    // DDRB is at 0x24, PORTB at 0x25; C and D follow in steps of 3.
    return static_cast<std::uint16_t>((direction ? 0x24 : 0x25) + (port - 'B') * 3);
}

/// Goes on every cycle: a chip that falls asleep with its last instruction must not jump beyond, either.
avr_cycle_count_t nothing(avr_t* /*avr*/, avr_cycle_count_t when, void* /*param*/) {
    return when + 1;
}

void no_wait(avr_t* /*avr*/, avr_cycle_count_t /*how_long*/) {}

Bytes firmware_in(const std::string& folder) {
    std::ifstream file(folder + "/board.bin", std::ios::binary);
    Bytes bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    if (bytes.empty()) {
        throw std::runtime_error("no firmware in " + folder);
    }
    bytes.resize(0x8000, 0xFF);
    return bytes;
}

ChipMemory with_image(const Bytes& image, const char* firmware) {
    ChipMemory memory{firmware_in(firmware), Bytes(1024, 0xFF)};
    std::ranges::copy(image, memory.flash.begin() + GASPWORKS_BOARD_STORE_AT);
    return memory;
}

void dispose(avr_t* avr) {
    avr_terminate(avr);
    std::free(avr);
}

}  // namespace

SimulatedChip::SimulatedChip(const Bytes& image, const char* firmware)
    : SimulatedChip(with_image(image, firmware)) {}

SimulatedChip::SimulatedChip(const ChipMemory& memory) : avr_(avr_make_mcu_by_name("atmega328p"), dispose) {
    pins_.resize(std::size(output_places));
    start(memory);
}

SimulatedChip::~SimulatedChip() = default;

void SimulatedChip::start(const ChipMemory& memory) {
    avr_t* avr = avr_.get();
    avr_init(avr);
    avr->log = LOG_ERROR;
    avr->frequency = 16'000'000;
    avr->sleep = no_wait;
    avr->run_cycle_limit = 0xFFFFFFFF;
    std::ranges::copy(memory.flash, avr->flash);
    Bytes eeprom = memory.eeprom;
    avr_eeprom_desc_t contents{eeprom.data(), 0, static_cast<std::uint32_t>(eeprom.size())};
    avr_ioctl(avr, AVR_IOCTL_EEPROM_SET, &contents);
    std::fill(avr->data + 0x100, avr->data + avr->ramend + 1, untouched);
    avr->custom.data = this;
    avr_regbit_set(avr, avr->reset_flags.porf);
    connect();
    raise_inputs();
    reset_of_core_ = std::exchange(avr->reset, on_reset);
}

void SimulatedChip::on_reset(avr_t* avr) {
    auto* chip = static_cast<SimulatedChip*>(avr->custom.data);
    if (chip->reset_of_core_ != nullptr) {
        chip->reset_of_core_(avr);
    }
    ++chip->resets_;
    chip->last_reset_us_ = chip->now_us();
    for (const char port : {'B', 'C', 'D'}) {
        chip->ports_[port - 'B'] = {};
        chip->note_pins(port);
    }
    if (chip->after_reset_) {
        chip->after_reset_();
    }
    chip->raise_inputs();
}

void SimulatedChip::connect() {
    avr_t* avr = avr_.get();
    std::uint32_t flags = 0;
    avr_ioctl(avr, AVR_IOCTL_UART_GET_FLAGS('0'), &flags);
    flags &= ~static_cast<std::uint32_t>(AVR_UART_FLAG_STDIO | AVR_UART_FLAG_POLL_SLEEP);
    avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
    avr_irq_register_notify(
        avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT),
        [](avr_irq_t*, std::uint32_t value, void* self) {
            static_cast<SimulatedChip*>(self)->received_.push_back(static_cast<std::uint8_t>(value));
        },
        this);
    watches_.reserve(6);
    for (const char port : {'B', 'C', 'D'}) {
        for (const bool direction : {false, true}) {
            watches_.push_back({this, port, direction, nullptr, nullptr});
            const int which = direction ? IOPORT_IRQ_DIRECTION_ALL : IOPORT_IRQ_REG_PORT;
            avr_irq_register_notify(avr_io_getirq(avr, port_request(port), which), on_register,
                                    &watches_.back());
            auto& write = avr->io[AVR_DATA_TO_IO(register_of(port, direction))].w;
            watches_.back().write = write.c;
            watches_.back().param = std::exchange(write.param, &watches_.back());
            write.c = write_register;
        }
    }
}

void SimulatedChip::on_register(avr_irq_t* /*irq*/, std::uint32_t value, void* watch) {
    const Watch& watched = *static_cast<const Watch*>(watch);
    Port& port = watched.chip->ports_[watched.port - 'B'];
    (watched.direction ? port.direction : port.level) = static_cast<std::uint8_t>(value);
    watched.chip->note_pins(watched.port);
}

/// libsimavr raises an input with its pull-up even against what pulls it low from outside: a write to the
/// registers of a port must not see those pull-ups.
void SimulatedChip::write_register(avr_t* avr, std::uint16_t address, std::uint8_t value, void* watch) {
    const Watch& watched = *static_cast<const Watch*>(watch);
    const auto low = watched.chip->pulled_low(watched.port);
    std::uint8_t& level = avr->data[register_of(watched.port, false)];
    const std::uint8_t after = watched.direction ? level : value;
    level = static_cast<std::uint8_t>(level & ~low);
    watched.write(avr, address, watched.direction ? value : static_cast<std::uint8_t>(value & ~low),
                  watched.param);
    level = after;
}

void SimulatedChip::note_pins(char port) {
    for (unsigned output = 0; output < std::size(output_places); ++output) {
        if (output_places[output].port != port) {
            continue;
        }
        const PinChange now = pin(output);
        PinChange& before = pins_[output];
        if (now.driven != before.driven || (now.driven && now.level != before.level)) {
            changes_.push_back(now);
        }
        before = now;
    }
}

int SimulatedChip::step() {
    constexpr std::uint32_t boot_section = 0x7E00;
    avr_t* avr = avr_.get();
    if (page_us_ == 0.0) {
        return avr_run(avr);
    }
    // Instruction by instruction, to see when the page writer has done its work.
    avr->run_cycle_limit = 1;
    const bool writing = avr->pc >= boot_section;
    const int state = avr_run(avr);
    if (writing && avr->pc < boot_section) {
        avr->cycle += static_cast<avr_cycle_count_t>(page_us_ * cycles_per_us);
    }
    return state;
}

void SimulatedChip::run(double us) {
    avr_t* avr = avr_.get();
    const auto end = avr->cycle + static_cast<avr_cycle_count_t>(us * cycles_per_us);
    while (avr->cycle < end) {
        // A sleeping chip jumps to its next timer: this one ends the jump at `end`. A reset forgets it.
        avr_cycle_timer_cancel(avr, nothing, this);
        avr_cycle_timer_register(avr, end - avr->cycle, nothing, this);
        const int before = resets_;
        while (avr->cycle < end && resets_ == before) {
            const int state = step();
            if (state == cpu_Done || state == cpu_Crashed) {
                throw std::runtime_error("the simulated chip crashed");
            }
        }
    }
}

double SimulatedChip::now_us() const {
    return static_cast<double>(avr_->cycle) / cycles_per_us;
}

void SimulatedChip::raise_inputs() {
    for (unsigned i = 0; i < std::size(input_places); ++i) {
        raise(static_cast<Input>(i), inputs_[i], true);
    }
}

void SimulatedChip::set(Input input, bool closed) {
    raise(input, closed, false);
}

void SimulatedChip::raise(Input input, bool closed, bool again) {
    const auto index = static_cast<unsigned>(input);
    inputs_[index] = closed;
    const Place place = input_places[index];
    // All of them are low when closed, for an image whose trigger is active low.
    avr_irq_t* pin = avr_io_getirq(avr_.get(), port_request(place.port), IOPORT_IRQ_PIN0 + place.bit);
    if (again) {  // a level that is already there is not passed on
        avr_raise_irq(pin, closed ? 1 : 0);
    }
    avr_raise_irq(pin, closed ? 0 : 1);
}

std::uint8_t SimulatedChip::pulled_low(char port) const {
    unsigned low = 0;
    for (unsigned i = 0; i < std::size(input_places); ++i) {
        low |= input_places[i].port == port && inputs_[i] ? 1U << input_places[i].bit : 0U;
    }
    return static_cast<std::uint8_t>(low);
}

void SimulatedChip::trip(double us) {
    set(Input::trigger, true);
    run(us);
    set(Input::trigger, false);
}

bool SimulatedChip::bit(char port, bool direction, int bit) const {
    const Port& registers = ports_[port - 'B'];
    return ((direction ? registers.direction : registers.level) >> bit & 1) != 0;
}

PinChange SimulatedChip::pin(unsigned output) const {
    const Place place = output_places[output];
    return {now_us(), output, bit(place.port, false, place.bit), bit(place.port, true, place.bit)};
}

bool SimulatedChip::all_at(bool level) const {
    for (unsigned output = 0; output < std::size(output_places); ++output) {
        const PinChange now = pin(output);
        if (now.driven && now.level != level) {
            return false;
        }
    }
    return true;
}

bool SimulatedChip::line_pulled_low() const {
    return bit(line_place.port, true, line_place.bit) && !bit(line_place.port, false, line_place.bit);
}

bool SimulatedChip::lamp() const {
    return bit(lamp_place.port, false, lamp_place.bit);
}

void SimulatedChip::send(const Bytes& bytes) {
    avr_irq_t* input = avr_io_getirq(avr_.get(), AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
    for (const std::uint8_t byte : bytes) {
        run(byte_us);  // a byte is there when its last bit is
        avr_raise_irq(input, byte);
    }
}

Bytes SimulatedChip::received() {
    return std::exchange(received_, {});
}

bool SimulatedChip::run_until_frame(double most_us) {
    const double end = now_us() + most_us;
    while (now_us() < end) {
        if (std::ranges::find(received_, 0) != received_.end()) {
            return true;
        }
        run(byte_us);
    }
    return false;
}

void SimulatedChip::record(const std::string& vcd_file) {
    constexpr std::uint32_t flush_us = 1000;
    avr_t* avr = avr_.get();
    vcd_ = std::make_unique<avr_vcd_t>();
    avr_vcd_init(avr, vcd_file.c_str(), vcd_.get(), flush_us);
    const auto add = [&](const Place place, const std::string& name) {
        avr_vcd_add_signal(vcd_.get(),
                           avr_io_getirq(avr, port_request(place.port), IOPORT_IRQ_PIN0 + place.bit), 1,
                           name.c_str());
    };
    for (unsigned output = 0; output < std::size(output_places); ++output) {
        add(output_places[output], "output" + std::to_string(output + 1));
    }
    add(input_places[0], "trigger");
    avr_vcd_start(vcd_.get());
}

void SimulatedChip::record_no_more() {
    avr_vcd_stop(vcd_.get());
    avr_vcd_close(vcd_.get());
}

ChipMemory SimulatedChip::memory() const {
    ChipMemory memory{Bytes(avr_->flash, avr_->flash + 0x8000), Bytes(1024)};
    avr_eeprom_desc_t contents{memory.eeprom.data(), 0, static_cast<std::uint32_t>(memory.eeprom.size())};
    avr_ioctl(avr_.get(), AVR_IOCTL_EEPROM_GET, &contents);
    return memory;
}

void SimulatedChip::brown_out() {
    after_reset_ = [this] { avr_regbit_set(avr_.get(), avr_->reset_flags.borf); };
    avr_reset(avr_.get());
    after_reset_ = nullptr;
}

void SimulatedChip::hang(bool interrupts) {
    constexpr std::uint32_t loop_at = 0x7D00;
    avr_->flash[loop_at] = 0xFF;  // rjmp .-2
    avr_->flash[loop_at + 1] = 0xCF;
    avr_->pc = loop_at;
    avr_->state = cpu_Running;
    avr_->sreg[S_I] = interrupts ? 1 : 0;
}

double SimulatedChip::interrupt_load(double us) {
    avr_t* avr = avr_.get();
    avr->run_cycle_limit = 1;
    const auto begin = avr->cycle;
    const auto end = begin + static_cast<avr_cycle_count_t>(us * cycles_per_us);
    avr_cycle_count_t taken = 0;
    while (avr->cycle < end) {
        const auto before = avr->cycle;
        // Interrupts are off in an interrupt, and in the main program for some cycles only.
        const bool in_interrupt = avr->state == cpu_Running && avr->sreg[S_I] == 0;
        avr_run(avr);
        taken += in_interrupt ? avr->cycle - before : 0;
    }
    avr->run_cycle_limit = 0xFFFFFFFF;
    return static_cast<double>(taken) / static_cast<double>(avr->cycle - begin);
}

unsigned SimulatedChip::deepest_stack() const {
    // From the top down to the first stretch that nothing has touched.
    constexpr unsigned stretch = 32;
    unsigned free = 0;
    for (unsigned at = avr_->ramend; at > 0x100; --at) {
        free = avr_->data[at] == untouched ? free + 1 : 0;
        if (free == stretch) {
            return avr_->ramend - (at + stretch - 1);
        }
    }
    return avr_->ramend - 0x100;
}

}  // namespace gasp::board_test
