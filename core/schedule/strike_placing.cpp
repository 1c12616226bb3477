// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/strike_placing.hpp"

#include "core/air/run/travel.hpp"
#include "core/schedule/schedule.hpp"
#include "core/schedule/ticks.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace gasp {
namespace {

constexpr int most_rounds = 8;
constexpr int rounds_before_halving = 4;
constexpr Micros near_enough{20};
/// A strike further off than this, after all rounds, is not met.
constexpr Micros met_within{2'000};
constexpr Micros alone_apart{20'000'000};
constexpr double back_share = 0.98;

Micros micros(double seconds) {
    return Micros{std::llround(seconds * 1e6)};
}

/// What an actuator does on its own, at the pressure there is at rest.
struct Alone {
    std::optional<Micros> lead;     ///< to the strike
    std::optional<Micros> arrival;  ///< to the end of the way
};

/// Places the strikes of one sequence, of which it keeps the cues of valves alone.
class Placer {
  public:
    Placer(const Show& show, const Sequence& sequence, const AirPlayer& play) : show_(show), play_(play) {
        valves_.id = sequence.id;
        valves_.length = sequence.length;
        valves_.marks = sequence.marks;
        for (const Cue& cue : sequence.cues) {
            const Channel* channel = find(show, cue.channel);
            if (channel != nullptr && channel->kind == ChannelKind::valve && channel->actuator) {
                take(sequence, cue, *channel);
            }
        }
    }

    std::vector<PlacedStrike> place() {
        for (int round = 0; round < most_rounds && !strikes_.empty(); ++round) {
            if (!improve(round >= rounds_before_halving)) {
                break;
            }
        }
        judge();
        return std::move(strikes_);
    }

  private:
    void take(const Sequence& sequence, const Cue& cue, const Channel& channel) {
        valves_.cues.push_back(cue);
        if (!cue.strikes) {
            return;
        }
        const Actuator& actuator = *find(show_, *channel.actuator);
        PlacedStrike strike;
        strike.cue = cue.id;
        strike.actuator = actuator.id;
        const bool powered = load_on(channel.contact, true);
        strike.way = actuator.valve.kind == ValveKind::five_two_two_coils
                         ? channel.coil
                         : (powered ? Coil::out : Coil::back);
        strike.wanted = start_of(sequence, cue);
        strikes_.push_back(strike);
        places_.push_back(valves_.cues.size() - 1);
        ticks_.push_back(tick_of(show_, channel));
        valves_.cues.back().strikes = false;
        valves_.cues.back().mark.reset();
        move(strikes_.size() - 1, strike.wanted - alone(strike).lead.value_or(Micros{0}));
    }

    void move(std::size_t i, Micros start) {
        const Micros before = valves_.cues[places_[i]].at;
        strikes_[i].start = std::clamp(start, Micros{0}, valves_.length);
        valves_.cues[places_[i]].at = strikes_[i].start;
        played_ = played_ && strikes_[i].start == before;
    }

    void play() {
        if (played_) {
            return;
        }
        played_ = true;
        commands_ = stroke_commands(show_, resolve(show_, valves_));
        run_ = play_(commands_, valves_.length);
    }

    /// The stroke that a cue's start gives rise to; null where there is none.
    [[nodiscard]] const Stroke* stroke_of(std::size_t i) const {
        if (!run_) {
            return nullptr;
        }
        const Micros at = on_tick(strikes_[i].start, ticks_[i]);
        const auto begin = std::ranges::lower_bound(run_->strokes, at, {},
                                                    [](const Stroke& stroke) { return stroke.command.time; });
        for (auto stroke = begin; stroke != run_->strokes.end() && stroke->command.time == at; ++stroke) {
            if (stroke->command.actuator == strikes_[i].actuator && stroke->command.way == strikes_[i].way) {
                return &*stroke;
            }
        }
        return nullptr;
    }

    /// One round; false when nothing moved.
    bool improve(bool halve) {
        play();
        bool moved = false;
        for (std::size_t i = 0; i < strikes_.size(); ++i) {
            const Stroke* stroke = stroke_of(i);
            const auto lead = stroke != nullptr && stroke->strike_s() ? micros(*stroke->strike_s())
                                                                      : alone(strikes_[i]).lead;
            if (!lead) {
                continue;
            }
            const Micros before = strikes_[i].start;
            const Micros wanted = strikes_[i].wanted - *lead;
            move(i, halve ? before + (wanted - before) / 2 : wanted);
            moved = moved || std::chrono::abs(strikes_[i].start - before) > near_enough;
        }
        return moved;
    }

    /// What came of each of them.
    void judge() {
        if (strikes_.empty()) {
            return;
        }
        play();
        for (std::size_t i = 0; i < strikes_.size(); ++i) {
            judge(i);
        }
    }

    void judge(std::size_t i) {
        PlacedStrike& strike = strikes_[i];
        const Stroke* stroke = stroke_of(i);
        const Alone own = alone(strike);
        const bool simulated = run_ && run_->find(strike.actuator) != nullptr;
        if (stroke != nullptr && stroke->strike_s()) {
            strike.lead = micros(*stroke->strike_s());
        } else {
            strike.lead = own.lead;
            strike.stated = !simulated && own.lead.has_value();
            strike.fault = !own.lead   ? (simulated ? StrikeFault::does_not_arrive : StrikeFault::not_known)
                           : simulated ? StrikeFault::does_not_arrive
                                       : StrikeFault::none;
            if (!strike.lead) {
                return;
            }
        }
        const Micros off = strike.start + *strike.lead - strike.wanted;
        if (strike.start == Micros{0} && off > met_within) {
            strike.fault = StrikeFault::before_start;
            strike.earliest = *strike.lead;
        } else if (const auto back_at = still_returning(i)) {
            strike.fault = StrikeFault::still_returning;
            strike.earliest = *back_at + own.lead.value_or(*strike.lead);
        } else if (std::chrono::abs(off) > met_within && strike.fault == StrikeFault::none) {
            strike.fault = StrikeFault::does_not_arrive;
        }
    }

    /// When it would be back at its end, if it is not when its cue starts.
    [[nodiscard]] std::optional<Micros> still_returning(std::size_t i) {
        const PlacedStrike& strike = strikes_[i];
        const Micros at = on_tick(strike.start, ticks_[i]);
        std::optional<Micros> sent_away;
        for (const StrokeCommand& command : commands_) {
            if (command.actuator == strike.actuator && command.time <= at && command.way != strike.way) {
                sent_away = command.time;
            }
        }
        if (!sent_away) {
            return {};
        }
        const Coil away = strike.way == Coil::out ? Coil::back : Coil::out;
        const auto arrival = alone(strike.actuator, away).arrival;
        const ActuatorRun* figure = run_ ? run_->find(strike.actuator) : nullptr;
        if (figure != nullptr) {
            const double share = figure->motion.share_at(at);
            const double from_end = strike.way == Coil::out ? share : 1.0 - share;
            if (from_end <= 1.0 - back_share) {
                return {};
            }
        } else if (!arrival || *sent_away + *arrival <= at) {
            return {};
        }
        return *sent_away + arrival.value_or(at - *sent_away);
    }

    Alone alone(const PlacedStrike& strike) { return alone(strike.actuator, strike.way); }

    const Alone& alone(ActuatorId id, Coil way) {
        const auto [known, fresh] = alone_.try_emplace({id, way});
        if (fresh) {
            known->second = play_alone(id, way);
        }
        return known->second;
    }

    /// Sent out, and long after back.
    [[nodiscard]] Alone play_alone(ActuatorId id, Coil way) const {
        const std::vector<StrokeCommand> both{{Micros{0}, id, Coil::out}, {alone_apart, id, Coil::back}};
        const auto run = play_(both, 2 * alone_apart);
        for (const Stroke& stroke : run ? run->strokes : std::vector<Stroke>{}) {
            if (stroke.command.actuator == id && stroke.command.way == way) {
                const auto time = [](const std::optional<double>& seconds) {
                    return seconds ? std::optional(micros(*seconds)) : std::nullopt;
                };
                return {time(stroke.reached_s[2]), time(stroke.reached_s[3])};
            }
        }
        const Actuator& actuator = *find(show_, id);
        return {stated_lead(actuator, way, strike_share), stated_lead(actuator, way, 1.0)};
    }

    const Show& show_;
    const AirPlayer& play_;
    Sequence valves_;  ///< its cues are those of valves; those that strike are placed by their starts
    std::vector<PlacedStrike> strikes_;
    std::vector<std::size_t> places_;  ///< of each strike's cue among those
    std::vector<Micros> ticks_;        ///< of each strike's channel
    std::vector<StrokeCommand> commands_;
    std::optional<AirRun> run_;
    bool played_ = false;  ///< the run is that of the starts as they are
    std::map<std::pair<ActuatorId, Coil>, Alone> alone_;
};

}  // namespace

std::vector<PlacedStrike> place_strikes(const Show& show, const Sequence& sequence, const AirPlayer& play) {
    return Placer(show, sequence, play).place();
}

bool has_strikes(const Sequence& sequence) {
    return std::ranges::any_of(sequence.cues, &Cue::strikes);
}

Sequence placed(const Sequence& sequence, std::span<const PlacedStrike> strikes) {
    Sequence result = sequence;
    // Both are in the order of the ids.
    auto strike = strikes.begin();
    for (Cue& cue : result.cues) {
        if (!cue.strikes) {
            continue;
        }
        cue.strikes = false;
        while (strike != strikes.end() && strike->cue < cue.id) {
            ++strike;
        }
        if (strike != strikes.end() && strike->cue == cue.id) {
            cue.at += strike->start - strike->wanted;
        }
    }
    return result;
}

}  // namespace gasp
