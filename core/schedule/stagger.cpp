// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/stagger.hpp"

#include "core/schedule/sequence_run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace gasp {
namespace {

constexpr int most_asked = 160;
constexpr int halvings = 6;
constexpr std::size_t most_cues = 16;
constexpr Micros whole_step{1'000};
constexpr std::array<double, 4> tried{-1.0, -0.5, 0.5, 1.0};  // of the freedom

/// Looks for shifts; the sequence it keeps is the one with those found so far.
class Search {
  public:
    Search(const Show& show, const Sequence& sequence, double limit,
           const std::function<std::optional<double>(const Sequence&)>& lowest)
        : limit_(limit), lowest_(lowest), shifted_(sequence) {
        for (std::size_t i = 0; i < sequence.cues.size() && movable_.size() < most_cues; ++i) {
            const Cue& cue = sequence.cues[i];
            const Channel* channel = find(show, cue.channel);
            if (channel == nullptr || channel->kind != ChannelKind::valve || cue.freedom <= Micros{0}) {
                continue;
            }
            if (cue.strikes && cue.mark) {
                any_tied_ = true;
            } else {
                movable_.push_back(i);
                by_.push_back(Micros{0});
            }
        }
    }

    Result<void> find_shifts() {
        best_ = ask();
        if (best_ >= limit_) {
            return fail("the receiver holds up as it is");
        }
        if (movable_.empty()) {
            return any_tied_ ? fail("every cue with freedom strikes on a mark, and stays there", {},
                                    "Free one from its mark, or fit a reservoir beside the prop")
                             : fail("no cue of a valve has freedom to move", {},
                                    "Give cues freedom to stagger, or fit a reservoir beside the prop");
        }
        bool helps = true;
        while (helps && best_ < limit_ && asked_ < most_asked) {
            helps = take_best_move();
        }
        if (best_ < limit_ || !take_back()) {
            return fail("moved apart as far as their freedom goes, the cues still take too much air", {},
                        "Give them more freedom, or fit a reservoir beside the prop");
        }
        return {};
    }

    [[nodiscard]] std::vector<Stagger::Shift> shifts() const {
        std::vector<Stagger::Shift> shifts;
        for (std::size_t i = 0; i < movable_.size(); ++i) {
            if (by_[i] != Micros{0}) {
                shifts.push_back({shifted_.cues[movable_[i]].id, by_[i]});
            }
        }
        return shifts;
    }
    [[nodiscard]] double lowest() const { return best_; }

  private:
    double ask() {
        ++asked_;
        return lowest_(shifted_).value_or(-std::numeric_limits<double>::infinity());
    }

    void put(std::size_t i, Micros by) {
        Cue& cue = shifted_.cues[movable_[i]];
        cue.at += by - by_[i];
        by_[i] = by;
    }

    bool take_best_move() {
        std::size_t best_cue = 0;
        Micros best_by{0};
        double best = best_;
        for (std::size_t i = 0; i < movable_.size() && asked_ < most_asked; ++i) {
            const Micros before = by_[i];
            const Cue& cue = shifted_.cues[movable_[i]];
            const Micros freedom = cue.freedom;
            for (const double share : tried) {
                const Micros by{std::llround(share * static_cast<double>(freedom.count()))};
                if (by == before || start_of(shifted_, cue) + by - before < Micros{0}) {
                    continue;
                }
                put(i, by);
                const double now = ask();
                put(i, before);
                if (now > best) {
                    best = now;
                    best_cue = i;
                    best_by = by;
                }
            }
        }
        if (best <= best_) {
            return false;
        }
        put(best_cue, best_by);
        best_ = best;
        return true;
    }

    /// Of each shift, what is not needed.
    bool take_back() {
        for (std::size_t i = 0; i < movable_.size(); ++i) {
            Micros enough = by_[i];
            Micros too_little{0};
            if (enough == Micros{0}) {
                continue;
            }
            for (int halving = 0; halving < halvings; ++halving) {
                const Micros half{(enough + too_little) / 2};
                put(i, half - half % whole_step);
                (ask() >= limit_ ? enough : too_little) = by_[i];
            }
            put(i, enough);
        }
        best_ = ask();
        return best_ >= limit_;
    }

    double limit_;
    const std::function<std::optional<double>(const Sequence&)>& lowest_;
    Sequence shifted_;
    std::vector<std::size_t> movable_;
    std::vector<Micros> by_;  ///< of each of them
    double best_ = 0.0;
    bool any_tied_ = false;  ///< a cue that could move but for its mark
    int asked_ = 0;
};

Edit edit_of(const Show& show, SequenceId sequence, const std::vector<Stagger::Shift>& shifts) {
    Edit all;
    Show moved = show;
    for (const Stagger::Shift& shift : shifts) {
        const std::array ids{shift.cue};
        const Edit edit = move_cues(moved, sequence, ids, shift.by);
        apply(edit, moved);
        all = all.empty() ? edit : joined(all, edit);
    }
    all.sentence = "move cues apart for the air";
    return all;
}

constexpr std::array usual_litres{0.4, 0.75, 1.0, 2.0, 3.0, 5.0, 10.0, 15.0, 24.0};
constexpr double feed_length_m = 1.0;
constexpr double feed_bore_mm = 6.0;
/// A strike is as if alone when it is later by neither more than both.
constexpr double later_share = 0.05;
constexpr double later_s = 0.01;

/// The latest strike out of an actuator; infinite where one does not come.
double latest_strike(const SequenceRun& run, ActuatorId actuator) {
    double latest = 0.0;
    for (const Stroke& stroke : run.air.run ? run.air.run->strokes : std::vector<Stroke>{}) {
        if (stroke.command.actuator == actuator && stroke.command.way == Coil::out) {
            latest = std::max(latest, stroke.strike_s().value_or(std::numeric_limits<double>::infinity()));
        }
    }
    return latest;
}

/// Out, with the receiver full.
std::optional<double> strike_alone(AirMemo& memo, ActuatorId actuator) {
    const std::array lone{StrokeCommand{Micros{0}, actuator, Coil::out}};
    AirOptions full;
    const PlantModel& plant = memo.model().plant;
    if (plant.cut_out > 0.0) {
        full.receiver_kpa_gauge = (plant.cut_out - plant.ambient_pressure) * 1e-3;
    }
    const Result<AirRun> alone = memo.run(0, lone, std::chrono::seconds{20}, full);
    return alone && !alone->strokes.empty() ? alone->strokes[0].strike_s() : std::nullopt;
}

}  // namespace

Result<Stagger> stagger(const Show& show, const Sequence& sequence, double limit_kpa_gauge,
                        const std::function<std::optional<double>(const Sequence&)>& lowest) {
    Search search(show, sequence, limit_kpa_gauge, lowest);
    if (const Result<void> done = search.find_shifts(); !done) {
        return tl::unexpected(done.error());
    }
    Stagger found{search.shifts(), search.lowest(), {}};
    found.edit = edit_of(show, sequence.id, found.shifts);
    return found;
}

Result<Stagger> stagger(const Show& show, const Sequence& sequence, double limit_kpa_gauge, AirMemo& memo) {
    return stagger(show, sequence, limit_kpa_gauge, [&](const Sequence& candidate) -> std::optional<double> {
        const SequenceRun run = work_out(show, candidate, memo);
        return run.air.run ? std::optional(run.air.run->lowest_receiver_kpa) : std::nullopt;
    });
}

Result<PropReservoir> reservoir_beside(const Show& show, const Sequence& sequence, ActuatorId actuator,
                                       const std::function<bool()>& stopped) {
    const Actuator* before = find(show, actuator);
    const std::string name = before != nullptr ? before->name : std::string();
    AirMemo memo;
    memo.stop_when(stopped);
    memo.take(show);
    if (before == nullptr || memo.model().find(actuator) == nullptr) {
        return fail(fmt::format("\"{}\" cannot be simulated", name), {}, "Fill in what its findings name");
    }
    const auto alone = strike_alone(memo, actuator);
    if (!alone) {
        return fail(fmt::format("\"{}\" does not strike even alone, the receiver full", name), {},
                    "Raise the regulator, or take a larger bore");
    }
    const double most = *alone + std::max(later_share * *alone, later_s);
    const double now = latest_strike(work_out(show, sequence, memo), actuator);
    if (now <= most) {
        return fail(fmt::format("\"{}\" strikes as if alone as it is", name));
    }
    for (const double litres : usual_litres) {
        Actuator with = *before;
        with.feed.reservoir_l = litres;
        with.feed.length_m = with.feed.length_m.value_or(feed_length_m);
        with.feed.bore_mm = with.feed.bore_mm.value_or(feed_bore_mm);
        Edit edit = set_actuator(show, with);
        edit.sentence = fmt::format("fit a reservoir beside {}", name);
        Show changed = show;
        apply(edit, changed);
        const double strike = latest_strike(work_out(changed, sequence, memo), actuator);
        if (stopped && stopped()) {
            return fail("the search for a reservoir was given up");
        }
        if (strike <= most) {
            return PropReservoir{actuator, litres, std::isfinite(now) ? std::optional(now) : std::nullopt,
                                 strike, std::move(edit)};
        }
    }
    return fail(
        fmt::format("no reservoir up to {:g} L lets \"{}\" strike as if alone", usual_litres.back(), name),
        {}, "Take a compressor that delivers more, or space the strokes out");
}

}  // namespace gasp
