#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""Strokes by scipy's solve_ivp, written from the equations and not from the program's source.

Usage: strokes.py RIGS.json
RIGS.json: a list of {"plant": figures, "actuators": [{part: figures}], "commands": [[s, place, out]], "length_s"} with
the keys of the show file. Prints, for each rig, the strokes of each actuator as JSON.
Flow: ISO 6358. Reference atmosphere: ISO 8778. Air at altitude: ISO 2533. Integration: scipy's LSODA.
"""

import json
import math
import sys

import numpy as np
from scipy.interpolate import CubicSpline
from scipy.integrate import solve_ivp

P0, T0, RHO0 = 100e3, 293.15, 1.185
R = P0 / (RHO0 * T0)
GAMMA = 1.4
CP, CV = GAMMA * R / (GAMMA - 1), R / (GAMMA - 1)
G = 9.80665
BACK, OUT, STUCK, PLUS, MINUS = range(5)


def psi(r, b):
    if r <= b:
        return 1.0
    if r <= 0.999:
        return math.sqrt(1 - ((r - b) / (1 - b)) ** 2)
    return math.sqrt(1 - ((0.999 - b) / (1 - b)) ** 2) * (1 - r) / 0.001


def flow(path, p1, t1, p2, t2):
    c, b = path
    if p2 > p1:
        return -flow(path, p2, t2, p1, t1)
    return c * RHO0 * p1 * math.sqrt(T0 / t1) * psi(p2 / p1, b)


def series(*paths):
    """From upstream to downstream (ISO 6358-3)."""
    paths = [p for p in paths if p is not None]
    c1, b1 = paths[0]
    for c2, b2 in paths[1:]:
        if c2 * b1 >= c1:
            c = c1
        else:
            k = 1 + (c2 / c1) ** 2 * (1 - b1) ** 2
            c = c2 * (b1 + math.sqrt(b1 * b1 + (1 - 2 * b1) * k)) / k
        b = 1 - c * c * ((1 - b1) / c1**2 + (1 - b2) / c2**2)
        c1, b1 = c, b
    return c1, b1


def tube(length, bore):
    if length <= 0:
        return None
    c = 0.029 * bore**2 / math.sqrt(length / bore**1.25 + 510)
    return c, 474 * c / bore**2


def pair(part, key):
    c = part.get(key + "_c_l_s_bar")
    return None if c is None else (c * 1e-8, part.get(key + "_b", 0.3))


class Plant:
    def __init__(self, f):
        self.pa = 101325 * (1 - 2.25577e-5 * f.get("altitude_m", 0)) ** 5.25588
        self.ta = f.get("temperature_c", 20) + 273.15
        self.set = self.pa + f["regulator_kpa_gauge"] * 1e3
        self.volume = f["receiver_l"] / 1e3
        self.cut_in = self.pa + f["cut_in_kpa_gauge"] * 1e3
        self.cut_out = self.pa + f["cut_out_kpa_gauge"] * 1e3
        rho = self.pa / (R * self.ta)
        first = f["delivery_l_min"] / 60e3 * rho
        self.slope = 0.0
        if "second_delivery_l_min" in f:
            p1, p2 = (self.pa + f[k] * 1e3 for k in ("delivery_at_kpa_gauge", "second_delivery_at_kpa_gauge"))
            self.slope = (f["second_delivery_l_min"] / 60e3 * rho - first) / (p2 - p1)
            first -= self.slope * p1
        self.delivery = first
        self.regulator = pair(f, "regulator")
        self.leak = (f.get("leak_c_l_s_bar", 0) * 1e-8, 0.3)


class Linkage:
    """Height and place of the figure by the rod's travel, differentiated by hand."""

    def __init__(self, parts):
        link, load = parts.get("linkage", {}), parts["load"]
        self.kind = link.get("kind", "direct")
        if self.kind == "direct":
            self.ratio, self.angle = load.get("ratio", 1), math.radians(load["angle_deg"])
        elif self.kind == "lever":
            self.f, self.p, self.l0 = (link[k] / 1e3 for k in ("foot_mm", "pin_mm", "closed_mm"))
            self.arm, self.rest = link["arm_mm"] / 1e3, math.radians(link["arm_deg"])
            self.turn = -1 if link.get("turn") == "falls" else 1
        else:
            self.arm = link["arm_mm"] / 1e3
            points = np.array(link["points_mm_deg"])
            self.spline = CubicSpline(points[:, 0] / 1e3, np.radians(points[:, 1]), bc_type="not-a-knot")

    def at(self, x):
        """dy/dx, (ds/dx)^2, ds/dx d2s/dx2"""
        if self.kind == "direct":
            return self.ratio * math.sin(self.angle), self.ratio**2, 0.0
        if self.kind == "lever":
            def opening(l):
                return math.acos((self.f**2 + self.p**2 - l * l) / (2 * self.f * self.p))
            l = self.l0 + x
            slope = self.rest + self.turn * (opening(l) - opening(self.l0))
            phi = opening(l)
            first = l / (self.f * self.p * math.sin(phi))
            second = (1 / (self.f * self.p) - math.cos(phi) * first**2) / math.sin(phi)
        else:
            slope, first, second = (float(self.spline(x, n)) for n in range(3))
        turn = getattr(self, "turn", 1)
        return self.arm * math.cos(slope) * turn * first, (self.arm * first) ** 2, self.arm**2 * first * second


class Actuator:
    def __init__(self, parts, plant):
        cyl, valve, load = parts["cylinder"], parts["valve"], parts["load"]
        ctl, feed, tub = parts.get("flow_controls", {}), parts.get("feed", {}), parts["tube"]
        self.d, self.stroke = cyl["bore_mm"] / 1e3, cyl["stroke_mm"] / 1e3
        rod = cyl.get("rod_mm", 0) / 1e3
        self.aa = math.pi / 4 * self.d**2
        self.ab = self.aa - math.pi / 4 * rod**2
        self.air_back = cyl.get("action", "double_acting") == "double_acting" and valve["kind"] != "three_two"
        self.dead = cyl["dead_ml"] / 1e6
        length, bore = tub["length_m"], tub["bore_mm"] / 1e3
        self.vt = math.pi / 4 * bore**2 * length
        self.wave = length / math.sqrt(GAMMA * R * plant.ta)
        line = tube(length, bore)
        first = [plant.regulator, tube(feed.get("length_m", 0), feed.get("bore_mm", 0) / 1e3)]
        self.vr = feed.get("reservoir_l", 0) / 1e3
        self.feed = series(*first) if self.vr else None
        vs = pair(valve, "supply")
        ve = pair(valve, "exhaust") or vs[:1] + (valve.get("exhaust_b", 0.3),)
        at_cylinder = ctl.get("place") == "at_cylinder"
        mi, mo = pair(ctl, "in"), pair(ctl, "out")
        head = [] if self.vr else first
        self.supply = series(*head, vs, *([line, mi] if at_cylinder else [mi, line]))
        self.exhaust = series(*([mo, line] if at_cylinder else [line, mo]), ve, pair(ctl, "silencer"))
        if "quick_exhaust_c_l_s_bar" in ctl:
            self.exhaust = pair(ctl, "quick_exhaust")
        self.cushion = cyl.get("cushion_mm", 0) / 1e3
        self.cushioned = series(pair(cyl, "cushion"), self.exhaust) if self.cushion else self.exhaust
        self.open_delay, self.close_delay = valve["opening_delay_ms"] / 1e3, valve["closing_delay_ms"] / 1e3
        self.ramp = valve.get("ramp_ms", 0) / 1e3
        self.mass, self.rod_mass = load["mass_kg"], cyl.get("rod_mass_kg", 0)
        self.link = Linkage(parts)
        self.spring = load.get("counter_n", 0)
        self.rate = load.get("counter_rate_n_mm", 0) * 1e3
        if cyl.get("action") == "single_spring_return":
            self.spring += cyl["spring_n"]
            self.rate += cyl.get("spring_rate_n_mm", 0) * 1e3
        share = load.get("friction_percent", 10) / 100
        self.fc = cyl.get("friction_n", share * (plant.set - plant.pa) * self.aa)
        self.fs = max(cyl.get("static_friction_n", self.fc), self.fc)
        self.viscous = cyl.get("viscous_n_s_m", 0)
        self.mode, self.out, self.opened = BACK, False, -1e9

    def volumes(self, x):
        return (self.dead + self.vt + self.aa * x, self.dead + self.vt + self.ab * (self.stroke - x))

    def start(self, plant, source):
        va, vb = self.volumes(0.0)
        pb = source if self.air_back else plant.pa
        return [0.0, 0.0, plant.pa * va / (R * plant.ta), plant.pa * va / (GAMMA - 1), pb * vb / (R * plant.ta),
                pb * vb / (GAMMA - 1), source * self.vr / (R * plant.ta), 0.0, 0.0]

    def pressures(self, y):
        va, vb = self.volumes(y[0])
        return (GAMMA - 1) * y[3] / va, (GAMMA - 1) * y[5] / vb

    def force(self, y, plant):
        pa, pb = self.pressures(y)
        if not self.air_back:
            pb = plant.pa
        return ((pa - plant.pa) * self.aa - (pb - plant.pa) * self.ab - self.mass * G * self.link.at(y[0])[0]
                - self.spring - self.rate * y[0])

    def derive(self, t, y, plant, source):
        x, v, ma, ua, mb, ub, mr = y[:7]
        va, vb = self.volumes(x)
        pa, pb = (GAMMA - 1) * ua / va, (GAMMA - 1) * ub / vb
        ta, tb = ua / (ma * CV), ub / (mb * CV)
        moving = self.mode in (PLUS, MINUS)
        v = v if moving else 0.0
        opened = min(1.0, max(0.0, (t - self.opened) / self.ramp)) if self.ramp else 1.0
        pr = mr * R * plant.ta / self.vr if self.vr else source
        d = [0.0] * 9

        def fed(p, temp):
            q = flow(self.supply, pr, plant.ta, p, temp)
            return max(q, 0.0) if not self.vr else q

        def end(supplied, p, temp, area, growth, way, cushioned):
            if supplied:
                q = fed(p, temp) * opened
                upstream = plant.ta if q >= 0 else temp
            else:
                q = -flow(self.cushioned if cushioned else self.exhaust, p, temp, plant.pa, plant.ta) * opened
                upstream = temp if q <= 0 else plant.ta
            surface = 2 * area + math.pi * self.d * (way + self.dead / area)
            heat = 50 * surface * (plant.ta - temp)
            return q, q * CP * upstream - p * area * growth + heat
        d[2], d[3] = end(self.out, pa, ta, self.aa, v, x, x < self.cushion)
        supplied = d[2] if self.out else 0.0
        if self.air_back:
            d[4], d[5] = end(not self.out, pb, tb, self.ab, -v, self.stroke - x, x > self.stroke - self.cushion)
            supplied = supplied if self.out else d[4]
        if moving:
            way = 1 if self.mode == PLUS else -1
            _, square, bend = self.link.at(x)
            d[0] = v
            d[1] = (self.force(y, plant) - way * self.fc - self.viscous * v - self.mass * bend * v * v) / (
                self.rod_mass + self.mass * square)
        d[7], d[8] = supplied, supplied
        if self.vr:
            d[8] = max(flow(self.feed, source, plant.ta, pr, plant.ta), 0.0)
            d[6] = d[8] - supplied
        return d


class Run:
    def __init__(self, rig):
        self.plant = Plant(rig["plant"])
        self.actuators = [Actuator(a, self.plant) for a in rig["actuators"]]
        self.commands, self.length = rig["commands"], rig["length_s"]
        self.on = True
        self.strokes = []
        source = min(self.plant.set, self.plant.cut_in)
        self.y = [self.plant.cut_in * self.plant.volume / (R * self.plant.ta)]
        for a in self.actuators:
            self.y += a.start(self.plant, source)
        self.y = np.array(self.y)

    def receiver(self, y):
        return y[0] * R * self.plant.ta / self.plant.volume

    def part(self, i, y):
        return y[1 + 9 * i:10 + 9 * i]

    def derive(self, t, y):
        p = self.receiver(y)
        source = min(p, self.plant.set)
        d = [0.0]
        drawn = 0.0
        for i, a in enumerate(self.actuators):
            part = a.derive(t, self.part(i, y), self.plant, source)
            drawn += part[8]
            d += part
        compressor = max(0.0, self.plant.delivery + self.plant.slope * p) if self.on else 0.0
        d[0] = compressor - flow(self.plant.leak, p, self.plant.ta, self.plant.pa, self.plant.ta) - drawn
        return d

    def settle(self):
        for i, a in enumerate(self.actuators):
            if a.mode in (BACK, OUT, STUCK):
                f = a.force(self.part(i, self.y), self.plant)
                if (f > a.fs and a.mode != OUT) or (f < -a.fs and a.mode != BACK):
                    a.mode = PLUS if f > 0 else MINUS

    def events(self):
        found = []
        y = self.y

        def add(function, what, i, direction=1, terminal=True):
            function.terminal, function.direction = terminal, direction
            found.append((function, what, i))
        limit = self.plant.cut_out if self.on else self.plant.cut_in
        add(lambda t, y: self.receiver(y) - limit, "switch", None, 1 if self.on else -1)
        for i, a in enumerate(self.actuators):
            def state(y, i=i):
                return self.part(i, y)
            if a.mode in (PLUS, MINUS):
                way = 1 if a.mode == PLUS else -1
                goal = a.stroke if way > 0 else 0.0
                add(lambda t, y, s=state, w=way, g=goal: w * (s(y)[0] - g), "stop", i)
                add(lambda t, y, s=state, w=way: -w * s(y)[1] - 1e-9, "turn", i)
                for edge in ((a.cushion, a.stroke - a.cushion) if a.cushion else ()):
                    if way * (y[1 + 9 * i] - edge) < 0:
                        add(lambda t, y, s=state, w=way, e=edge: w * (s(y)[0] - e) - 1e-12, "edge", i)
                stroke = next((s for s in reversed(self.strokes) if s["place"] == i and s["felt"]), None)
                if stroke:
                    for share in ("10", "50", "95"):
                        f = int(share) / 100 * a.stroke
                        f = f if stroke["out"] else a.stroke - f
                        add(lambda t, y, s=state, f=f: s(y)[0] - f, share, i, 1 if stroke["out"] else -1, False)
            else:
                def beyond(t, y, s=state, a=a):
                    f = a.force(s(y), self.plant)
                    return {BACK: f, OUT: -f, STUCK: abs(f)}[a.mode] - a.fs
                add(beyond, "release", i)
        return found

    def note(self, share, i, t, y):
        for s in reversed(self.strokes):
            if s["place"] == i and s["felt"]:
                if share not in s:
                    s[share] = t - s["time"]
                    if share == "95":
                        s["receiver_kpa"] = (self.receiver(y) - self.plant.pa) / 1e3
                return

    def happen(self, what, i, t):
        if what == "switch":
            self.on = not self.on
            return
        a, y = self.actuators[i], self.y
        place = 1 + 9 * i
        if what == "stop":
            self.note("100", i, t, y)
            for s in reversed(self.strokes):
                if s["place"] == i and s["felt"]:
                    s.setdefault("speed", abs(y[place + 1]))
                    break
            a.mode = OUT if a.mode == PLUS else BACK
            y[place], y[place + 1] = (a.stroke if a.mode == OUT else 0.0), 0.0
        elif what == "turn":
            y[place + 1] = 0.0
            a.mode = STUCK
        elif what == "release":
            a.mode = PLUS if a.force(self.part(i, y), self.plant) > 0 else MINUS

    def integrate(self, t, until):
        while t < until - 1e-12:
            self.settle()
            events = self.events()
            scale = np.abs(self.y) * 1e-9 + 1e-13
            run = solve_ivp(self.derive, (t, until), self.y, method="LSODA", rtol=1e-9, atol=scale, first_step=1e-7,
                            max_step=5e-3, events=[e[0] for e in events])
            assert run.success, run.message
            for (_, what, i), times, states in zip(events, run.t_events, run.y_events):
                if what in ("10", "50", "95"):
                    for moment, state in zip(times, states):
                        self.note(what, i, moment, state)
            t, self.y = run.t[-1], run.y[:, -1].copy()
            if run.status == 1:
                ended = [e for e, times in zip(events, run.t_events)
                         if e[0].terminal and len(times) and abs(times[-1] - t) < 1e-9]
                for _, what, i in ended:
                    self.happen(what, i, t)
        return until

    def go(self):
        plan = []
        for time, i, out in self.commands:
            a = self.actuators[i]
            felt = time + (a.open_delay if out else a.close_delay) + a.wave
            plan += [(time, 0, i, out), (felt, 1, i, out), (felt + a.ramp, 2, i, out)]
        t = 0.0
        for time, kind, i, out in sorted(plan):
            if time > self.length:
                break
            t = self.integrate(t, time)
            if kind == 0:
                self.close(i)
                self.strokes.append({"place": i, "time": time, "out": bool(out), "felt": False,
                                     "from": [float(x) for x in self.part(i, self.y)[7:]]})
            elif kind == 1:
                self.actuators[i].out, self.actuators[i].opened = bool(out), time
                next(s for s in reversed(self.strokes) if s["place"] == i and s["out"] == bool(out))["felt"] = True
        self.integrate(t, self.length)
        for i in range(len(self.actuators)):
            self.close(i)
        return {"strokes": self.strokes, "receiver_kpa": (self.receiver(self.y) - self.plant.pa) / 1e3}

    def close(self, i):
        for s in reversed(self.strokes):
            if s["place"] == i:
                supplied, drawn = self.part(i, self.y)[7:]
                s["free_air_l"] = (supplied - s["from"][0]) / RHO0 * 1e3
                s["left_receiver_l"] = (drawn - s["from"][1]) / RHO0 * 1e3
                return


def main(path):
    with open(path, encoding="utf-8") as file:
        rigs = json.load(file)
    json.dump([Run(rig).go() for rig in rigs], sys.stdout)


if __name__ == "__main__":
    main(sys.argv[1])
