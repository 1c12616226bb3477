#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp stroke: each actuator's times with their bands, its stop, its air and its anchor."""

from gasp_program import LOCKER, GaspTest, main


class Stroke(GaspTest):
    def test_each_actuator_with_its_units(self):
        text = self.out("stroke", LOCKER)
        self.assertRegex(text, r"(?m)^Keeper, fitted to timed strokes$")
        self.assertRegex(text, r"(?m)^ +strike, 95 % +\d+ ms \(\d+ ms to \d+ ms\)")
        self.assertRegex(text, r"(?m)^ +speed at the stop +[\d.]+ m/s")
        self.assertIn("first out after air-on", text)

    def test_json_has_bands_in_order(self):
        said = self.json("stroke", LOCKER)
        keeper, = said["actuators"]
        for way in ("out", "back", "first_out_after_air_on"):
            times = [keeper[way][key] for key in ("to_10_percent_s", "to_50_percent_s", "strike_s", "to_100_percent_s")]
            for low, nominal, high in times:
                self.assertLessEqual(low, nominal)
                self.assertLessEqual(nominal, high)
            self.assertEqual([time[1] for time in times], sorted(time[1] for time in times))
        self.assertAlmostEqual(keeper["out"]["free_air_l"] + keeper["back"]["free_air_l"],
                               keeper["free_air_a_cycle_l"], places=9)
        self.assertGreater(keeper["first_out_after_air_on"]["end_speed_m_s"][1], keeper["out"]["end_speed_m_s"][1])

    def test_a_figure_without_a_fit_is_not_measured(self):
        def unfitted(document):
            del document["rig"]["actuators"][0]["fit"]
        self.assertIn("Keeper, not measured", self.out("stroke", self.show(unfitted)))

    def test_a_blank_figure_is_named(self):
        def blank(document):
            del document["rig"]["actuators"][0]["valve"]["supply_c_l_s_bar"]
        show = self.show(blank)
        self.assertIn("not checked: no supply conductance of the valve of", self.out("stroke", show))
        self.assertTrue(self.json("stroke", show)["actuators"][0]["missing"])

    def test_bad_files_are_refused(self):
        self.refuses_bad_files("stroke")


main()
