// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/bench/air/cvode_stroke.hpp"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace gasp {
namespace {

constexpr std::size_t figures_a_stroke = 8;
constexpr std::array<double, 3> shares{0.10, 0.50, 0.95};

void must(int flag) {
    if (flag < 0) {
        std::fprintf(stderr, "CVODE fails: %d\n", flag);
        std::exit(1);
    }
}

}  // namespace

/// CVODE for one layout of the unknowns.
struct CvodeStroke::Solver {
    Solver(AirSystem& of, std::size_t n, int roots) : system(of), count(n) {
        SUNContext_Create(nullptr, &context);
        y = N_VNew_Serial(static_cast<sunindextype>(n), context);
        tolerance = N_VNew_Serial(static_cast<sunindextype>(n), context);
        matrix = SUNDenseMatrix(static_cast<sunindextype>(n), static_cast<sunindextype>(n), context);
        linear = SUNLinSol_Dense(y, matrix, context);
        N_VConst(1.0, y);
        N_VConst(1.0, tolerance);
        memory = CVodeCreate(CV_BDF, context);
        must(CVodeInit(memory, &derive, 0.0, y));
        must(CVodeSetUserData(memory, this));
        must(CVodeSVtolerances(memory, 1e-6, tolerance));
        must(CVodeSetLinearSolver(memory, linear, matrix));
        must(CVodeRootInit(memory, roots, &root));
        must(CVodeSetMaxNumSteps(memory, 1'000'000));
        must(CVodeSetNoInactiveRootWarn(memory));
    }
    ~Solver() {
        CVodeFree(&memory);
        SUNLinSolFree(linear);
        SUNMatDestroy(matrix);
        N_VDestroy(y);
        N_VDestroy(tolerance);
        SUNContext_Free(&context);
    }
    Solver(const Solver&) = delete;
    Solver& operator=(const Solver&) = delete;

    static int derive(double, N_Vector at, N_Vector slopes, void* self) {
        static_cast<Solver*>(self)->system.derive(N_VGetArrayPointer(at), N_VGetArrayPointer(slopes));
        return 0;
    }

    static int root(double, N_Vector at, double* values, void* self) {
        static_cast<Solver*>(self)->find(N_VGetArrayPointer(at), values);
        return 0;
    }

    /// Above 0 where it has happened.
    void find(const double* at, double* values) const {
        const AirUnit& unit = system.units.front();
        const double stroke = unit.model->stroke;
        if (!moves(unit.hold)) {
            const std::size_t a = AirSystem::out_of(unit);
            const std::size_t b = AirSystem::back_of(unit);
            const double force = system.net_force(
                unit, unit.travel, system.out_point(unit, {at[a], at[a + 1]}, unit.travel).pressure,
                system.back_point(unit, {at[b], at[b + 1]}, unit.travel).pressure,
                unit.model->mechanism.at(unit.travel));
            values[0] = (unit.hold == Hold::at_back ? force : -force) - unit.model->static_friction;
            return;
        }
        const double way = unit.direction();
        const double gone = way > 0.0 ? at[unit.first] : stroke - at[unit.first];
        values[0] = gone - stroke;
        for (std::size_t i = 0; i < shares.size(); ++i) {
            values[i + 1] = gone - shares[i] * stroke;
        }
    }

    AirSystem& system;
    std::size_t count;
    SUNContext context = nullptr;
    N_Vector y = nullptr;
    N_Vector tolerance = nullptr;
    SUNMatrix matrix = nullptr;
    SUNLinearSolver linear = nullptr;
    void* memory = nullptr;
};

CvodeStroke::CvodeStroke(const AirModel& model, std::span<const StrokeCommand> commands, double length)
    : model_(model), commands_(commands), length_(length), system_(model.plant) {
    system_.add(model.actuators.front());
    // Two chambers, the receiver; travel and speed beside them while it moves.
    held_ = std::make_unique<Solver>(system_, 5, 1);
    moving_ = std::make_unique<Solver>(system_, 7, 4);
}

CvodeStroke::~CvodeStroke() = default;

CvodeStroke::Solver& CvodeStroke::solver() const {
    return moves(system_.units.front().hold) ? *moving_ : *held_;
}

void CvodeStroke::begin(double tolerance) {
    tolerance_ = tolerance;
    time_ = 0.0;
    supplied_ = 0.0;
    figures_.assign(commands_.size() * figures_a_stroke, 0.0);
    system_.receiver_mass = system_.receiver_mass_at(model_.plant.cut_in);
    system_.compressor_on = true;
    AirUnit& unit = system_.units.front();
    unit.supplied_out = false;
    system_.settle({.ambient = false, .source = system_.source_pressure(system_.receiver_pressure())});
    unit.awake = true;
}

void CvodeStroke::start(Solver& solver) {
    system_.lay_out(y_, time_, false);
    // As ours: relative, but for travel and speed, which count by the stroke and by 1 m/s.
    const AirUnit& unit = system_.units.front();
    tolerances_.assign(y_.size(), 0.0);
    if (moves(unit.hold)) {
        tolerances_[unit.first] = tolerance_ * unit.model->stroke;
        tolerances_[AirSystem::speed_of(unit)] = tolerance_;
    }
    std::copy(y_.begin(), y_.end(), N_VGetArrayPointer(solver.y));
    std::copy(tolerances_.begin(), tolerances_.end(), N_VGetArrayPointer(solver.tolerance));
    must(CVodeReInit(solver.memory, time_, solver.y));
    must(CVodeSVtolerances(solver.memory, tolerance_, solver.tolerance));
}

void CvodeStroke::note_share(std::size_t share) {
    double* const figures = figures_.data() + stroke_ * figures_a_stroke;
    figures[share] = time_ - to_s(commands_[stroke_].time);
    if (share == 2) {
        const AirUnit& unit = system_.units.front();
        const double around = model_.plant.ambient_pressure;
        figures[6] = (system_.receiver_pressure() - around) / 1e3;
        const ChamberPoint working = unit.supplied_out ? system_.out_point(unit, unit.out_air, unit.travel)
                                                       : system_.back_point(unit, unit.back_air, unit.travel);
        figures[7] = (working.pressure - around) / 1e3;
    }
}

void CvodeStroke::note_stop() {
    AirUnit& unit = system_.units.front();
    double* const figures = figures_.data() + stroke_ * figures_a_stroke;
    figures[3] = time_ - to_s(commands_[stroke_].time);
    figures[4] = std::abs(unit.speed);
    unit.hold = unit.hold == Hold::moving_out ? Hold::at_out : Hold::at_back;
    unit.travel = unit.hold == Hold::at_out ? unit.model->stroke : 0.0;
    unit.speed = 0.0;
}

bool CvodeStroke::stop_for_roots(const Solver& solver) {
    std::array<int, 4> found{};
    must(CVodeGetRootInfo(solver.memory, found.data()));
    AirUnit& unit = system_.units.front();
    if (!moves(unit.hold)) {
        unit.hold = unit.hold == Hold::at_back ? Hold::moving_out : Hold::moving_back;
        return true;
    }
    for (std::size_t i = 0; i < shares.size(); ++i) {
        if (found[i + 1] > 0) {
            note_share(i);
        }
    }
    if (found[0] > 0) {
        note_stop();
        return true;
    }
    return false;
}

void CvodeStroke::integrate(double until) {
    while (time_ < until) {
        Solver& now = solver();
        start(now);
        AirUnit& unit = system_.units.front();
        const double before = unit.supplied_out ? unit.out_air.mass : unit.back_air.mass;
        must(CVodeSetStopTime(now.memory, until));
        int flag = CV_SUCCESS;
        while (true) {
            flag = CVode(now.memory, until, now.y, &time_, CV_NORMAL);
            must(flag);
            system_.take_back(N_VGetArrayPointer(now.y));
            if (flag != CV_ROOT_RETURN || stop_for_roots(now)) {
                break;
            }
        }
        supplied_ += (unit.supplied_out ? unit.out_air.mass : unit.back_air.mass) - before;
    }
}

std::vector<double> CvodeStroke::run(double tolerance) {
    begin(tolerance);
    AirUnit& unit = system_.units.front();
    for (stroke_ = 0; stroke_ < commands_.size(); ++stroke_) {
        const double next = stroke_ + 1 < commands_.size() ? to_s(commands_[stroke_ + 1].time) : length_;
        supplied_ = 0.0;
        integrate(to_s(commands_[stroke_].time) + unit.model->wave);
        unit.supplied_out = commands_[stroke_].way == Coil::out;
        integrate(next);
        figures_[stroke_ * figures_a_stroke + 5] = free_air_volume(supplied_) * 1e3;
    }
    return figures_;
}

}  // namespace gasp
