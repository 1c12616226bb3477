// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/night/night_player.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gasp {
namespace {

constexpr double hour_s = 3600.0;

std::size_t hour_of(double time_s, const Night& night) {
    return std::min(static_cast<std::size_t>(time_s / hour_s), night.hours.size() - 1);
}

/// Every command of a night sends its actuator to where it was not.
PatternCommand pattern_command(const NightCommand& command, Micros from) {
    return {command.time - from, command.actuator, command.way, command.way == Coil::back};
}

Night empty_night(const NightTerms& terms, std::uint64_t seed) {
    Night night;
    night.seed = seed;
    night.hours.resize(static_cast<std::size_t>(std::ceil(terms.hours)));
    return night;
}

}  // namespace

/// One night in the playing.
struct NightPlayer::Play {
    std::vector<Micros> arrivals;
    NightRuns runs;
    std::vector<NightCommand> commands;
    std::vector<bool> weak;  ///< of each run
    QuietReceiver receiver;
    Curve* curve = nullptr;
    std::vector<DrawStep> draws;                          ///< of the bout in hand, as is what follows
    std::vector<std::pair<std::size_t, double>> strikes;  ///< of which command, and its strike_s
    std::vector<bool> taken;                              ///< its commands
    StrokePattern pattern;
};

void NightPlayer::judge(Play& play, std::size_t place, double strike_s) {
    const NightCommand& command = play.commands[place];
    const NightRun& run = play.runs.runs[command.run];
    const std::size_t strike = command.command == NightCommand::cut
                                   ? StrikePlace::none
                                   : stage_.strike_of(run.sequence, command.command);
    if (strike == StrikePlace::none) {
        return;
    }
    counts_.add(strike, strike_s);
    const std::optional<double>& usual = stage_.strikes()[strike].usual_s;
    const double latest = usual ? *usual + terms_.weak_s : std::numeric_limits<double>::infinity();
    if (!stage_.strikes()[strike].cut_short && !(strike_s <= latest)) {
        play.weak[command.run] = true;
    }
}

Result<std::shared_ptr<const HeldStrokes>> NightPlayer::held(const StrokePattern& pattern, bool recurs) {
    if (!recurs) {
        return stage_.cache().held_once(pattern);
    }
    if (const auto found = known_.find(pattern); found != known_.end()) {
        return found->second;
    }
    auto strokes = stage_.cache().held(pattern);
    if (strokes) {
        known_.insert({pattern, *strokes});
    }
    return strokes;
}

/// The strokes of one actuator from `first` on, up to a quiet of its own: strikes and draws go into `play`.
Result<void> NightPlayer::add_held(Play& play, const Bout& bout, std::size_t first) {
    const NightCommand& from = play.commands[first];
    const Micros settles_in = stage_.rests()[from.actuator].settles_in;
    StrokePattern& pattern = play.pattern;
    pattern.commands.clear();
    bool recurs = true;
    Micros quiet = from.time + settles_in;
    const std::size_t strikes = play.strikes.size();
    for (std::size_t i = first; i < bout.last && play.commands[i].time < quiet; ++i) {
        const NightCommand& command = play.commands[i];
        if (command.actuator != from.actuator) {
            continue;
        }
        pattern.commands.push_back(pattern_command(command, from.time));
        play.strikes.emplace_back(i, 0.0);
        play.taken[i - bout.first] = true;
        quiet = command.time + settles_in;
        recurs = recurs && command.run == from.run && command.command != NightCommand::cut;
    }
    pattern.length = quiet - from.time;
    const auto strokes = held(pattern, recurs);
    if (!strokes) {
        return tl::unexpected(strokes.error());
    }
    for (std::size_t i = 0; i < pattern.commands.size(); ++i) {
        play.strikes[strikes + i].second = (*strokes)->strike_s[i];
    }
    for (const HeldStrokes::Draw& draw : (*strokes)->draws) {
        play.draws.push_back({to_s(from.time) + draw.begin_s, draw.flow});
        play.draws.push_back({to_s(from.time) + draw.end_s, -draw.flow});
    }
    return {};
}

/// Takes the draws of the bout. False, and nothing is changed, where the receiver falls below the setting.
bool NightPlayer::take_draws(Play& play) const {
    const QuietReceiver::State before = play.receiver.state();
    const std::size_t points = play.curve != nullptr ? play.curve->points.size() : 0;
    std::ranges::sort(play.draws, {}, &DrawStep::time_s);
    double flow = 0.0;
    for (const DrawStep& step : play.draws) {
        play.receiver.advance_to(step.time_s);
        flow += step.kg_per_s;
        play.receiver.draw(std::max(flow, 0.0));
        if (play.receiver.state().pressure < stage_.model().plant.set_pressure) {
            play.receiver.restore(before);
            if (play.curve != nullptr) {
                play.curve->points.resize(points);
            }
            return false;
        }
    }
    play.receiver.draw(0.0);
    return true;
}

/// Whether the receiver stays at or above the regulator's setting, so that no stroke feels another. Judges
/// the strikes and takes the air if so; else nothing is changed.
Result<bool> NightPlayer::play_held(Play& play, const Bout& bout) {
    if (play.receiver.state().pressure < stage_.model().plant.set_pressure) {
        return false;
    }
    play.draws.clear();
    play.strikes.clear();
    play.taken.assign(bout.last - bout.first, false);
    for (std::size_t first = bout.first; first < bout.last; ++first) {
        if (play.taken[first - bout.first]) {
            continue;
        }
        if (const Result<void> added = add_held(play, bout, first); !added) {
            return tl::unexpected(added.error());
        }
    }
    if (!take_draws(play)) {
        return false;
    }
    for (const auto& [place, strike_s] : play.strikes) {
        judge(play, place, strike_s);
    }
    return true;
}

/// From where the strokes of a bout are to be simulated, the receiver brought there: from their beginning, or
/// before it where the receiver gets to the regulator's setting so shortly before it that the chambers are
/// still warm from filling.
Micros NightPlayer::simulated_from(Play& play, const Bout& bout) const {
    const Micros settling{std::llround(stage_.settling_s() * 1e6)};
    const Micros early = std::max(bout.begin - settling, Micros{0});
    if (to_s(early) > play.receiver.state().time_s) {
        play.receiver.advance_to(to_s(early));
        const double set_pressure = stage_.model().plant.set_pressure;
        if (play.receiver.state().pressure < set_pressure) {
            QuietReceiver ahead = play.receiver;
            ahead.trace(nullptr);
            ahead.advance_to(to_s(bout.begin));
            if (ahead.state().pressure >= set_pressure) {
                return early;
            }
        }
    }
    play.receiver.advance_to(to_s(bout.begin));
    return bout.begin;
}

/// Simulates the bout from `begin` on, where the receiver stands.
Result<void> NightPlayer::play_joint(Play& play, const Bout& bout, Micros begin) {
    StrokePattern& pattern = play.pattern;
    pattern.commands.clear();
    const std::uint32_t group = play.runs.runs[play.commands[bout.first].run].group;
    bool recurs = cached_ && begin == bout.begin;
    for (std::size_t i = bout.first; i < bout.last; ++i) {
        const NightCommand& command = play.commands[i];
        pattern.commands.push_back(pattern_command(command, begin));
        recurs = recurs && play.runs.runs[command.run].group == group && command.command != NightCommand::cut;
    }
    pattern.length = bout.end - begin;
    const QuietReceiver::State& now = play.receiver.state();
    const PlantModel& plant = stage_.model().plant;
    const bool filling = now.on && now.time_s - now.on_since_s > stage_.settling_s();
    const double source = std::min(now.pressure, plant.set_pressure);
    constexpr double near = 20.0;  // Pa
    const bool usual = filling == now.on && std::ranges::all_of(play.receiver.kept(), [&](double kept) {
                           return kept <= source + near;
                       });
    const Result<JointStrokes> strokes =
        recurs && usual
            ? stage_.cache().joint(pattern, now.pressure, now.on)
            : stage_.cache().simulated(pattern, {now.pressure, play.receiver.kept(), now.on, filling});
    if (!strokes) {
        return tl::unexpected(strokes.error());
    }
    for (std::size_t i = bout.first; i < bout.last; ++i) {
        judge(play, i, strokes->strike_s[i - bout.first]);
    }
    play.receiver.take_over(to_s(bout.end), strokes->lowest, strokes->end, strokes->compressor_on,
                            strokes->compressor_on_s, strokes->compressor_starts, strokes->kept);
    return {};
}

Result<void> NightPlayer::play_bout(Play& play, const Bout& bout) {
    const Micros begin = simulated_from(play, bout);
    if (play.receiver.chatters()) {
        return fail("the compressor would start more often than any does, cut-out being so close to cut-in",
                    "air_plant.cut_out_kpa_gauge", "Set cut-out higher, or enter a larger receiver");
    }
    if (begin == bout.begin && (cached_ || !stage_.limited())) {
        const Result<bool> held = play_held(play, bout);
        if (!held || *held) {
            return held.map([](bool) {});
        }
    }
    return play_joint(play, bout, begin);
}

Result<Night> NightPlayer::play(std::uint64_t seed, Curve* receiver) {
    const Micros end{std::llround(terms_.hours * hour_s * 1e6)};
    Play play{arrivals(terms_, seed),
              {},
              {},
              {},
              QuietReceiver(stage_.model().plant, stage_.vessels(), stage_.opening()),
              stage_.limited() ? receiver : nullptr,
              {},
              {},
              {},
              {}};
    play.runs = night_runs(stage_.sequences(), play.arrivals, end);
    play.weak.resize(play.runs.runs.size());
    play.commands = night_commands(stage_.sequences(), play.runs.runs, stage_.model(), stage_.rests());
    play.receiver.trace(play.curve);
    for (const Bout& bout : bouts(play.commands, stage_.rests())) {
        if (cancel_) {
            return Night{};
        }
        if (const Result<void> played = play_bout(play, bout); !played) {
            return tl::unexpected(played.error());
        }
    }
    play.receiver.advance_to(std::max(to_s(end), play.receiver.state().time_s));
    Night night = counted(play, seed);
    sum_up_air(play.receiver, night);
    return night;
}

Night NightPlayer::counted(const Play& play, std::uint64_t seed) const {
    Night night = empty_night(terms_, seed);
    night.groups = static_cast<int>(play.arrivals.size());
    for (std::size_t i = 0; i < play.runs.runs.size(); ++i) {
        const NightRun& run = play.runs.runs[i];
        if (stage_.sequences()[run.sequence].kind == SequenceKind::triggered) {
            NightHour& hour = night.hours[hour_of(to_s(run.begin), night)];
            ++night.delivered;
            hour.delivered += 1.0;
            night.weak += play.weak[i] ? 1 : 0;
            hour.weak += play.weak[i] ? 1.0 : 0.0;
        }
    }
    for (const Refusal& refusal : play.runs.refused) {
        ++night.refused;
        night.hours[hour_of(to_s(refusal.time), night)].refused += 1.0;
    }
    return night;
}

void NightPlayer::sum_up_air(const QuietReceiver& receiver, Night& night) const {
    const QuietReceiver::State& last = receiver.state();
    if (stage_.limited()) {
        night.lowest_kpa_gauge = (last.lowest - stage_.model().plant.ambient_pressure) * 1e-3;
    }
    night.lowest_at_s = last.lowest_at_s;
    night.compressor_on_s = last.on_s;
    night.duty = last.on_s / last.time_s;
    night.compressor_starts = last.starts;
    const std::vector<CompressorRun> runs = receiver.compressor_runs();
    constexpr double ten_minutes_s = 600.0;  // common practice, no source
    night.duty_of_10_min = worst_share(runs, std::min(ten_minutes_s, last.time_s));
    night.starts_in_an_hour = most_starts_within(runs, hour_s);
}

}  // namespace gasp
