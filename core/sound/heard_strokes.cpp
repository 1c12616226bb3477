// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/heard_strokes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

namespace gasp {

namespace {

constexpr std::size_t most_knocks = 2000;
constexpr double off_by = 3.0;          // the most a time may differ from what is expected
constexpr double loose = 0.6;           // spread of the logarithm of a time against the expected one
constexpr double close = 0.15;          // the same once the strokes' own time is known
constexpr double missed_stroke = 0.75;  // what it costs to take a stroke for unheard
constexpr double longest_stroke_ms = 60'000.0;

struct Expected {
    double ms = 0.0;
    double spread = loose;
};

/// The best way to take the knocks from each one on: by dynamic programming, with the way that comes next.
class Pairing {
  public:
    Pairing(std::span<const Knock> knocks, const std::array<Expected, 2>& expected)
        : knocks_(knocks), expected_(expected), best_(knocks.size() + 1) {
        for (std::size_t i = knocks.size(); i-- > 0;) {
            const std::array<Step, 2> alone{best_from(i, 0), best_from(i, 1)};
            for (std::size_t way = 0; way < 2; ++way) {
                const Step& other = alone[1 - way];
                const double turned = other.score - missed_stroke;
                best_[i][way] = other.thump != 0 && turned > alone[way].score
                                    ? Step{turned, other.thump, true, other.rival}
                                    : alone[way];
            }
        }
    }

    [[nodiscard]] std::vector<HeardStroke> strokes() const {
        std::vector<HeardStroke> strokes;
        std::size_t way = 0;
        for (std::size_t i = 0; i < knocks_.size();) {
            const Step& step = best_[i][way];
            if (step.thump == 0) {
                // Skipping a knock keeps the way that was to come.
                ++i;
                continue;
            }
            way = step.turned ? 1 - way : way;
            const Knock& click = knocks_[i];
            const Knock& thump = knocks_[step.thump];
            strokes.push_back({way == 0 ? Coil::out : Coil::back, click.time_s, thump.time_s,
                               std::min(click.confidence, thump.confidence) * (1.0 - std::exp(-step.rival))});
            i = step.thump + 1;
            way = 1 - way;
        }
        return strokes;
    }

  private:
    struct Step {
        double score = 0.0;
        std::size_t thump = 0;  ///< of the stroke whose click this knock is; 0: it is none
        bool turned = false;    ///< the stroke that was to come first was not heard
        double rival = 0.0;     ///< by how much it is better than the next best
    };

    [[nodiscard]] double score(std::size_t click, std::size_t thump, std::size_t way) const {
        const double ms = (knocks_[thump].time_s - knocks_[click].time_s) * 1000.0;
        const double off = std::log(ms / expected_[way].ms) / expected_[way].spread;
        return knocks_[click].confidence + knocks_[thump].confidence - 0.5 * off * off;
    }

    [[nodiscard]] Step best_from(std::size_t i, std::size_t way) const {
        Step best{best_[i + 1][way].score, 0, false, 0.0};
        double second = -1.0;
        for (std::size_t j = i + 1; j < knocks_.size(); ++j) {
            const double ms = (knocks_[j].time_s - knocks_[i].time_s) * 1000.0;
            if (ms > off_by * expected_[way].ms) {
                break;
            }
            if (ms * off_by < expected_[way].ms) {
                continue;
            }
            const double all = score(i, j, way) + best_[j + 1][1 - way].score;
            if (all > best.score) {
                second = best.thump == 0 ? second : std::max(second, best.score);
                best = {all, j, false, 0.0};
            } else {
                second = std::max(second, all);
            }
        }
        best.rival = second < 0.0 ? 10.0 : 4.0 * (best.score - second);
        return best;
    }

    std::span<const Knock> knocks_;
    std::array<Expected, 2> expected_;
    std::vector<std::array<Step, 2>> best_;
};

/// The expected times moved to the middle of those found.
std::array<Expected, 2> narrowed(std::span<const HeardStroke> strokes, std::array<Expected, 2> expected) {
    for (std::size_t way = 0; way < 2; ++way) {
        std::vector<double> times;
        for (const HeardStroke& stroke : strokes) {
            if (static_cast<std::size_t>(stroke.way) == way) {
                times.push_back(stroke.ms());
            }
        }
        if (times.size() >= 3) {
            const auto middle = times.begin() + static_cast<std::ptrdiff_t>(times.size() / 2);
            std::nth_element(times.begin(), middle, times.end());
            expected[way] = {*middle, close};
        }
    }
    return expected;
}

}  // namespace

Result<std::vector<HeardStroke>> pair_strokes(std::span<const Knock> knocks,
                                              const ExpectedStrokes& expected) {
    for (const double ms : {expected.out_ms, expected.back_ms}) {
        if (!(ms > 0.0 && ms <= longest_stroke_ms)) {
            return fail(fmt::format("{} ms is no expected stroke time", ms), {},
                        "Give one above 0 and up to 60000 ms");
        }
    }
    if (knocks.size() > most_knocks) {
        return fail(fmt::format("there are {} knocks in it", knocks.size()), {},
                    "Record with the microphone close to the valve, and nothing else running");
    }
    const std::array<Expected, 2> first{Expected{expected.out_ms}, Expected{expected.back_ms}};
    std::vector<HeardStroke> strokes = Pairing(knocks, first).strokes();
    strokes = Pairing(knocks, narrowed(strokes, first)).strokes();
    if (strokes.empty()) {
        return fail(fmt::format("no click with a thump about {:.0f} ms out or {:.0f} ms back after it",
                                expected.out_ms, expected.back_ms),
                    {}, "Record with the microphone close to the valve, with a pause before each stroke");
    }
    return strokes;
}

}  // namespace gasp
