// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/jaw.hpp"

#include "core/sound/words.hpp"
#include "core/units/time.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr double longest_ms = 10'000.0;

Micros time_of(std::size_t step) {
    return Envelope::step * static_cast<Micros::rep>(step);
}

/// When the mouth should be open, by the level that falls no faster than the release lets it.
std::vector<JawStretch> mouth_open(const Envelope& envelope, double loudest, const JawOptions& options) {
    // An amplitude that falls by 63 % in the release falls by 8.69 dB in it.
    const double fall_db = options.release_ms > 0.0
                               ? 20.0 / std::log(10.0) * static_cast<double>(Envelope::step.count()) /
                                     (options.release_ms * 1000.0)
                               : 1e9;
    std::vector<JawStretch> open;
    double heard = Envelope::silence;
    bool is_open = false;
    for (std::size_t i = 0; i < envelope.dbfs.size(); ++i) {
        heard = std::max(static_cast<double>(envelope.dbfs[i]), heard - fall_db);
        if (!is_open && heard >= loudest - options.open_db) {
            open.push_back({time_of(i), envelope.length()});
            is_open = true;
        } else if (is_open && heard < loudest - options.close_db) {
            open.back().end = time_of(i);
            is_open = false;
        }
    }
    return open;
}

}  // namespace

Result<void> valid(const JawOptions& options) {
    if (!(options.open_db > 0.0 && options.close_db >= options.open_db && options.close_db <= 100.0)) {
        return fail(fmt::format("it opens at {} dB and shuts at {} dB below the loudest moment",
                                options.open_db, options.close_db),
                    "jaw",
                    "Take levels above 0 and up to 100 dB, the one to shut no nearer than the one to open");
    }
    for (const double ms : {options.release_ms, options.open_lead_ms, options.close_lead_ms,
                            options.shortest_open_ms, options.shortest_shut_ms}) {
        if (!(ms >= 0.0 && ms <= longest_ms)) {
            return fail(fmt::format("a time of the jaw is {} ms", ms), "jaw", "Take 0 to 10 000 ms");
        }
    }
    return {};
}

Result<std::vector<JawStretch>> jaw_stretches(const Envelope& envelope, const JawOptions& options) {
    if (auto good = valid(options); !good) {
        return tl::unexpected(good.error());
    }
    std::vector<JawStretch> driven;
    const auto loudest = loudest_of(envelope);
    if (!loudest) {
        return driven;
    }
    for (const JawStretch& open : mouth_open(envelope, loudest->dbfs, options)) {
        const Micros begin = std::max(open.begin - from_ms(options.open_lead_ms), Micros{0});
        const Micros end =
            std::max(open.end - from_ms(options.close_lead_ms), begin + from_ms(options.shortest_open_ms));
        if (!driven.empty() && begin - driven.back().end < from_ms(options.shortest_shut_ms)) {
            driven.back().end = std::max(driven.back().end, end);
        } else if (end > begin) {
            driven.push_back({begin, end});
        }
    }
    return driven;
}

}  // namespace gasp
