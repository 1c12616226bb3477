#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp budget: strokes, free air and pressures, in both systems of units and in JSON."""

from gasp_program import LOCKER, GaspTest, main


class Budget(GaspTest):
    def test_each_stroke_is_listed_with_its_units(self):
        text = self.out("budget", LOCKER)
        self.assertRegex(text, r"(?m)^ +0:14\.\d{3}  Keeper +out +\d\.\d\d L +\d\.\d\d bar +\d\.\d\d bar  after \d+ ms")
        self.assertRegex(text, r"(?m)^ +0:16\.\d{3}  Keeper +back +\d\.\d\d L +\d\.\d\d bar +\d\.\d\d bar  after \d+ ms")
        self.assertRegex(text, r"lowest in the receiver +[\d.]+ bar  at 0:")

    def test_us_units(self):
        text = self.out("budget", LOCKER, "--units", "us")
        self.assertIn(" psi", text)
        self.assertNotIn(" bar", text)

    def test_json_adds_up(self):
        said = self.json("budget", LOCKER)
        scare = next(one for one in said["sequences"] if one["sequence"] == "Scare")
        self.assertEqual([stroke["way"] for stroke in scare["strokes"]], ["out", "back"])
        self.assertAlmostEqual(sum(stroke["free_air_l"] for stroke in scare["strokes"]), scare["free_air_l"], places=6)
        self.assertAlmostEqual(min(point["receiver_kpa_gauge"] for point in scare["curve"]),
                               scare["lowest_kpa_gauge"], places=6)
        times = [point["time_us"] for point in scare["curve"]]
        self.assertEqual(times, sorted(times))
        self.assertEqual((times[0], times[-1]), (0, scare["length_us"]))

    def test_a_blank_figure_is_named(self):
        def blank(document):
            del document["rig"]["air_plant"]["receiver_l"]
        show = self.show(blank)
        self.assertIn("not checked: no receiver", self.out("budget", show))
        missing = self.json("budget", show)["sequences"][0]["missing"]
        self.assertIn("air_plant.receiver_l", [field["field"] for field in missing])

    def test_of_a_receiver_that_lacks_a_figure_nothing_is_claimed(self):
        for key in ("receiver_l", "cut_in_kpa_gauge", "cut_out_kpa_gauge", "delivery_l_min"):
            def blank(document):
                del document["rig"]["air_plant"][key]
            show = self.show(blank)
            text = self.out("budget", show)
            for claim in ("lowest in the receiver", "compressor runs", "begins at cut-in"):
                self.assertNotIn(claim, text)
            self.assertIn("the receiver is not checked", text)
            scare = self.json("budget", show)["sequences"][0]
            for field in ("lowest_kpa_gauge", "lowest_at_us", "compressor_on_s", "compressor_starts"):
                self.assertIsNone(scare[field])
            self.assertEqual(scare["curve"], [])
            self.assertIsNone(scare["strokes"][0]["receiver_at_strike_kpa_gauge"])
            self.assertGreater(scare["strokes"][0]["free_air_l"], 0.5)

    def test_one_sequence_alone(self):
        self.assertEqual([one["sequence"] for one in self.json("budget", LOCKER, "--sequence", "Watch")["sequences"]],
                         ["Watch"])

    def test_bad_files_are_refused(self):
        self.refuses_bad_files("budget")


main()
