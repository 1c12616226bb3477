// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/night/night.hpp"
#include "core/air/night/stroke_cache.hpp"
#include "core/air/run/quiet_receiver.hpp"

#include <atomic>
#include <unordered_map>

namespace gasp {

// What night.cpp and night_answers.cpp share. Nobody outside this folder includes this.

/// Where a command that takes its actuator out of rest stands among all of its kind; `none` for others.
struct StrikePlace {
    static constexpr std::size_t none = static_cast<std::size_t>(-1);
};

/// Everything about a show's night that does not change from one to the next. Its const members may be used
/// by several threads at once.
class NightStage {
  public:
    /// Error: a figure that cannot be; what run_air says of the usual runs.
    [[nodiscard]] static Result<std::unique_ptr<NightStage>> make(const Show& show,
                                                                  std::span<const NightSequence> sequences);
    /// The same with a model that differs from the show's in its figures.
    [[nodiscard]] static Result<std::unique_ptr<NightStage>> make(const Show& show, AirModel model,
                                                                  std::span<const NightSequence> sequences);
    /// Every uncertain input off as UnfavourableNights says.
    [[nodiscard]] Result<std::unique_ptr<NightStage>> unfavourable(const Show& show) const;
    /// Of the usual strikes added up, those that never strike counting as a minute.
    [[nodiscard]] double usual_sum_s() const;

    [[nodiscard]] std::span<const NightSequence> sequences() const { return sequences_; }
    [[nodiscard]] const AirModel& model() const { return cache_.model(); }
    [[nodiscard]] StrokeCache& cache() const { return cache_; }
    [[nodiscard]] std::span<const Rest> rests() const { return rests_; }
    [[nodiscard]] double opening() const { return opening_; }  ///< Pa, absolute
    /// Of each actuator of the model: see QuietReceiver.
    [[nodiscard]] const std::vector<Vessel>& vessels() const { return vessels_; }
    [[nodiscard]] bool limited() const;  ///< the receiver has a volume
    /// In which all is quiet after a command, whatever it moved.
    [[nodiscard]] double settling_s() const;

    /// The strikes of all sequences, without their counts.
    [[nodiscard]] const std::vector<NightStrike>& strikes() const { return strikes_; }
    /// The strike that a command of a sequence is; StrikePlace::none where it is none.
    [[nodiscard]] std::size_t strike_of(std::uint32_t sequence, std::uint32_t command) const;
    /// Judges strikes by another stage's usual moments. Requires: one of the same sequences and actuators.
    void take_usual_moments(const NightStage& other);

  private:
    NightStage(AirModel model, std::span<const NightSequence> sequences);
    void set_vessels();
    [[nodiscard]] Result<void> add_strikes(std::uint32_t sequence);

    std::vector<NightSequence> sequences_;
    mutable StrokeCache cache_;
    std::vector<Rest> rests_;
    double opening_ = 0.0;
    std::vector<Vessel> vessels_;
    std::vector<NightStrike> strikes_;
    std::vector<std::vector<std::size_t>> strike_places_;
};

/// How often each strike took how long, to 10 us.
class StrikeCounts {
  public:
    explicit StrikeCounts(std::size_t strikes) : counts_(strikes), missed_(strikes) {}
    void add(std::size_t strike, double strike_s);
    void add(const StrikeCounts& other);
    void put(std::vector<NightStrike>& strikes) const;
    /// Of all strikes together, in order: how long, and how often.
    [[nodiscard]] std::vector<std::pair<double, std::size_t>> all() const;

  private:
    static constexpr double unit_s = 1e-5;
    std::vector<std::unordered_map<std::int32_t, std::size_t>> counts_;
    std::vector<std::size_t> missed_;
};

/// Plays one night after another, each by itself. For one thread.
class NightPlayer {
  public:
    NightPlayer(const NightStage& stage, const NightTerms& terms, bool cached,
                const std::atomic<bool>& cancel)
        : stage_(stage), terms_(terms), cached_(cached), cancel_(cancel), counts_(stage.strikes().size()) {}

    /// Unfinished and worthless once `cancel` is true. `receiver` (may be null) gets its gauge kPa.
    [[nodiscard]] Result<Night> play(std::uint64_t seed, Curve* receiver);
    [[nodiscard]] const StrikeCounts& counts() const { return counts_; }

  private:
    struct Play;
    [[nodiscard]] Result<void> play_bout(Play& play, const Bout& bout);
    [[nodiscard]] Result<bool> play_held(Play& play, const Bout& bout);
    [[nodiscard]] Result<void> add_held(Play& play, const Bout& bout, std::size_t first);
    [[nodiscard]] bool take_draws(Play& play) const;
    [[nodiscard]] Micros simulated_from(Play& play, const Bout& bout) const;
    [[nodiscard]] Result<void> play_joint(Play& play, const Bout& bout, Micros begin);
    [[nodiscard]] Result<std::shared_ptr<const HeldStrokes>> held(const StrokePattern& pattern, bool recurs);
    [[nodiscard]] Night counted(const Play& play, std::uint64_t seed) const;
    void sum_up_air(const QuietReceiver& receiver, Night& night) const;
    void judge(Play& play, std::size_t command, double strike_s);

    const NightStage& stage_;
    const NightTerms& terms_;
    bool cached_;
    const std::atomic<bool>& cancel_;
    StrikeCounts counts_;
    /// Of the stage's cache, to ask it without waiting for other threads.
    std::unordered_map<StrokePattern, std::shared_ptr<const HeldStrokes>, StrokePatternHash> known_;
};

[[nodiscard]] int threads_of(const NightWork& options);

/// The value at place p of a sorted list. Requires: not empty.
[[nodiscard]] double percentile(std::span<const double> sorted, double p);
[[nodiscard]] Spread spread_of(std::vector<double> values);

/// The largest share of any window of this length (s) in which the compressor runs.
[[nodiscard]] double worst_share(std::span<const CompressorRun> runs, double window_s);
/// The most runs that begin within a window of this length (s).
[[nodiscard]] int most_starts_within(std::span<const CompressorRun> runs, double window_s);

}  // namespace gasp
