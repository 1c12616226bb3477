// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/motion_preview.hpp"

#include "core/air/run/travel.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace gasp {
namespace {

/// Strokes this far apart are taken not to feel each other.
constexpr Micros rest{3'000'000};
/// Strokes before a changed one that are simulated along with it, for the air they leave.
constexpr std::size_t most_before = 2;
/// A stroke that is followed by nothing is simulated for so long.
constexpr Micros longest_tail{12'000'000};
constexpr double slope_step_s = 1e-6;

MotionPoint point_at(const MotionCurve& curve, double time) {
    const double slope =
        (curve.share_at(time + slope_step_s) - curve.share_at(time - slope_step_s)) / (2.0 * slope_step_s);
    return {time, curve.share_at(time), slope};
}

/// Puts the stretch [begin, end] of one motion, which is `later` on the other's clock, at the end of it.
void append(const MotionCurve& from, double begin, double end, double later, MotionCurve& to) {
    const auto put = [&](MotionPoint point) {
        point.time_s += later;
        to.points.push_back(point);
    };
    put(point_at(from, begin));
    auto point = std::ranges::upper_bound(from.points, begin, {}, &MotionPoint::time_s);
    for (; point != from.points.end() && point->time_s < end; ++point) {
        put(*point);
    }
    put(point_at(from, end));
}

/// A command of the last run, and what came of it; null where it moved nothing.
struct Known {
    StrokeCommand command;
    const Stroke* stroke = nullptr;
};

class Preview {
  public:
    Preview(const ActuatorModel& actuator, const PlantModel& plant, const SequenceRun& last, bool rests_out)
        : id_(actuator.id), rests_out_(rests_out), last_(last) {
        alone_.plant = plant;
        alone_.actuators = {actuator};
        preview_.actuator = id_;
        auto stroke = last.air.run->strokes.begin();
        const auto end = last.air.run->strokes.end();
        for (const StrokeCommand& command : last.commands) {
            while (stroke != end && stroke->command.time < command.time) {
                ++stroke;
            }
            if (command.actuator != id_) {
                continue;
            }
            auto own = stroke;
            while (own != end && own->command.time == command.time && own->command != command) {
                ++own;
            }
            const bool moved = own != end && own->command == command;
            known_.push_back({command, moved ? &*own : nullptr});
        }
    }

    MotionPreview make(std::vector<StrokeCommand> commands, Micros length, std::size_t most) {
        commands_ = std::move(commands);
        length_ = length;
        most_ = most;
        find_kept();
        stand_until_first();
        for (std::size_t i = 0; i < commands_.size();) {
            if (kept_[i] != nullptr) {
                keep(i++);
                continue;
            }
            std::size_t after = i;
            while (after < commands_.size() && kept_[after] == nullptr) {
                ++after;
            }
            simulate(i, after);
            i = after;
        }
        return std::move(preview_);
    }

  private:
    template <class Commands>
    static Micros time_of(const Commands& commands, std::size_t i, Micros otherwise) {
        if constexpr (std::is_same_v<Commands, std::vector<Known>>) {
            return i < commands.size() ? commands[i].command.time : otherwise;
        } else {
            return i < commands.size() ? commands[i].time : otherwise;
        }
    }
    [[nodiscard]] Micros until(std::size_t i) const { return time_of(commands_, i + 1, length_); }

    /// Where it stands before a command of either run.
    [[nodiscard]] Coil way_before(std::size_t i) const {
        return i > 0 ? commands_[i - 1].way : (rests_out_ ? Coil::out : Coil::back);
    }
    [[nodiscard]] Coil known_way_before(std::size_t i) const {
        return i > 0 ? known_[i - 1].command.way : (rests_out_ ? Coil::out : Coil::back);
    }

    void find_kept() {
        kept_.assign(commands_.size(), nullptr);
        for (std::size_t i = 0; i < commands_.size(); ++i) {
            const auto known = std::ranges::lower_bound(known_, commands_[i].time, {},
                                                        [](const Known& one) { return one.command.time; });
            if (known != known_.end() && known->command == commands_[i] &&
                begins_alike(i, static_cast<std::size_t>(known - known_.begin())) &&
                ends_alike(i, static_cast<std::size_t>(known - known_.begin()))) {
                kept_[i] = &*known;
            }
        }
    }

    [[nodiscard]] bool begins_alike(std::size_t i, std::size_t known) const {
        if (way_before(i) != known_way_before(known)) {
            return false;
        }
        const Micros at = commands_[i].time;
        const bool same = i > 0 && known > 0 && kept_[i - 1] == &known_[known - 1];
        const bool apart = (i == 0 || at - commands_[i - 1].time >= rest) &&
                           (known == 0 || at - known_[known - 1].command.time >= rest);
        return same || apart;
    }

    [[nodiscard]] bool ends_alike(std::size_t i, std::size_t known) const {
        const Micros now = until(i);
        const Micros then = time_of(known_, known + 1, last_.schedule.length);
        const Stroke* stroke = known_[known].stroke;
        return now == then || stroke == nullptr ||
               (stroke->end == StrokeEnd::arrives && stroke->reached_s[3] &&
                *stroke->reached_s[3] <= to_s(std::min(now, then) - commands_[i].time));
    }

    void stand_until_first() {
        const double share = rests_out_ ? 1.0 : 0.0;
        preview_.motion.points.push_back({0.0, share, 0.0});
    }

    void keep(std::size_t i) {
        const Known& known = *kept_[i];
        const auto place = static_cast<std::size_t>(&known - known_.data());
        const Micros end = std::min(until(i), time_of(known_, place + 1, last_.schedule.length));
        const ActuatorRun* run = last_.air.run->find(id_);
        if (run != nullptr) {
            append(run->motion, to_s(known.command.time), to_s(end), 0.0, preview_.motion);
        }
        if (known.stroke != nullptr) {
            preview_.strokes.push_back(*known.stroke);
        }
    }

    /// The commands [first, after), with some before them.
    void simulate(std::size_t first, std::size_t after) {
        std::size_t from = first;
        while (from > 0 && first - from < most_before &&
               commands_[from].time - commands_[from - 1].time < rest) {
            --from;
        }
        const Micros begin = commands_[from].time;
        const Micros end = std::min(until(after - 1), commands_[after - 1].time + longest_tail);
        preview_.ahead.push_back({commands_[first].time, end});
        if (preview_.simulated + (after - from) > most_) {
            preview_.whole = false;
            return;
        }
        preview_.simulated += after - from;
        std::vector<StrokeCommand> shifted(commands_.begin() + static_cast<std::ptrdiff_t>(from),
                                           commands_.begin() + static_cast<std::ptrdiff_t>(after));
        for (StrokeCommand& command : shifted) {
            command.time -= begin;
        }
        const Result<AirRun> run = run_air(alone_, shifted, end - begin, options(from));
        const ActuatorRun* figure = run ? run->find(id_) : nullptr;
        if (figure == nullptr) {
            preview_.whole = false;
            return;
        }
        append(figure->motion, to_s(commands_[first].time - begin), to_s(end - begin), to_s(begin),
               preview_.motion);
        for (Stroke stroke : run->strokes) {
            stroke.command.time += begin;
            if (stroke.command.time >= commands_[first].time) {
                preview_.strokes.push_back(std::move(stroke));
            }
        }
    }

    [[nodiscard]] AirOptions options(std::size_t from) const {
        AirOptions options;
        const Curve& receiver = last_.air.run->receiver_kpa;
        if (!receiver.points.empty()) {
            options.receiver_kpa_gauge = receiver.at(commands_[from].time);
        }
        if (way_before(from) == Coil::out) {
            options.out_at_start = {id_};
        }
        return options;
    }

    ActuatorId id_;
    bool rests_out_;
    const SequenceRun& last_;
    AirModel alone_;
    std::vector<Known> known_;
    std::vector<StrokeCommand> commands_;
    Micros length_{0};
    std::size_t most_ = 0;
    std::vector<const Known*> kept_;  ///< of each command; null: it is simulated
    MotionPreview preview_;
};

}  // namespace

std::optional<MotionPreview> preview_motion(const Show& show, const Sequence& cues, ActuatorId id,
                                            const SequenceRun& last, const AirModel& model,
                                            std::size_t most_strokes) {
    const Actuator* actuator = find(show, id);
    const ActuatorModel* simulated = model.find(id);
    if (actuator == nullptr || !last.air.run) {
        return {};
    }
    std::vector<StrokeCommand> commands = stroke_commands(show, resolve(show, cues));
    std::erase_if(commands, [id](const StrokeCommand& command) { return command.actuator != id; });
    const bool out = rests_out(show, *actuator);
    if (simulated == nullptr) {
        MotionPreview stated;
        stated.actuator = id;
        stated.motion = motion_of(travel(*actuator, commands, out));
        return stated;
    }
    return Preview(*simulated, model.plant, last, out).make(std::move(commands), cues.length, most_strokes);
}

}  // namespace gasp
