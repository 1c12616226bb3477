// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/sizing/sizing_trial.hpp"

#include "core/air/model/air_model.hpp"
#include "core/air/run/air_run.hpp"

#include <cmath>

namespace gasp {

namespace {

Micros micros(double seconds) {
    return Micros{std::llround(seconds * 1e6)};
}

Result<AirModel> model_of(const AirPlant& plant, const Actuator& actuator) {
    Show show = empty_show();
    show.rig.air_plant = plant;
    show.rig.actuators.push_back(actuator);
    AirModel model = air_model(show);
    if (!model.impossible.empty()) {
        return tl::unexpected(model.impossible.front());
    }
    if (!model.missing.empty()) {
        const BlankField& blank = model.missing.front();
        return fail("no " + blank.label, blank.key, "Fill it in");
    }
    return model;
}

}  // namespace

Result<Trial> try_strokes(const AirPlant& plant, const Actuator& actuator, const TrialPlan& plan) {
    const Result<AirModel> model = model_of(plant, actuator);
    if (!model) {
        return tl::unexpected(model.error());
    }
    std::vector<StrokeCommand> commands;
    double at = 0.0;
    for (int i = 0; i < plan.times; ++i) {
        commands.push_back({micros(at), actuator.id, Coil::out});
        commands.push_back({micros(at + plan.out_s), actuator.id, Coil::back});
        at += plan.out_s + plan.back_s;
    }
    AirOptions options;
    options.curves = false;
    options.stopped = plan.stopped;
    const Result<AirRun> run = run_air(*model, commands, micros(at), options);
    if (!run) {
        return tl::unexpected(run.error());
    }
    if (run->strokes.size() < 2) {
        return fail("the strokes cannot be simulated", {}, "Check the figures");
    }
    const Stroke& out = run->strokes[0];
    const Stroke& back = run->strokes[1];
    return Trial{out.reached_s[3],
                 back.reached_s[3],
                 out.end_speed_m_s,
                 out.end_energy_j,
                 out.free_air_l + back.free_air_l,
                 run->lowest_receiver_kpa};
}

}  // namespace gasp
