#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp size: parts from standard sizes, in both systems of units, and figures that are none."""

from gasp_program import LOCKER, GaspTest, main

RISE = ["size", "--lift", "450mm", "--mass", "2.7 kg", "--ratio", "3", "--out", "300 ms", "--scares", "40",
        "--pressure", "4 bar"]


def with_figure(flag, value):
    """The arguments with one changed or added."""
    if flag not in RISE:
        return [*RISE, flag, value]
    place = RISE.index(flag) + 1
    return [*RISE[:place], value, *RISE[place + 1:]]


class Size(GaspTest):
    def parts(self, *arguments):
        said = self.json(*arguments)
        return {part["field"]: part for part in said["parts"]}, said["simulated"]

    def test_each_part_has_its_size_margin_and_reason(self):
        parts, simulated = self.parts(*RISE)
        for field in ("cylinder.bore_mm", "valve.supply_c_l_s_bar", "tube.bore_mm", "air_plant.receiver_l",
                      "air_plant.delivery_l_min"):
            with self.subTest(field):
                self.assertGreaterEqual(parts[field]["chosen"], parts[field]["needed"])
                self.assertGreaterEqual(parts[field]["margin_percent"], 0)
                self.assertTrue(parts[field]["reason"])
        self.assertIn("ISO", parts["cylinder.bore_mm"]["size"])
        self.assertTrue(255 <= simulated["out_ms"] <= 300.5, simulated)
        self.assertGreaterEqual(simulated["lowest_receiver_kpa_gauge"], 400)

    def test_the_same_in_inches_gives_inch_sizes(self):
        # The same figures in US units, bare: 450 mm = 17.717 in, 2.7 kg = 5.952 lb, 4 bar = 58.02 psi.
        us = ["size", "--lift", "17.717", "--mass", "5.952", "--ratio", "3", "--out", "300", "--scares", "40",
              "--pressure", "58.02", "--units", "us"]
        text = self.out(*us)
        self.assertRegex(text, r"(?m)^Bore +[\d.]+ in +[\d.]+ in +\d+ % +[\d/ ]+ in$")
        self.assertRegex(text, r"(?m)^Valve, each way .* Cv .* NPT")
        self.assertNotRegex(text, r"\d (bar|mm|kg|L|N)\b")
        parts, simulated = self.parts(*us)
        metric, _ = self.parts(*RISE)
        self.assertAlmostEqual(parts["cylinder.bore_mm"]["needed"], metric["cylinder.bore_mm"]["needed"], delta=0.02)
        self.assertLessEqual(simulated["out_ms"], 300.5)

    def test_people_read_what_to_take_and_to_mind(self):
        text = self.out(*RISE)
        self.assertRegex(text, r"(?m)^Bore +[\d.]+ mm +\d+ mm +\d+ % +\d+ mm, ISO")
        self.assertRegex(text, r"(?m)^  out +\d+ ms$")
        self.assertIn("local code", text)
        self.assertNotIn("safe", text.lower())

    def test_its_weight_or_a_spring_brings_it_back(self):
        for drive in ("gravity", "spring"):
            with self.subTest(drive):
                _, simulated = self.parts(*with_figure("--drive", drive))
                self.assertGreater(simulated["back_ms"], 0)
        message = self.refusal(*with_figure("--drive", "gravity"), "--angle", "0")
        self.assertIn("--drive: the weight does not bring it back", message)

    def test_what_is_not_given_is_taken_from_an_actuator(self):
        like = ["size", "--like", LOCKER, "--actuator", "Keeper"]
        parts, simulated = self.parts(*like, "--scares", "60")
        self.assertEqual(parts["cylinder.stroke_mm"]["chosen"], 200)
        self.assertLessEqual(simulated["out_ms"], 260.5)
        slower, _ = self.parts(*like, "--scares", "60", "--out", "600")
        self.assertLessEqual(slower["cylinder.bore_mm"]["chosen"], parts["cylinder.bore_mm"]["chosen"])

        def lever(document):
            document["rig"]["actuators"][0]["linkage"] = {"kind": "lever", "turn": "rises", "foot_mm": 400, "pin_mm": 150,
                                                          "closed_mm": 300, "arm_mm": 450, "arm_deg": -20}
            document["rig"]["actuators"][0]["cylinder"]["stroke_mm"] = 100
        _, on_lever = self.parts("size", "--like", self.show(lever), "--actuator", "Keeper", "--scares", "60")
        self.assertLessEqual(on_lever["out_ms"], 260.5)
        self.assertIn("--scares: Scares an hour is not given", self.refusal(*like))
        self.assertIn('It has "Keeper"', self.refusal("size", "--like", LOCKER, "--actuator", "Kraken", "--scares", "60"))
        self.refusal("size", "--like", LOCKER, "--scares", "60")
        self.assertIn("none.gasp", self.refusal("size", "--like", "none.gasp", "--actuator", "Keeper"))

    def test_figures_that_are_none_are_named_with_their_range(self):
        for flag, value, said in (("--lift", "0", "--lift: Travel of the figure is 0 mm. Give one from 1 mm to"),
                                  ("--lift", "-3 in", "--lift"), ("--mass", "1e9 kg", "--mass"),
                                  ("--pressure", "1e6 bar", "--pressure"), ("--pressure", "4 kg", "--pressure"),
                                  ("--out", "inf", "--out"), ("--out", "nan", "--out"), ("--ratio", "0", "--ratio"),
                                  ("--friction", "100", "--friction"), ("--scares", "soon", "--scares"),
                                  ("--out", "45", "--out: no standard sizes make 45 ms; the fastest"),
                                  ("--mass", "500", "--out: no standard sizes make 300 ms")):
            with self.subTest((flag, value)):
                self.assertIn(said, self.refusal(*with_figure(flag, value)))
        self.assertIn("--mass", self.refusal("size", "--lift", "450"))
        self.assertIn("gasp size --help", self.refusal(*RISE, "--drive", "steam").replace("VERB", "size"))


main()
