#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp fit: strokes typed or in a recording, the fitted show, and what cannot be fitted."""

import json
import math
import random
import struct
import wave

from gasp_program import GaspTest, main

RATE = 44100
DELAYS = {"out": 18.0, "back": 26.0}  # of the demo's valve, ms


def known(document):
    """The first demo's figure with a valve whose conductance is known and a flow control."""
    actuator = document["rig"]["actuators"][0]
    actuator["valve"]["supply_c_l_s_bar"] = 2.5
    actuator["flow_controls"] = {"out_c_l_s_bar": 0.8}
    actuator["tube"] = {"length_m": 1.2, "bore_mm": 5.5}


class Fit(GaspTest):
    def model_ms(self, show):
        """What the model takes each way, from the coil."""
        said = self.json("fit", show, "--actuator", "Keeper", "--out", "300,300", "--back", "400")
        return {stroke["way"]: stroke["before_ms"] for stroke in said["strokes"]}

    def recording(self, name, strokes, noise=0.0005):
        """A click and a thump for each (start in s, ms from click to thump)."""
        random.seed(3)
        length = int((strokes[-1][0] + strokes[-1][1] / 1000 + 1) * RATE)
        samples = [random.gauss(0, noise) for _ in range(length)]

        def strike(at, modes, peak):
            for i in range(int(0.15 * RATE)):
                t = i / RATE
                samples[int(at * RATE) + i] += peak * sum(math.exp(-t / ring) * math.sin(2 * math.pi * hz * t)
                                                          for hz, ring in modes) / len(modes)
        for at, ms in strokes:
            strike(at, [(2700, 0.0025), (4300, 0.0015)], 0.15)
            strike(at + ms / 1000, [(140, 0.04), (410, 0.02), (950, 0.008), (2300, 0.003)], 0.9)
        with wave.open(str(self.folder / name), "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(RATE)
            file.writeframes(struct.pack(f"<{length}h", *(round(max(-1, min(1, x)) * 32767) for x in samples)))
        return name

    def test_typed_strokes_before_and_after(self):
        show = self.show(known)
        model = self.model_ms(show)
        slow = {way: round(1.15 * ms) for way, ms in model.items()}
        said = self.json("fit", show, "--actuator", "Keeper", "--out", f"{slow['out']},{slow['out'] + 3}", "--out",
                         f"{slow['out'] - 3}", "--back", f"{slow['back']},{slow['back'] + 4}ms", "--reading", "4")
        self.assertEqual([stroke["way"] for stroke in said["strokes"]], ["out"] * 3 + ["back"] * 2)
        self.assertLess(said["off_after_ms"], 0.3 * said["off_before_ms"])
        self.assertLess(said["out_spread_ms"], said["out_spread_before_ms"])
        self.assertLess(said["back_spread_ms"], said["back_spread_before_ms"])
        factors = {each["input"]: each for each in said["inputs"]}
        self.assertLess(factors["conductances"]["factor"], 1)
        for each in factors.values():
            self.assertLessEqual(each["spread_percent"], each["spread_before_percent"] * 1.001)
        text = self.out("fit", show, "--actuator", "Keeper", "--out", "300,310,305", "--back", "400")
        self.assertRegex(text, r"(?m)^  stroke +timed +before +after$")
        self.assertRegex(text, r"(?m)^  conductances +\d\.\d\d +15 % +\d+ %$")

    def test_only_with_o_a_show_is_written_and_it_holds_the_fit(self):
        show = self.show(known)
        before = show.read_bytes()
        strokes = ["--actuator", "Keeper", "--out", "330,335,328", "--back", "420,424"]
        self.gasp("fit", show, *strokes)
        self.assertEqual(show.read_bytes(), before)
        self.assertEqual([path.name for path in self.folder.iterdir()], ["show.gasp"])
        done = self.gasp("fit", show, *strokes, "-o", "fitted.gasp")
        self.assertIn(b"fitted.gasp", done.stderr)
        self.assertEqual(show.read_bytes(), before)
        fit = json.loads((self.folder / "fitted.gasp").read_text())["rig"]["actuators"][0]["fit"]
        self.assertEqual((fit["out_ms"], fit["back_ms"]), ([330, 335, 328], [420, 424]))
        self.assertIn("conductance_spread_percent", fit)
        self.gasp("fit", show, *strokes, "-o", show)
        self.assertNotEqual(show.read_bytes(), before)
        self.gasp("check", show)

    def test_it_writes_over_nothing_else(self):
        show = self.show(known)
        other = self.show(known, name="other.gasp")
        (self.folder / "apart").mkdir()
        strokes = ["--actuator", "Keeper", "--out", "330,335,328", "--back", "420,424"]
        for output in (other, "notes.txt", "apart/show.gasp", "none/show.gasp"):
            with self.subTest(output):
                self.refusal("fit", show, *strokes, "-o", output)
        self.assertFalse((self.folder / "notes.txt").exists())

    def test_strokes_in_a_recording(self):
        show = self.show(known)
        model = self.model_ms(show)
        times = {way: 1.08 * (model[way] - DELAYS[way]) for way in model}
        name = self.recording("take.wav", [(0.7, times["out"]), (3.2, times["back"]), (6.1, times["out"]),
                                           (8.9, times["back"])])
        said = self.json("fit", show, "--actuator", "Keeper", "--recording", name)
        self.assertEqual([stroke["way"] for stroke in said["strokes"]], ["out", "back", "out", "back"])
        for stroke, at in zip(said["strokes"], (0.7, 3.2, 6.1, 8.9)):
            self.assertAlmostEqual(stroke["timed_ms"], times[stroke["way"]], delta=0.5)
            self.assertAlmostEqual(stroke["click_s"], at, delta=0.0005)
            self.assertEqual(stroke["from"], "click")
            self.assertGreater(stroke["confidence"], 0.3)
        self.assertLess(said["off_after_ms"], 5)
        self.assertIn("timed from the valve's click", self.out("fit", show, "--actuator", "Keeper", "--recording", name))

    def test_what_cannot_be_fitted_says_what_to_do(self):
        show = self.show(known)
        keeper = ["fit", show, "--actuator", "Keeper"]
        self.assertIn("Time at least 3", self.refusal(*keeper, "--out", "300"))
        self.assertIn("Time at least 3", self.refusal(*keeper))
        self.assertIn("does not reach 5000 ms out", self.refusal(*keeper, "--out", "5000,5000,5000", "--back", "100,100"))
        for text in ("0", "-3", "inf", "nan", "soon", "4 bar"):
            with self.subTest(text):
                self.assertIn("back", self.refusal(*keeper, "--out", "300,300", f"--back={text}"))
        self.assertIn('It has "Keeper"', self.refusal("fit", show, "--actuator", "Kraken", "--out", "300,300,300"))
        self.assertIn("none.wav", self.refusal(*keeper, "--recording", "none.wav"))
        self.assertIn("show.gasp", self.refusal(*keeper, "--recording", show))
        self.refusal(*keeper, "--recording", "none.wav", "--out", "300")
        quiet = self.recording("quiet.wav", [(1.0, 20.0)], noise=0.5)
        self.assertIn("quiet.wav", self.refusal(*keeper, "--recording", quiet))

        def unknown(document):
            known(document)
            del document["rig"]["actuators"][0]["valve"]["supply_c_l_s_bar"]
        self.assertIn("supply conductance", self.refusal("fit", self.show(unknown, "unknown.gasp"), "--actuator",
                                                         "Keeper", "--out", "300,300,300"))

    def test_bad_files_are_refused(self):
        self.assertIn("none.gasp", self.refusal("fit", "none.gasp", "--actuator", "Keeper", "--out", "300,300,300"))


main()
