// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/night/night.hpp"

#include "core/air/night/night_player.hpp"
#include "core/units/quantity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <mutex>
#include <thread>

namespace gasp {
namespace {

/// The nights shared out among threads, which take them in turn.
class Nights {
  public:
    Nights(const NightStage& stage, const NightTerms& terms, const NightWork& options,
           const std::atomic<bool>& cancel, const std::function<void(double)>& progress)
        : stage_(stage),
          terms_(terms),
          options_(options),
          cancel_(cancel),
          progress_(progress),
          nights_(static_cast<std::size_t>(terms.runs)),
          counts_(stage.strikes().size()) {}

    void play_all() {
        std::vector<std::jthread> helpers;
        for (int i = 1; i < std::min(threads_of(options_), terms_.runs); ++i) {
            helpers.emplace_back([this] { work(); });
        }
        work();
    }

    [[nodiscard]] Result<void> outcome() const {
        return trouble_ ? Result<void>(tl::unexpected(*trouble_)) : Result<void>();
    }

    /// Into a forecast; requires that the threads are done.
    void put(NightForecast& forecast) {
        for (std::optional<Night>& night : nights_) {
            if (night) {
                forecast.nights.push_back(std::move(*night));
            }
        }
        forecast.complete = forecast.nights.size() == nights_.size();
        forecast.receiver_kpa_gauge = std::move(receiver_);
        counts_.put(forecast.strikes);
    }

  private:
    [[nodiscard]] bool spent() const {
        return options_.most_strokes > 0 && stage_.cache().simulated_strokes() > options_.most_strokes;
    }

    void work() {
        NightPlayer player(stage_, terms_, options_.cached, cancel_);
        for (int night = next_++; night < terms_.runs && !cancel_ && !failed_ && !spent(); night = next_++) {
            Curve* const receiver = night == 0 ? &receiver_ : nullptr;
            Result<Night> played = player.play(seed_of_night(terms_.seed, night), receiver);
            if (cancel_) {
                break;
            }
            finish(night, std::move(played));
        }
        const std::scoped_lock lock(mutex_);
        counts_.add(player.counts());
    }

    void finish(int night, Result<Night> played) {
        const std::scoped_lock lock(mutex_);
        if (!played) {
            trouble_ = played.error();
            failed_ = true;
            return;
        }
        nights_[static_cast<std::size_t>(night)] = std::move(*played);
        ++done_;
        if (progress_) {
            progress_(static_cast<double>(done_) / terms_.runs);
        }
    }

    const NightStage& stage_;
    const NightTerms& terms_;
    const NightWork& options_;
    const std::atomic<bool>& cancel_;
    const std::function<void(double)>& progress_;
    std::atomic<int> next_{0};
    std::atomic<bool> failed_{false};
    Curve receiver_;  ///< of whoever plays the first night

    std::mutex mutex_;  ///< guards what follows
    std::vector<std::optional<Night>> nights_;
    StrikeCounts counts_;
    int done_ = 0;
    std::optional<Error> trouble_;
};

template <class Member>
Spread spread(const std::vector<Night>& nights, Member member) {
    std::vector<double> values;
    values.reserve(nights.size());
    for (const Night& night : nights) {
        values.push_back(static_cast<double>(night.*member));
    }
    return spread_of(std::move(values));
}

void sum_up(NightForecast& forecast) {
    const std::vector<Night>& nights = forecast.nights;
    forecast.groups = spread(nights, &Night::groups);
    forecast.delivered = spread(nights, &Night::delivered);
    forecast.refused = spread(nights, &Night::refused);
    forecast.weak = spread(nights, &Night::weak);
    forecast.duty = spread(nights, &Night::duty);
    forecast.duty_of_10_min = spread(nights, &Night::duty_of_10_min);
    forecast.starts_in_an_hour = spread(nights, &Night::starts_in_an_hour);
    if (nights.empty()) {
        return;
    }
    const auto count = static_cast<double>(nights.size());
    std::vector<double> lowest;
    forecast.hours.resize(nights.front().hours.size());
    for (const Night& night : nights) {
        forecast.share_without_weak += night.weak == 0 ? 1.0 / count : 0.0;
        for (std::size_t i = 0; i < night.hours.size(); ++i) {
            forecast.hours[i].delivered += night.hours[i].delivered / count;
            forecast.hours[i].refused += night.hours[i].refused / count;
            forecast.hours[i].weak += night.hours[i].weak / count;
        }
        if (night.lowest_kpa_gauge) {
            lowest.push_back(*night.lowest_kpa_gauge);
        }
    }
    if (!lowest.empty()) {
        forecast.lowest_kpa_gauge = spread_of(std::move(lowest));
    }
}

}  // namespace

int threads_of(const NightWork& options) {
    const unsigned cores = std::max(std::thread::hardware_concurrency(), 1U);
    return options.threads > 0 ? options.threads : static_cast<int>(cores);
}

NightTerms night_terms(const NightPlan& plan) {
    NightTerms terms;
    terms.hours = plan.hours.value_or(terms.hours);
    terms.groups_by_hour = plan.groups_per_h ? std::vector{*plan.groups_per_h} : terms.groups_by_hour;
    terms.groups_by_hour = plan.groups_by_hour.empty() ? terms.groups_by_hour : plan.groups_by_hour;
    terms.arrivals_s = plan.arrivals_s;
    terms.weak_s = plan.weak_ms ? si(Quantity::time_ms, *plan.weak_ms) : terms.weak_s;
    terms.runs = plan.runs ? static_cast<int>(*plan.runs) : terms.runs;
    terms.seed = plan.seed ? static_cast<std::uint64_t>(*plan.seed) : terms.seed;
    return terms;
}

std::vector<Assumption> night_assumptions(const Show& show) {
    std::vector<Assumption> taken;
    const NightPlan& plan = show.night;
    const NightTerms terms;
    const auto note = [&](bool given, std::string key, std::string label, std::string what) {
        if (!given) {
            taken.push_back({{std::move(key), std::move(label), std::nullopt}, std::move(what)});
        }
    };
    const bool rated = plan.groups_per_h || !plan.groups_by_hour.empty() || !plan.arrivals_s.empty();
    note(plan.hours.has_value(), "night.hours", "length of the night", fmt::format("{:g} h", terms.hours));
    note(rated, "night.groups_per_h", "groups an hour", fmt::format("{:g}", terms.groups_by_hour.front()));
    note(plan.weak_ms.has_value(), "night.weak_ms", "lateness of a weak strike",
         fmt::format("{:g} ms", terms.weak_s * 1e3));
    note(plan.runs.has_value(), "night.runs", "nights tried", fmt::format("{}", terms.runs));
    note(plan.seed.has_value(), "night.seed", "seed", fmt::format("{}", terms.seed));
    note(show.rig.sensor.lockout_s.has_value(), "sensor.lockout_s", "lockout of the sensor",
         "none: a run may follow on the last one's end");
    for (const Sequence& sequence : show.sequences) {
        note(sequence.kind != SequenceKind::triggered || sequence.trigger_after_s, "trigger_after_s",
             fmt::format("time from a group's arrival to the trigger of \"{}\"", sequence.name), "0 s");
    }
    return taken;
}

namespace {

/// Moved by a triggered sequence, and not in the model.
std::vector<ActuatorId> not_simulated(std::span<const NightSequence> sequences, const AirModel& model) {
    std::vector<ActuatorId> all;
    for (const NightSequence& sequence : sequences) {
        for (const StrokeCommand& command : sequence.commands) {
            const bool new_one = std::ranges::find(all, command.actuator) == all.end();
            if (sequence.kind == SequenceKind::triggered && new_one &&
                model.find(command.actuator) == nullptr) {
                all.push_back(command.actuator);
            }
        }
    }
    return all;
}

Result<NightForecast> forecast_of(const NightStage& stage, const NightTerms& terms, const NightWork& options,
                                  const std::atomic<bool>& cancel,
                                  const std::function<void(double)>& progress) {
    Nights nights(stage, terms, options, cancel, progress);
    nights.play_all();
    if (const Result<void> outcome = nights.outcome(); !outcome) {
        return tl::unexpected(outcome.error());
    }
    NightForecast forecast;
    forecast.terms = terms;
    forecast.strikes = stage.strikes();
    forecast.missing = stage.model().missing;
    forecast.assumptions = stage.model().assumptions;
    forecast.simulated_strokes = stage.cache().simulated_strokes();
    forecast.not_simulated = not_simulated(stage.sequences(), stage.model());
    nights.put(forecast);
    sum_up(forecast);
    return forecast;
}

/// Adds the nights with unfavourable inputs.
Result<void> add_unfavourable(NightForecast& forecast, const Show& show, const NightStage& stage,
                              const NightWork& options, const std::atomic<bool>& cancel,
                              const std::function<void(double)>& progress) {
    const auto worse = stage.unfavourable(show);
    if (!worse) {
        return tl::unexpected(worse.error());
    }
    (*worse)->take_usual_moments(stage);
    const auto played = forecast_of(**worse, forecast.terms, options, cancel, progress);
    if (!played) {
        return tl::unexpected(played.error());
    }
    if (!played->complete) {
        forecast.complete = false;
        return {};
    }
    forecast.unfavourable = {played->share_without_weak, played->weak, {}};
    for (const NightStrike& strike : played->strikes) {
        forecast.unfavourable->strike_s.push_back(strike.strike_s);
    }
    return {};
}

}  // namespace

Result<NightForecast> forecast_night(const Show& show, std::span<const NightSequence> sequences,
                                     const NightTerms& terms, const NightWork& options,
                                     const std::atomic<bool>& cancel,
                                     const std::function<void(double)>& progress) {
    Result<void> good = check(terms);
    if (good) {
        good = check(sequences, terms.hours);
    }
    if (!good) {
        return tl::unexpected(good.error());
    }
    const Result<std::unique_ptr<NightStage>> stage = NightStage::make(show, sequences);
    if (!stage) {
        return tl::unexpected(stage.error());
    }
    const double share = options.unfavourable ? 0.5 : 1.0;
    const auto part = [&](double from) {
        return progress ? [&progress, share, from](double done) { progress(from + share * done); }
                        : std::function<void(double)>();
    };
    Result<NightForecast> forecast = forecast_of(**stage, terms, options, cancel, part(0.0));
    if (forecast && forecast->complete && options.unfavourable) {
        const Result<void> added = add_unfavourable(*forecast, show, **stage, options, cancel, part(0.5));
        if (!added) {
            return tl::unexpected(added.error());
        }
    }
    return forecast;
}

}  // namespace gasp
