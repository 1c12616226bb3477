// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/supply_use.hpp"

#include "core/power/fuse.hpp"
#include "core/schedule/circuit_advice.hpp"

namespace gasp {
SupplyUse supply_use(const Show& show, const Sequence& sequence, const SequencePower& power,
                     std::size_t supply) {
    const Supply& of = show.rig.supplies[supply];
    const CurrentCurve& curve = power.curves[supply];
    SupplyUse use;
    use.complete = power.model.supplies[supply].complete;
    use.peak_a = amps(curve.peak);
    use.peak_at = curve.peak_at;
    use.steady_peak_a = amps(curve.steady_peak);
    use.steady_peak_at = curve.steady_peak_at;
    use.average_a = power.average_a(supply, Micros{0});
    use.rms_a = power.rms_a(supply, Micros{0});
    use.period = shortest_period(show, sequence);
    use.repeated_rms_a = power.rms_a(supply, use.period);
    if (of.rated_a) {
        use.planned_a = *of.rated_a * planned_share(of);
        use.margin_percent = 100.0 * (1.0 - use.steady_peak_a / *of.rated_a);
    }
    use.needed_a = least_supply_a(show.rig, supply, power);
    const FuseRun run{&curve, power.length};
    use.fuse_a = fitting_fuse_a(use.repeated_rms_a, micro_amps(power.rest_a(supply)), {&run, 1},
                                shared_wires_bear_a(of, supply, power.wire_peaks));
    return use;
}

}  // namespace gasp
