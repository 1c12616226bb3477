// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/ear_level.hpp"

#include <cmath>

namespace gasp {

double level_from(double sensitivity_db, double power_w, double distance_m) {
    return sensitivity_db + 10.0 * std::log10(power_w) - 20.0 * std::log10(distance_m);
}

std::optional<double> level_at_ear(const Speaker& speaker, double loudness_lufs) {
    if (!speaker.power_w || !speaker.sensitivity_db || !speaker.distance_m) {
        return std::nullopt;
    }
    return level_from(*speaker.sensitivity_db, *speaker.power_w, *speaker.distance_m) + loudness_lufs;
}

double allowed_hours(NoiseLimit limit, double level_dba) {
    const double criterion_dba = limit == NoiseLimit::niosh ? 85.0 : 90.0;
    const double exchange_db = limit == NoiseLimit::niosh ? 3.0 : 5.0;
    return 8.0 / std::exp2((level_dba - criterion_dba) / exchange_db);
}

double noise_dose(NoiseLimit limit, double level_dba, double hours) {
    return hours / allowed_hours(limit, level_dba);
}

}  // namespace gasp
