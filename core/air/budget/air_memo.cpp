// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/budget/air_memo.hpp"

#include "core/air/run/receiver_line.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace gasp {
namespace {

constexpr double settled_after = 6.0;  // time constants: what is left is a 400th
/// How long the end of an episode is looked at; whatever takes longer is taken together with what follows.
constexpr double longest_stroke_s = 12.0;
/// Rests are taken as a multiple of this, so that a cue moved a little leaves its neighbours as they were.
constexpr Micros rest_step{500'000};
constexpr double reservoir_full_within_kpa = 0.5;
constexpr std::size_t episodes_kept = 20'000;
constexpr std::size_t wholes_kept = 64;
constexpr std::size_t firsts_kept = 1000;

/// In which a chamber's air takes the temperature around: m cv / (h S), the slower of its two ends.
double settling_time_s(const ActuatorModel& model, const PlantModel& plant) {
    if (model.law == ChamberLaw::isothermal) {
        return 0.0;
    }
    if (model.law != ChamberLaw::wall_heat || model.heat_transfer <= 0.0) {
        return std::numeric_limits<double>::infinity();
    }
    const auto constant = [&](double pressure, double travel) {
        const double volume = model.dead_volume + model.tube_volume + model.out_area * travel;
        const double mass = pressure * volume / (gas_constant * plant.ambient_temperature);
        const double surface = 2.0 * model.out_area +
                               std::numbers::pi * model.bore * (travel + model.dead_volume / model.out_area);
        return mass * heat_cv / (model.heat_transfer * surface);
    };
    const double highest = std::max(plant.set_pressure, plant.ambient_pressure);
    // At rest the chamber at its dead volume is the one that is vented.
    return settled_after * std::max(constant(highest, model.stroke), constant(plant.ambient_pressure, 0.0));
}

std::int64_t bits(double value) {
    return std::bit_cast<std::int64_t>(value);
}

}  // namespace

/// Strokes of one actuator from rest, times from the first command.
struct AirMemo::Episode {
    std::vector<Stroke> strokes;
    ActuatorRun run;
    std::vector<CurvePoint> drawn_kg;  ///< from the receiver, added up
    std::size_t steps = 0;
    bool reservoir_full = true;
};

std::size_t AirMemo::Hash::operator()(const Key& key) const {
    std::uint64_t hash = 14695981039346656037U;
    for (const std::int64_t part : key) {
        hash = (hash ^ static_cast<std::uint64_t>(part)) * 1099511628211U;
        hash ^= hash >> 29;
    }
    return hash;
}

AirMemo::AirMemo() : models_(1) {}
AirMemo::~AirMemo() = default;
AirMemo::AirMemo(AirMemo&&) noexcept = default;
AirMemo& AirMemo::operator=(AirMemo&&) noexcept = default;

void AirMemo::take(const Show& show) {
    std::map<ActuatorId, Figures> figures;
    bool changed = models_.size() < 1 + variations || figures_.size() != show.rig.actuators.size();
    for (const Actuator& actuator : show.rig.actuators) {
        const auto known = figures_.find(actuator.id);
        if (known != figures_.end() && known->second.actuator == actuator &&
            known->second.plant == show.rig.air_plant) {
            figures.insert(*known);
        } else {
            figures[actuator.id] = {show.rig.air_plant, actuator, ++last_number_};
            changed = true;
        }
    }
    if (!changed) {
        return;
    }
    figures_ = std::move(figures);
    wholes_.clear();
    AirModel fitted = fitted_air_model(show);
    auto varied = varied_air_models(show, fitted);
    models_.clear();
    models_.push_back(std::move(fitted));
    std::ranges::move(varied, std::back_inserter(models_));
}

Result<std::shared_ptr<const AirMemo::Episode>> AirMemo::episode(std::size_t model, const ActuatorModel& each,
                                                                 std::span<const StrokeCommand> commands,
                                                                 bool out, Micros tail) {
    Key key{figures_.at(each.id).number, static_cast<std::int64_t>(model) * 2 + (out ? 1 : 0), tail.count()};
    const Micros begin = commands.front().time;
    for (const StrokeCommand& command : commands) {
        key.push_back((command.time - begin).count() * 2 + (command.way == Coil::out ? 1 : 0));
    }
    if (const auto found = fresh_.find(key); found != fresh_.end()) {
        return found->second;
    }
    if (const auto found = old_.find(key); found != old_.end()) {
        return fresh_[key] = found->second;
    }
    AirModel alone;
    alone.plant = models_[model].plant;
    alone.actuators = {each};
    // A receiver of its own that is high enough not to matter and small enough for its fall to be read.
    PlantModel& plant = alone.plant;
    const double volume = each.out_area * each.stroke + 2.0 * (each.dead_volume + each.tube_volume);
    plant.receiver = 1.5 * volume * static_cast<double>(commands.size() + 1);
    plant.cut_in = plant.cut_out = plant.delivery = plant.delivery_slope = plant.leak.c = 0.0;
    const double start = 2.0 * std::max(plant.set_pressure, plant.ambient_pressure);
    AirOptions options;
    options.receiver_kpa_gauge = (start - plant.ambient_pressure) * 1e-3;
    if (out) {
        options.out_at_start = {each.id};
    }
    std::vector<StrokeCommand> shifted(commands.begin(), commands.end());
    for (StrokeCommand& command : shifted) {
        command.time -= begin;
    }
    Result<AirRun> run = simulate(alone, shifted, shifted.back().time + tail, options);
    if (!run) {
        return tl::unexpected(run.error());
    }
    auto made = std::make_shared<Episode>();
    made->strokes = std::move(run->strokes);
    made->steps = run->steps;
    const double kg_per_kpa = 1e3 * plant.receiver / (gas_constant * plant.ambient_temperature);
    for (const CurvePoint& point : run->receiver_kpa.points) {
        made->drawn_kg.push_back({point.time_s, (*options.receiver_kpa_gauge - point.value) * kg_per_kpa});
    }
    if (const ActuatorRun* own = run->find(each.id)) {
        made->run = *own;
    }
    const double set = (plant.set_pressure - plant.ambient_pressure) * 1e-3;
    made->reservoir_full = made->run.reservoir_kpa.points.empty() ||
                           made->run.reservoir_kpa.points.back().value > set - reservoir_full_within_kpa;
    if (fresh_.size() >= episodes_kept) {
        old_ = std::exchange(fresh_, {});
    }
    return fresh_[std::move(key)] = std::move(made);
}

/// Puts episodes into one run.
class AirMemo::Composer {
  public:
    Composer(AirMemo& memo, std::size_t model, Micros length, bool curves)
        : memo_(memo), model_(model), plant_(memo.models_[model].plant), length_(length), curves_(curves) {}

    /// The commands of one actuator; `places` are theirs in the run.
    Result<void> add(const ActuatorModel& each, std::span<const StrokeCommand> commands,
                     std::span<const std::size_t> places, bool out) {
        const double settling = settling_time_s(each, plant_);
        const auto gap_s = [&](std::size_t i) { return to_s(gap_after(commands, i)); };
        ActuatorRun whole;
        whole.actuator = each.id;
        for (std::size_t first = 0; first < commands.size();) {
            std::size_t last = first;  // of the episode
            std::shared_ptr<const Episode> found;
            for (std::size_t more = 1;; more *= 2) {
                while (last + 1 < commands.size() && gap_s(last) < settling) {
                    ++last;
                }
                Micros tail = std::min(gap_after(commands, last), longest_tail(settling));
                if (last + 1 < commands.size()) {
                    tail = std::max(tail - tail % rest_step, std::min(tail, rest_step));
                }
                const auto own = commands.subspan(first, last - first + 1);
                auto made = memo_.episode(model_, each, own, out, tail);
                if (!made) {
                    return tl::unexpected(made.error());
                }
                found = std::move(*made);
                if (last + 1 == commands.size() || is_settled(*found, to_s(tail), settling)) {
                    break;
                }
                last = std::min(last + more, commands.size() - 1);
            }
            append(*found, to_s(commands[first].time), places.subspan(first, last - first + 1), whole);
            out = commands[last].way == Coil::out;
            first = last + 1;
        }
        if (curves_) {
            run_.actuators.push_back(std::move(whole));
        }
        return {};
    }

    void make_room(std::size_t strokes) {
        run_.strokes.resize(strokes);
        moves_.resize(strokes);
    }

    /// Empty where the receiver falls below the regulator, so that none of this holds.
    [[nodiscard]] std::optional<AirRun> take(double start) {
        std::size_t place = 0;
        std::erase_if(run_.strokes, [&](const Stroke&) { return !moves_[place++]; });
        if (std::isinf(plant_.receiver)) {
            level();
            return std::move(run_);
        }
        ReceiverLine line = receiver_line(plant_, start, std::move(draws_), to_s(length_));
        if (line.lowest_kpa < (plant_.set_pressure - plant_.ambient_pressure) * 1e-3) {
            return {};
        }
        run_.receiver_kpa = std::move(line.kpa);
        run_.lowest_receiver_kpa = line.lowest_kpa;
        run_.lowest_at = Micros{std::llround(line.lowest_at_s * 1e6)};
        run_.compressor_on_s = line.compressor_on_s;
        run_.compressor_starts = line.compressor_starts;
        set_pressures();
        return std::move(run_);
    }

  private:
    [[nodiscard]] Micros gap_after(std::span<const StrokeCommand> commands, std::size_t i) const {
        return (i + 1 < commands.size() ? commands[i + 1].time : std::max(length_, commands[i].time)) -
               commands[i].time;
    }
    static Micros longest_tail(double settling) {
        return Micros{std::llround(std::min(settling + longest_stroke_s, 86'400.0) * 1e6)};
    }
    static bool is_settled(const Episode& episode, double rest, double settling) {
        if (episode.strokes.empty()) {
            return true;
        }
        const Stroke& last = episode.strokes.back();
        return last.shifted && last.end == StrokeEnd::arrives && last.reached_s[3] &&
               *last.reached_s[3] + settling <= rest && episode.reservoir_full;
    }

    void append(const Episode& episode, double at, std::span<const std::size_t> places, ActuatorRun& whole) {
        // A command that moves nothing, as a second one out, has no stroke.
        const Micros begin = run_.strokes[places.front()].command.time;
        auto place = places.begin();
        for (const Stroke& each : episode.strokes) {
            const Micros time = begin + each.command.time;
            while (run_.strokes[*place].command.time != time ||
                   run_.strokes[*place].command.way != each.command.way) {
                ++place;
            }
            Stroke& stroke = run_.strokes[*place];
            stroke = each;
            stroke.command.time = time;
            moves_[*place] = true;
            run_.free_air_l += stroke.free_air_l;
            run_.left_receiver_l += stroke.left_receiver_l;
        }
        run_.steps += episode.steps;
        for (std::size_t i = 0; i + 1 < episode.drawn_kg.size(); ++i) {
            const CurvePoint& a = episode.drawn_kg[i];
            const CurvePoint& b = episode.drawn_kg[i + 1];
            const double rate = b.time_s > a.time_s ? (b.value - a.value) / (b.time_s - a.time_s) : 0.0;
            if (rate != 0.0) {
                draws_.push_back({at + a.time_s, rate});
                draws_.push_back({at + b.time_s, -rate});
            }
        }
        if (curves_) {
            append_curve(episode.run.motion.points, at, whole.motion.points);
            append_curve(episode.run.out_kpa.points, at, whole.out_kpa.points);
            append_curve(episode.run.back_kpa.points, at, whole.back_kpa.points);
            append_curve(episode.run.reservoir_kpa.points, at, whole.reservoir_kpa.points);
        }
    }

    template <class Point>
    static void append_curve(const std::vector<Point>& from, double at, std::vector<Point>& to) {
        for (Point point : from) {
            point.time_s += at;
            to.push_back(point);
        }
    }

    void level() {
        const double set = (plant_.set_pressure - plant_.ambient_pressure) * 1e-3;
        run_.receiver_kpa.points = {{0.0, set}, {to_s(length_), set}};
        run_.lowest_receiver_kpa = set;
        for (Stroke& stroke : run_.strokes) {
            stroke.receiver_kpa = stroke.receiver_at_strike_kpa = stroke.lowest_receiver_kpa = set;
        }
    }

    /// What each stroke finds in the receiver.
    void set_pressures() {
        std::map<ActuatorId, double> next;  // command of the same actuator
        const std::vector<CurvePoint>& points = run_.receiver_kpa.points;
        for (auto stroke = run_.strokes.rbegin(); stroke != run_.strokes.rend(); ++stroke) {
            const double begin = to_s(stroke->command.time);
            const auto after = next.find(stroke->command.actuator);
            const double end = after != next.end() ? after->second : to_s(length_);
            next[stroke->command.actuator] = begin;
            stroke->receiver_kpa = run_.receiver_kpa.at(begin);
            stroke->receiver_at_strike_kpa =
                run_.receiver_kpa.at(begin + stroke->strike_s().value_or(end - begin));
            double lowest = std::min(stroke->receiver_kpa, run_.receiver_kpa.at(end));
            for (auto point = std::ranges::lower_bound(points, begin, {}, &CurvePoint::time_s);
                 point != points.end() && point->time_s < end; ++point) {
                lowest = std::min(lowest, point->value);
            }
            stroke->lowest_receiver_kpa = lowest;
        }
    }

    AirMemo& memo_;
    std::size_t model_;
    const PlantModel& plant_;
    Micros length_;
    bool curves_;
    AirRun run_;
    std::vector<DrawStep> draws_;
    std::vector<bool> moves_;  ///< of each command: it has a stroke

    friend class AirMemo;
};

Result<AirRun> AirMemo::simulate(const AirModel& model, std::span<const StrokeCommand> commands,
                                 Micros length, const AirOptions& options) {
    simulated_ += commands.size();
    AirOptions stoppable = options;
    stoppable.stopped = stopped_;
    return run_air(model, commands, length, stoppable);
}

Result<std::shared_ptr<const AirRun>> AirMemo::whole(std::size_t model,
                                                     std::span<const StrokeCommand> commands, Micros length,
                                                     const AirOptions& options) {
    Key key{static_cast<std::int64_t>(model), length.count(),
            bits(options.receiver_kpa_gauge.value_or(-1.0))};
    for (const ActuatorId id : options.out_at_start) {
        key.push_back(-std::int64_t{id.value});
    }
    for (const StrokeCommand& command : commands) {
        key.push_back(command.time.count() * 2 + (command.way == Coil::out ? 1 : 0));
        key.push_back(command.actuator.value);
    }
    if (const auto found = wholes_.find(key); found != wholes_.end()) {
        return found->second;
    }
    AirOptions wanted = options;
    wanted.curves = model == 0;
    Result<AirRun> run = simulate(models_[model], commands, length, wanted);
    if (!run) {
        return tl::unexpected(run.error());
    }
    if (wholes_.size() >= wholes_kept) {
        wholes_.clear();
    }
    return wholes_[std::move(key)] = std::make_shared<const AirRun>(std::move(*run));
}

Result<AirRun> AirMemo::run(std::size_t model, std::span<const StrokeCommand> commands, Micros length,
                            const AirOptions& options) {
    const PlantModel& plant = models_[model].plant;
    const double start = options.receiver_kpa_gauge
                             ? plant.ambient_pressure + *options.receiver_kpa_gauge * 1e3
                             : plant.cut_in;
    const bool apart = std::isinf(plant.receiver) || (plant.cut_out > 0.0 && start >= plant.set_pressure);
    if (apart) {
        Composer composer(*this, model, length, model == 0);
        std::map<ActuatorId, std::pair<std::vector<StrokeCommand>, std::vector<std::size_t>>> of;
        std::size_t strokes = 0;
        std::vector<StrokeCommand> known;
        for (const StrokeCommand& command : commands) {
            if (models_[model].find(command.actuator) != nullptr) {
                of[command.actuator].first.push_back(command);
                of[command.actuator].second.push_back(strokes++);
                known.push_back(command);
            }
        }
        composer.make_room(strokes);
        for (std::size_t i = 0; i < strokes; ++i) {
            composer.run_.strokes[i].command = known[i];
        }
        for (const ActuatorModel& each : models_[model].actuators) {
            const auto own = of.find(each.id);
            const bool out = std::ranges::find(options.out_at_start, each.id) != options.out_at_start.end();
            if (own != of.end()) {
                const auto added = composer.add(each, own->second.first, own->second.second, out);
                if (!added) {
                    return tl::unexpected(added.error());
                }
            }
        }
        if (auto run = composer.take(start)) {
            return std::move(*run);
        }
    }
    const auto run = whole(model, commands, length, options);
    if (!run) {
        return tl::unexpected(run.error());
    }
    return **run;
}

Result<std::vector<StrokeBand>> AirMemo::bands(const Show& show, const AirRun& nominal,
                                               std::span<const StrokeCommand> commands, Micros length,
                                               const AirOptions& options) {
    std::vector<AirRun> varied;
    for (std::size_t model = 1; model < models_.size(); ++model) {
        Result<AirRun> run = this->run(model, commands, length, options);
        if (!run) {
            return tl::unexpected(run.error());
        }
        varied.push_back(std::move(*run));
    }
    return stroke_bands(show, nominal, varied);
}

Result<BandedStroke> AirMemo::first(const Show& show, ActuatorId actuator) {
    const std::int64_t number = figures_.at(actuator).number;
    if (const auto found = firsts_.find(number); found != firsts_.end()) {
        return found->second;
    }
    std::vector<Stroke> strokes;
    for (const AirModel& model : models_) {
        Result<Stroke> stroke = first_stroke(model, actuator);
        if (!stroke) {
            return tl::unexpected(stroke.error());
        }
        strokes.push_back(*stroke);
    }
    simulated_ += strokes.size();
    const bool measured = is_measured(find(show, actuator)->fit);
    BandedStroke made{strokes.front(), stroke_band(strokes.front(), std::span(strokes).subspan(1), measured)};
    if (firsts_.size() >= firsts_kept) {
        firsts_.clear();
    }
    return firsts_[number] = made;
}

}  // namespace gasp
