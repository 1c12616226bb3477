#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp night: what the nights come to, what was not checked, what was taken for blanks, and stopping it."""

import os
import pty
import signal
import subprocess
import time

from gasp_program import GASP, LOCKER, GaspTest, main


class Night(GaspTest):
    def test_the_nights_are_told_with_their_units(self):
        text = self.out("night", LOCKER, "--runs", "20", "--hours", "1")
        self.assertRegex(text, r"20 nights, seed \d+ \(SplitMix64\)")
        self.assertRegex(text, r"scares delivered +\d+ +\d+ +\d+")
        self.assertRegex(text, r"lowest in the receiver +[\d.]+ bar")
        self.assertRegex(text, r"\d+ % of the nights pass without a weak scare, \d+ % with unfavourable inputs")

    def test_json_adds_up_and_follows_from_the_seed(self):
        said = self.json("night", LOCKER, "--runs", "5", "--hours", "2", "--seed", "7")
        self.assertEqual(said, self.json("night", LOCKER, "--runs", "5", "--hours", "2", "--seed", "7"))
        self.assertEqual(len(said["hours"]), 2)
        for strike in said["strikes"]:
            self.assertLessEqual(strike["strike_s"]["p5"], strike["strike_s"]["p95"])
            self.assertGreaterEqual(strike["unfavourable_s"]["p50"], strike["strike_s"]["p50"])
        self.assertLessEqual(said["unfavourable"]["share_without_weak"], said["share_without_weak"])

    def test_defaults_are_marked_and_the_same_in_the_help(self):
        def blank(document):
            document["night"] = {}
            document["rig"]["sensor"].pop("lockout_s", None)
        show = self.show(blank)
        taken = {each["field"]: each["taken"] for each in self.json("night", show, "--runs", "2")["assumptions"]}
        self.assertEqual(taken["night.hours"], "8 h")
        self.assertEqual(taken["night.weak_ms"], "50 ms")
        self.assertIn("none", taken["sensor.lockout_s"])
        self.assertNotIn("night.runs", taken)
        help_text = self.out("night", "--help")
        self.assertIn("else 8", help_text)
        self.assertIn("else 200", help_text)
        self.assertIn("50 ms", help_text)
        self.assertIn("taken: lockout of the sensor: none", self.out("night", show, "--runs", "2"))

    def test_what_is_not_simulated_does_not_pass(self):
        def no_valve(document):
            for actuator in document["rig"]["actuators"]:
                actuator["valve"].pop("supply_c_l_s_bar", None)
        text = self.out("night", self.show(no_valve), "--runs", "2")
        self.assertIn("not checked: no supply conductance of the valve", text)
        self.assertIn("Not checked: whether the nights pass without a weak scare.", text)
        self.assertNotIn("of the nights pass without", text.replace("whether the nights pass without", ""))
        self.assertIsNone(self.json("night", self.show(no_valve), "--runs", "2")["share_without_weak"])

    def test_without_a_receiver_the_verdict_says_so(self):
        def blank(document):
            del document["rig"]["air_plant"]["receiver_l"]
        text = self.out("night", self.show(blank), "--runs", "2", "--hours", "1")
        self.assertIn("not checked: no receiver of the air plant", text)
        self.assertIn("as far as it was checked", text)

    def test_answers_end_on_a_plant_that_never_recovers(self):
        def weak(document):
            document["rig"]["air_plant"]["delivery_l_min"] = 1.0
            document["rig"]["air_plant"]["receiver_l"] = 3.0
        answers = self.json("night", self.show(weak), "--runs", "20", "--hours", "1", "--groups", "60",
                            "--answers")["answers"]
        self.assertEqual(len(answers), 4)
        for answer in answers.values():
            self.assertTrue(answer["reason"])

    def long_night(self, **streams):
        return subprocess.Popen([str(GASP), "night", str(LOCKER), "--runs", "100000"], cwd=self.folder, **streams)

    def test_ctrl_c_stops_it_and_what_was_played_is_told(self):
        work = self.long_night(stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        time.sleep(3)
        work.send_signal(signal.SIGINT)
        out, err = work.communicate(timeout=60)
        self.assertEqual(work.returncode, 130, err)
        self.assertRegex(err.decode(), r"stopped after \d+ of 100000 nights")
        self.assertNotIn("\r", err.decode())  # progress is for terminals
        self.assertRegex(out.decode(), r"\d+ nights, seed")

    def test_progress_goes_to_a_terminal(self):
        ours, theirs = pty.openpty()
        work = self.long_night(stdout=subprocess.DEVNULL, stderr=theirs)
        os.close(theirs)
        said = b""
        until = time.monotonic() + 60
        while b" %" not in said and time.monotonic() < until:
            said += os.read(ours, 1000)
        work.send_signal(signal.SIGINT)
        self.assertEqual(work.wait(timeout=60), 130)
        os.close(ours)
        self.assertIn(b"nights:", said)

    def test_bad_files_are_refused(self):
        self.refuses_bad_files("night")


main()
