// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/night/night_runs.hpp"

#include "core/air/run/travel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <unordered_map>

namespace gasp {
namespace {

constexpr double most_idle_runs = 50'000.0;
constexpr double longest_settling_s = 60.0;

Micros micros(double s) {
    return Micros{std::llround(s * 1e6)};
}

/// Runs and refusals of one trigger, which plays these sequences in turn.
void add_triggered(std::span<const NightSequence> sequences, const std::vector<std::uint32_t>& in_turn,
                   std::span<const Micros> arrivals, NightRuns& night) {
    std::size_t next = 0;
    Micros free_at{0};
    for (std::size_t group = 0; group < arrivals.size() && !in_turn.empty(); ++group) {
        const std::uint32_t place = in_turn[next];
        const NightSequence& sequence = sequences[place];
        const Micros trip = arrivals[group] + micros(sequence.trigger_after_s);
        if (trip < free_at) {
            night.refused.push_back({place, trip});
            continue;
        }
        night.runs.push_back({place, static_cast<std::uint32_t>(group), trip, trip + sequence.length});
        free_at = trip + std::max(sequence.length, micros(sequence.lockout_s));
        next = (next + 1) % in_turn.size();
    }
}

/// The idle sequences, going round in the gaps between the triggered runs.
class IdleRounds {
  public:
    IdleRounds(std::span<const NightSequence> sequences, std::uint32_t first_group) : group_(first_group) {
        for (std::uint32_t place = 0; place < sequences.size(); ++place) {
            const NightSequence& sequence = sequences[place];
            if (sequence.kind == SequenceKind::idle && !sequence.commands.empty()) {
                round_.push_back({place, 0, Micros{0}, sequence.length});
            }
        }
    }

    void fill(Micros begin, Micros end, std::vector<NightRun>& runs) {
        for (Micros at = begin; at < end && !round_.empty(); next_ = (next_ + 1) % round_.size()) {
            NightRun run = round_[next_];
            run.group = group_++;
            run.begin = at;
            run.end = std::min(at + run.end, end);
            at = run.end;
            runs.push_back(run);
        }
    }

  private:
    std::vector<NightRun> round_;
    std::size_t next_ = 0;
    std::uint32_t group_;
};

void add_idle(std::span<const NightSequence> sequences, std::uint32_t first_group, Micros end,
              std::vector<NightRun>& runs) {
    IdleRounds rounds(sequences, first_group);
    const std::size_t triggered = runs.size();
    Micros quiet_from{0};
    for (std::size_t i = 0; i < triggered; ++i) {
        const NightRun run = runs[i];  // a copy: the list grows
        rounds.fill(quiet_from, std::min(run.begin, end), runs);
        quiet_from = std::max(quiet_from, run.end);
    }
    rounds.fill(quiet_from, end, runs);
}

void in_order(std::vector<NightRun>& runs) {
    std::ranges::stable_sort(runs, {}, &NightRun::begin);
}

/// The commands of one run, the cut at its end included.
class RunCommands {
  public:
    RunCommands(const AirModel& model, std::span<const Rest> rests) : rests_(rests) {
        for (std::uint32_t place = 0; place < model.actuators.size(); ++place) {
            places_.insert({model.actuators[place].id, place});
        }
    }

    void add(const NightSequence& sequence, const NightRun& run, std::uint32_t place,
             std::vector<NightCommand>& commands) const {
        const bool cut = run.end - run.begin < sequence.length;
        const std::size_t first = commands.size();
        for (std::uint32_t i = 0; i < sequence.commands.size(); ++i) {
            const StrokeCommand& command = sequence.commands[i];
            const auto found = places_.find(command.actuator);
            const Micros time = run.begin + command.time;
            if (found != places_.end() && (!cut || time < run.end)) {
                commands.push_back({time, found->second, command.way, place, i});
            }
        }
        if (cut) {
            send_to_rest(run.end, place, first, commands);
        }
    }

  private:
    void send_to_rest(Micros time, std::uint32_t run, std::size_t first,
                      std::vector<NightCommand>& commands) const {
        const std::size_t last = commands.size();
        std::vector<std::uint32_t> touched;
        for (std::size_t i = first; i < last; ++i) {
            touched.push_back(commands[i].actuator);
        }
        std::ranges::sort(touched);
        touched.erase(std::unique(touched.begin(), touched.end()), touched.end());
        for (const std::uint32_t actuator : touched) {
            if (rests_[actuator].returns) {
                commands.push_back(
                    {time, actuator, rests_[actuator].out ? Coil::out : Coil::back, run, NightCommand::cut});
            }
        }
    }

    std::span<const Rest> rests_;
    std::unordered_map<ActuatorId, std::uint32_t> places_;
};

/// Leaves out what sends an actuator where it was sent last.
void drop_idle_commands(std::vector<NightCommand>& commands, std::span<const Rest> rests) {
    std::vector<Coil> sent;
    for (const Rest& rest : rests) {
        sent.push_back(rest.out ? Coil::out : Coil::back);
    }
    std::erase_if(commands, [&](const NightCommand& command) {
        return std::exchange(sent[command.actuator], command.way) == command.way;
    });
}

/// After a command: motion and filling by the time constants of the paths, then the air's temperature.
double settling_s(const ActuatorModel& model, const PlantModel& plant) {
    constexpr double fillings = 4.0;  // from 8 bar down to the air around through one path: ln 8, and a rest
    constexpr double coolings = 6.0;  // what is left is a 400th
    const double volume = model.dead_volume + model.tube_volume + model.out_area * model.stroke;
    const auto filling = [](double size, const Conductance& path) {
        return path.c > 0.0 ? size / (path.c * reference_pressure) : 0.0;
    };
    const Conductance& out_of = model.cushion > 0.0 ? model.cushioned_exhaust : model.exhaust;
    const double flows =
        filling(volume, model.supply) + filling(volume, out_of) + filling(model.reservoir, model.feed);
    double cooling = 0.0;
    if (model.law == ChamberLaw::wall_heat && model.heat_transfer > 0.0) {
        const double mass = plant.set_pressure * volume / (gas_constant * plant.ambient_temperature);
        const double surface = 2.0 * model.out_area + std::numbers::pi * model.bore *
                                                          (model.stroke + model.dead_volume / model.out_area);
        cooling = mass * heat_cv / (model.heat_transfer * surface);
    }
    const double delays = std::max(model.opening_delay, model.closing_delay) + model.wave + model.ramp;
    return std::min(delays + fillings * flows + coolings * cooling, longest_settling_s);
}

}  // namespace

Result<void> check(std::span<const NightSequence> sequences, double hours) {
    double round_s = 0.0;
    for (const NightSequence& sequence : sequences) {
        const auto is_time = [](double s) { return s >= 0.0 && s <= 86'400.0; };
        if (!is_time(sequence.lockout_s)) {
            return fail(fmt::format("the lockout is {:g} s, outside 0 to 86400 s", sequence.lockout_s),
                        "sensor.lockout_s", "Correct it");
        }
        if (!is_time(sequence.trigger_after_s)) {
            return fail(fmt::format("a trigger comes {:g} s after the group, outside 0 to 86400 s",
                                    sequence.trigger_after_s),
                        "trigger_after_s", "Correct it");
        }
        if (sequence.kind == SequenceKind::idle && !sequence.commands.empty()) {
            round_s += to_s(sequence.length);
        }
    }
    if (round_s > 0.0 && hours * 3600.0 / round_s > most_idle_runs) {
        return fail(fmt::format("the idle sequences last {:g} s: a night would hold more than {:g} of them",
                                round_s, most_idle_runs),
                    "length_us", "Make them longer");
    }
    return {};
}

NightRuns night_runs(std::span<const NightSequence> sequences, std::span<const Micros> arrivals, Micros end) {
    NightRuns night;
    std::vector<std::uint32_t> in_turn;
    for (std::uint32_t place = 0; place < sequences.size(); ++place) {
        if (sequences[place].kind != SequenceKind::triggered) {
            continue;
        }
        if (sequences[place].in_turn) {
            in_turn.push_back(place);
        } else {
            add_triggered(sequences, {place}, arrivals, night);
        }
    }
    add_triggered(sequences, in_turn, arrivals, night);
    in_order(night.runs);
    add_idle(sequences, static_cast<std::uint32_t>(arrivals.size()), end, night.runs);
    in_order(night.runs);
    std::ranges::stable_sort(night.refused, {}, &Refusal::time);
    return night;
}

std::vector<Rest> rests(const Show& show, const AirModel& model) {
    std::vector<Rest> rests;
    for (const ActuatorModel& each : model.actuators) {
        const Actuator& actuator = *find(show, each.id);
        const bool two_coils = actuator.valve.kind == ValveKind::five_two_two_coils;
        rests.push_back(
            {!two_coils && rests_out(show, actuator), !two_coils, micros(settling_s(each, model.plant))});
    }
    return rests;
}

std::vector<NightCommand> night_commands(std::span<const NightSequence> sequences,
                                         std::span<const NightRun> runs, const AirModel& model,
                                         std::span<const Rest> rests) {
    std::vector<NightCommand> commands;
    const RunCommands of_run(model, rests);
    for (std::uint32_t i = 0; i < runs.size(); ++i) {
        of_run.add(sequences[runs[i].sequence], runs[i], i, commands);
    }
    std::ranges::stable_sort(commands, {}, &NightCommand::time);
    drop_idle_commands(commands, rests);
    return commands;
}

std::vector<Bout> bouts(std::span<const NightCommand> commands, std::span<const Rest> rests) {
    std::vector<Bout> all;
    for (std::size_t i = 0; i < commands.size(); ++i) {
        const Micros quiet = commands[i].time + rests[commands[i].actuator].settles_in;
        if (all.empty() || commands[i].time >= all.back().end) {
            all.push_back({i, i, commands[i].time, quiet});
        }
        all.back().last = i + 1;
        all.back().end = std::max(all.back().end, quiet);
    }
    return all;
}

}  // namespace gasp
