#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp power: currents of the supplies, drops, wires and fuses, in both systems of units and in JSON."""

from gasp_program import DEMOS, LOCKER, GaspTest, main

BOILER = DEMOS / "boiler-deck.gasp"


class Power(GaspTest):
    def test_supplies_and_channels_are_listed_with_their_units(self):
        text = self.out("power", LOCKER)
        self.assertRegex(text, r"(?m)^ +Locker 12 V +12 V +5 A +[\d.]+ A at 0:\d\d\.\d{3} +[\d.]+ A at 0:")
        self.assertRegex(text, r"(?m)^ +Keeper valve +0\.42 A +- +[\d.]+ m?s +0\.75 mm2 +3 m +0\.\d+ V at 0:")
        self.assertIn("licensed electrician", text)

    def test_us_units(self):
        text = self.out("power", LOCKER, "--units", "us")
        self.assertRegex(text, r"\d+ AWG")
        self.assertRegex(text, r"\d ft")

    def test_json_agrees_with_itself(self):
        said = self.json("power", BOILER)
        run = said["sequences"][0]
        supply = run["supplies"][0]
        peak = max(supply["curve"], key=lambda point: point["current_a"])
        self.assertAlmostEqual(peak["current_a"], supply["peak_a"], places=9)
        self.assertEqual(peak["time_us"], supply["peak_at_us"])
        times = [point["time_us"] for point in supply["curve"]] + [run["length_us"]]
        charge = sum(point["current_a"] * (after - point["time_us"]) * 1e-6
                     for point, after in zip(supply["curve"], times[1:]))
        self.assertAlmostEqual(charge / (run["length_us"] * 1e-6), supply["average_a"], places=6)
        self.assertGreaterEqual(supply["rms_a"], supply["average_a"])
        hatch = next(one for one in run["channels"] if one["channel"] == "Hatch valve")
        self.assertLess(hatch["left_v"], hatch["least_v"])

    def test_the_night_is_told_where_the_plan_says_how_busy_it_is(self):
        self.assertIn("not checked: no hours or groups", self.out("power", LOCKER))

        def plan(document):
            document["night"] = {"hours": 5, "groups_per_h": 30}
        show = self.show(plan)
        self.assertRegex(self.out("power", show), r"(?m)^ +Keeper valve +150 +666 nights")
        night = self.json("power", show)["night"]
        self.assertAlmostEqual(night["channels"][0]["operations"], 150)

    def test_sequences_that_can_run_at_once_are_added_up(self):
        self.assertNotIn("At once", self.out("power", LOCKER))  # a trigger ends the idle one

        def trigger(document):
            document["sequences"][1]["kind"] = "triggered"
        show = self.show(trigger)
        text = self.out("power", show)
        self.assertIn("At once, with triggers of their own: Scare, Watch", text)
        said = self.json("power", show)
        alone = [run["supplies"][0]["steady_peak_a"] for run in said["sequences"]]
        both = said["together"]["supplies"][0]["steady_peak_a"]
        self.assertGreater(both, max(alone))
        self.assertLess(both, sum(alone))  # what stands always stands once
        self.assertIsNotNone(said["together"]["supplies"][0]["fuse_a"])
        # Both sequences draw through the shared return: more is lost on the way than in any of them alone.
        alone = [max(one["drop_v"] or 0 for one in run["channels"]) for run in said["sequences"]]
        met = max(said["together"]["channels"], key=lambda one: one["drop_v"] or 0)
        self.assertGreater(met["drop_v"], max(alone))
        self.assertIn(met["sequence"], ("Scare", "Watch"))
        self.assertRegex(text, r"(?m)^ *channel +drop, at most +in +left +wire needed")

    def test_a_rig_without_supplies_says_so(self):
        def strip(document):
            del document["rig"]["supplies"]
            for channel in document["rig"]["channels"]:
                channel.pop("circuit", None)
        self.assertIn("Not checked: no power supply", self.out("power", self.show(strip)))

    def test_blank_figures_are_not_checked(self):
        def blank(document):
            for channel in document["rig"]["channels"]:
                channel["circuit"].pop("wire_mm2", None)
        text = self.out("power", self.show(blank))
        self.assertRegex(text, r"(?m)^ +Keeper valve .* not checked +not checked +0\.\d+ mm2")

    def test_one_sequence_alone(self):
        self.assertEqual([one["sequence"] for one in self.json("power", LOCKER, "--sequence", "Watch")["sequences"]],
                         ["Watch"])

    def test_bad_files_are_refused(self):
        self.refuses_bad_files("power")


main()
