// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/board_actions.hpp"
#include "app/gasp/held_key.hpp"
#include "app/gasp/json.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/terminal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <csignal>
#include <iostream>
#include <thread>

namespace gasp {

namespace {

using std::chrono::milliseconds;

constexpr milliseconds repeat{100};

volatile std::sig_atomic_t interrupted = 0;

void note_interrupt(int) {
    interrupted = 1;
}

/// While it lives, Ctrl-C lets go of everything first.
class InterruptWatch {
  public:
    InterruptWatch() { std::signal(SIGINT, note_interrupt); }
    ~InterruptWatch() { std::signal(SIGINT, SIG_DFL); }
    InterruptWatch(const InterruptWatch&) = delete;
    InterruptWatch& operator=(const InterruptWatch&) = delete;
};

/// Cautions, and the words that must be typed. Error: something else was typed.
Result<void> confirm(const std::string& words) {
    say("This moves the prop. Keep everybody out of reach of what air can move, see it yourself, and have "
        "the "
        "emergency stop, which cuts air and power, within reach. This program protects nobody.");
    say(fmt::format("Type \"{}\" and Enter to go on:", words));
    std::string typed;
    std::getline(std::cin, typed);
    if (typed != words) {
        return fail("not confirmed, nothing was done", {}, fmt::format("Type \"{}\"", words));
    }
    return {};
}

/// A count from 1 as written, within `most`.
Result<std::uint8_t> number_of(const std::string& text, std::size_t most, std::string_view what) {
    unsigned value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || value < 1 || value > most) {
        return fail(fmt::format("\"{}\" is no {}", text, what), {},
                    fmt::format("Give a number from 1 to {}, or --show SHOW and its name", most));
    }
    return static_cast<std::uint8_t>(value - 1);
}

Result<OpenShow> show_of(const BoardOptions& options) {
    ShowOptions which;
    which.show = options.show;
    return open_show(which);
}

/// The output a user names: its number, or with --show the name of its channel.
Result<std::uint8_t> output_of(const BoardOptions& options, const BoardIdentity& board) {
    if (options.show.empty()) {
        return number_of(options.target, board.outputs, "output of this board");
    }
    const Result<OpenShow> open = show_of(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    const auto& channels = open->show.rig.channels;
    const auto found = std::ranges::find(channels, options.target, &Channel::name);
    if (found == channels.end() || !found->output || found->board != BoardId{board.board_id}) {
        return number_of(options.target, board.outputs, "channel of this board");
    }
    return number_of(fmt::to_string(*found->output), board.outputs, "output of this board");
}

Result<std::uint8_t> sequence_of(const BoardOptions& options) {
    constexpr std::string_view what = "sequence of its table";
    if (options.show.empty()) {
        return number_of(options.target, most_image_sequences, what);
    }
    const Result<OpenShow> open = show_of(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    const auto& sequences = open->show.sequences;
    const auto found = std::ranges::find(sequences, options.target, &Sequence::name);
    if (found == sequences.end()) {
        return number_of(options.target, sequences.size(), what);
    }
    return number_of(fmt::to_string(found - sequences.begin() + 1), sequences.size(), what);
}

/// Drives the output as long as `wanted` says so; it is let go of whatever happens.
template <class Wanted>
Result<void> hold_while(Conversation& board, std::uint8_t output, Wanted wanted) {
    Result<void> held;
    while (held && wanted() && interrupted == 0) {
        held = board.hold(output);
    }
    const Result<void> let_go = board.let_go();
    return held ? let_go : held;
}

Result<void> fire_for(Conversation& board, std::uint8_t output, milliseconds length) {
    const Deadline end = LinkClock::now() + length;
    bool first = true;
    return hold_while(board, output, [&] {
        if (!std::exchange(first, false)) {
            std::this_thread::sleep_for(std::min<LinkClock::duration>(repeat, end - LinkClock::now()));
        }
        return LinkClock::now() < end;
    });
}

Result<void> fire_by_key(Conversation& board, std::uint8_t output) {
    Result<HeldKey> key = HeldKey::take();
    if (!key) {
        return tl::unexpected(key.error());
    }
    say("Hold Enter to drive the output, let go to let go of it, q to end.");
    Result<void> done;
    while (done && !key->ended() && interrupted == 0) {
        if (key->held(repeat)) {
            done = hold_while(board, output, [&] { return key->held(repeat) && !key->ended(); });
        } else {
            done = board.status().map([](const BoardStatus&) {});  // keeps it armed
        }
    }
    return done;
}

Result<void> follow(Conversation& board) {
    for (;;) {
        std::this_thread::sleep_for(repeat);
        const Result<BoardStatus> status = board.status();
        if (!status) {
            return tl::unexpected(status.error());
        }
        if (!status->running() || interrupted != 0) {
            return {};
        }
    }
}

Result<Outcome> said(const BoardOptions& options, const Result<void>& done, std::string_view what) {
    if (!done) {
        return tl::unexpected(done.error());
    }
    Outcome outcome;
    outcome.text = options.json ? json_text(Json{{"done", what}}) : fmt::format("{}\n", what);
    return outcome;
}

/// Does something armed, and disarms whatever comes of it.
template <class Work>
Result<void> armed(Conversation& board, Work work) {
    const InterruptWatch watch;
    return board.arm().and_then([&] {
        const Result<void> done = work();
        const Result<void> disarmed = board.disarm();
        return done ? disarmed : done;
    });
}

}  // namespace

Result<Outcome> fire_output(Conversation& board, const BoardOptions& options) {
    const Result<BoardIdentity> identity = board.identify();
    if (!identity) {
        return tl::unexpected(identity.error());
    }
    const Result<std::uint8_t> output = output_of(options, *identity);
    if (!output) {
        return tl::unexpected(output.error());
    }
    const std::string name = fmt::format("fire {}", *output + 1);
    const Result<void> done = confirm(name).and_then([&] {
        return armed(board, [&] {
            return options.for_ms ? fire_for(board, *output, milliseconds(*options.for_ms))
                                  : fire_by_key(board, *output);
        });
    });
    return said(options, done, "output " + fmt::to_string(*output + 1) + " fired, and let go");
}

Result<Outcome> run_sequence(Conversation& board, const BoardOptions& options) {
    const Result<BoardIdentity> identity = board.identify();
    if (!identity) {
        return tl::unexpected(identity.error());
    }
    const Result<std::uint8_t> sequence = sequence_of(options);
    if (!sequence) {
        return tl::unexpected(sequence.error());
    }
    const std::string name = fmt::format("run {}", *sequence + 1);
    const Result<void> done = confirm(name).and_then([&] {
        return armed(board, [&] { return board.run(*sequence).and_then([&] { return follow(board); }); });
    });
    return said(options, done,
                fmt::format("sequence {} {}", *sequence + 1, interrupted != 0 ? "broken off" : "played"));
}

Result<Outcome> stop_board(Conversation& board, const BoardOptions& options) {
    return said(options, board.stop(), "stopped, everything at rest; go-on or re-arm brings it back");
}

Result<Outcome> go_on(Conversation& board, const BoardOptions& options) {
    const Result<void> done =
        board.identify().and_then([&](const BoardIdentity&) { return confirm("go on"); });
    return said(options, done.and_then([&] { return armed(board, [&] { return board.go_on(); }); }),
                "back to work");
}

}  // namespace gasp
