// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// One stroke out and back of a double-acting cylinder (out for 0.8 s, back for 1.2 s) by run_air and by
// SUNDIALS CVODE (BDF, dense Jacobian by its own differences) on the very same derivatives, with CVODE's own
// root finding for stops, release and the shares of the way. Each is given the loosest tolerance, a power of
// two, at which every figure of the strokes (moments, speed at the stop, free air, pressures at the strike)
// is within 1e-6 of run_air at a tolerance of 1e-13, which CVODE at 1e-12 must confirm.
#include "core/air/run/air_run.hpp"
#include "core/air/run/air_system.hpp"
#include "tests/bench/air/cvode_stroke.hpp"
#include "tests/support/air_rig.hpp"

#include <time.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <vector>

using namespace gasp;

namespace {

constexpr int rounds = 15;
constexpr int strokes_a_round = 20;
constexpr double wanted_error = 1e-6;

const std::vector<StrokeCommand> commands{{Micros{0}, {1}, Coil::out}, {Micros{800'000}, {1}, Coil::back}};
constexpr Micros length{2'000'000};

std::vector<double> ours(const AirModel& model, double tolerance) {
    AirOptions options;
    options.tolerance = tolerance;
    options.curves = false;
    const Result<AirRun> run = run_air(model, commands, length, options);
    std::vector<double> figures;
    if (!run) {
        return figures;
    }
    for (const Stroke& stroke : run->strokes) {
        for (const auto& reached : stroke.reached_s) {
            figures.push_back(reached.value_or(0.0));
        }
        figures.insert(figures.end(), {stroke.end_speed_m_s, stroke.free_air_l, stroke.receiver_at_strike_kpa,
                                       stroke.working_at_strike_kpa});
    }
    return figures;
}

double error(const std::vector<double>& figures, const std::vector<double>& reference) {
    double largest = figures.size() == reference.size() ? 0.0 : INFINITY;
    for (std::size_t i = 0; i < std::min(figures.size(), reference.size()); ++i) {
        largest = std::max(largest, std::abs(figures[i] / reference[i] - 1.0));
    }
    return largest;
}

double now_us() {
    timespec time{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) * 1e6 + static_cast<double>(time.tv_nsec) / 1e3;
}

template <class Work>
double timed_us(Work work) {
    const double begin = now_us();
    for (int i = 0; i < strokes_a_round; ++i) {
        work();
    }
    return (now_us() - begin) / strokes_a_round;
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

/// The loosest power of two that keeps the error, and keeps it at the two next ones too: no lucky hit.
template <class Work>
double loosest(Work work, const std::vector<double>& reference) {
    double found = 0.0;
    int kept = 0;
    for (double tolerance = 0x1p-10; tolerance > 0x1p-40; tolerance /= 2) {
        if (error(work(tolerance), reference) <= wanted_error) {
            found = kept == 0 ? tolerance : found;
            if (++kept == 3) {
                return found;
            }
        } else {
            kept = 0;
        }
    }
    return kept > 0 ? found : 0.0;
}

}  // namespace

int main() {
    const AirModel model = air_model(for_tests::bench_rig(5.0, 500.0, 30.0));
    const std::vector<double> reference = ours(model, 1e-13);
    CvodeStroke cvode(model, commands, to_s(length));
    const auto theirs = [&](double tolerance) { return cvode.run(tolerance); };
    const double between = error(theirs(1e-12), reference);
    std::printf("reference against CVODE at 1e-12: %.1e\n", between);
    const double our_tolerance = loosest([&](double t) { return ours(model, t); }, reference);
    const double their_tolerance = loosest(theirs, reference);
    if (!(between < wanted_error / 10) || our_tolerance <= 0.0 || their_tolerance <= 0.0) {
        std::printf("no tolerance reaches %.0e: ours %.1e, CVODE's %.1e\n", wanted_error, our_tolerance,
                    their_tolerance);
        return 1;
    }
    std::vector<double> our_times;
    std::vector<double> their_times;
    std::vector<double> ratios;
    for (int round = -1; round < rounds; ++round) {
        const double mine = timed_us([&] { static_cast<void>(ours(model, our_tolerance)); });
        const double other = timed_us([&] { static_cast<void>(theirs(their_tolerance)); });
        if (round >= 0) {
            our_times.push_back(mine);
            their_times.push_back(other);
            ratios.push_back(mine / other);
        }
    }
    std::printf("ours %.0f us at a tolerance of %.1e (error %.1e), CVODE %.0f us at %.1e (error %.1e)\n",
                median(our_times), our_tolerance, error(ours(model, our_tolerance), reference),
                median(their_times), their_tolerance, error(theirs(their_tolerance), reference));
    constexpr double bar = 0.25;
    const double ratio = median(ratios);
    std::printf("bench stroke_to_cvode = %.3f (bar %.2f) %s\n", ratio, bar, ratio <= bar ? "ok" : "short");
    return ratio <= bar ? 0 : 1;
}
