#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp check: findings in words and in JSON, and the exit code that goes with them."""

import shutil

from gasp_program import DEMOS, LOCKER, GaspTest, main


def second_channel_on_the_same_output(document):
    document["rig"]["channels"][1]["output"] = document["rig"]["channels"][2]["output"]


class Check(GaspTest):
    def test_a_clean_show_ends_with_0(self):
        self.assertRegex(self.out("check", LOCKER), r"(?m)^0 stop, 0 warn, \d+ note")
        self.assertEqual(self.json("check", LOCKER)["counts"]["stop"], 0)

    def test_the_demo_shows_are_as_their_page_says(self):
        self.assertRegex(self.out("check", DEMOS / "fog-signal.gasp"), r"(?m)^0 stop, 0 warn, \d+ note")
        faulty = self.json("check", DEMOS / "boiler-deck.gasp", code=1)
        self.assertGreater(faulty["counts"]["stop"], 0)
        self.assertGreater(faulty["counts"]["warn"], 0)

    def test_a_finding_of_severity_stop_ends_with_1(self):
        show = self.show(second_channel_on_the_same_output)
        said = self.json("check", show, code=1)
        stops = [finding for finding in said["findings"] if finding["severity"] == "stop"]
        self.assertEqual(said["counts"]["stop"], len(stops))
        self.assertGreater(len(stops), 0)
        text = self.out("check", show, code=1)
        for finding in said["findings"]:
            self.assertIn(finding["what"], text)
            self.assertIn(finding["remedy"], text)
            self.assertNotEqual(finding["remedy"], "")

    def test_json_names_places_and_units(self):
        said = self.json("check", self.show(second_channel_on_the_same_output), code=1)
        self.assertEqual(said["show"], "The Keeper's Locker")
        self.assertEqual(said["sequences"], ["Scare", "Watch"])
        for finding in said["findings"]:
            self.assertLessEqual({"check", "severity", "not_checked", "what", "figure", "limit", "remedy"}, set(finding))

    def test_one_sequence_alone(self):
        said = self.json("check", LOCKER, "--sequence", "Watch")
        self.assertEqual(said["sequences"], ["Watch"])
        self.assertTrue(all(finding.get("sequence", "Watch") == "Watch" for finding in said["findings"]))

    def test_a_blank_figure_is_not_checked_and_never_passes(self):
        def blank(document):
            del document["rig"]["air_plant"]["receiver_l"]
        said = self.json("check", self.show(blank))
        self.assertGreater(said["counts"]["not_checked"], 0)
        self.assertIn("not checked", self.out("check", self.show(blank)))

    def test_a_sound_that_is_not_there_is_a_stop(self):
        shutil.copy(LOCKER, self.folder / "show.gasp")
        said = self.json("check", "show.gasp", code=1)
        missing = [finding for finding in said["findings"] if finding["check"] == "sound_file"]
        self.assertEqual(len(missing), said["counts"]["stop"])
        self.assertIn('Sound "keepers-locker.flac" cannot be played', missing[0]["what"])
        self.assertIn("Put the file back", missing[0]["remedy"])

    def test_pressures_in_the_units_asked_for(self):
        text = self.out("check", DEMOS / "boiler-deck.gasp", code=1)
        self.assertRegex(text, r"\d\.\d\d bar, limit at least 4\.2 bar")
        self.assertNotIn("psi", text)
        self.assertRegex(self.out("check", DEMOS / "boiler-deck.gasp", "--units", "us", code=1), r"\d\d\.\d psi, limit at least 60\.9 psi")

    def test_the_word_is_never_printed(self):
        self.assertNotRegex(self.out("check", LOCKER) + self.out("check", "--help"), r"(?i)\bsafe")

    def test_a_sound_is_checked_as_a_new_show_of_it(self):
        shutil.copy(DEMOS / "keepers-locker.flac", self.folder / "Voice.FLAC")
        said = self.json("check", "Voice.FLAC")
        self.assertEqual((said["show"], len(said["sequences"])), ("Voice", 1))
        self.assertEqual(said["counts"]["stop"], 0)
        (self.folder / "no.wav").write_text("lamp on at 3", encoding="utf-8")
        self.assertIn("no.wav", self.refusal("check", "no.wav"))

    def test_bad_files_are_refused(self):
        self.refuses_bad_files("check")


main()
