// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/night/night.hpp"
#include "core/units/quantity.hpp"

#include <atomic>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace gasp {

enum class NightQuestion : std::uint8_t {
    most_groups,        ///< groups an hour that the plant sustains, at a constant rate
    least_receiver,     ///< L, for the wanted rate, all else as it is
    least_delivery,     ///< L/min of free air, likewise
    lowest_regulation,  ///< kPa gauge, at which the figures still strike when they do now
};

inline constexpr std::size_t night_questions = 4;

/// What a plant sustains or needs so that most nights pass without a weak scare, and with its compressor
/// within the duty and the starts an hour that the rig gives it, where it does.
struct NightAnswer {
    NightQuestion question = NightQuestion::most_groups;
    /// In the question's unit; none where nothing within its field's range will do, or it was given up.
    std::optional<double> value;
    std::string reason;  ///< a sentence, its figures in the units asked for
};

/// Share of the nights that must pass so.
inline constexpr double nights_served = 0.95;

/// Strokes simulated for one question before it is given up: few are alike on a plant that never recovers.
inline constexpr std::size_t most_strokes_a_question = 200'000;

/// Quantity and range of the value of a question.
[[nodiscard]] Quantity quantity_of(NightQuestion question);

/// Every question in turn, each by halving the range that the value lies in, nights drawn from the same seeds
/// throughout; the value is to 1 % (groups: to a whole one), on the side that will do. A question that
/// takes too many strokes is given up, and says so. `progress` and `cancel` as in forecast_night; cancelled,
/// those answered so far. Error: as forecast_night.
[[nodiscard]] Result<std::vector<NightAnswer>> night_answers(const Show& show,
                                                             std::span<const NightSequence> sequences,
                                                             const NightTerms& terms,
                                                             const NightWork& options, UnitSystem units,
                                                             const std::atomic<bool>& cancel,
                                                             const std::function<void(double)>& progress);

}  // namespace gasp
