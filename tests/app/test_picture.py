#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp picture: PNG and SVG files, their size and words, and what cannot be painted."""

import os
import shutil
import struct
import subprocess
import xml.etree.ElementTree as ElementTree

from gasp_program import DEMOS, GASP, LOCKER, GaspTest, main


def png_size(path):
    data = path.read_bytes()
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    return struct.unpack(">II", data[16:24])


class Picture(GaspTest):
    def picture(self, name, *options, show=LOCKER):
        self.gasp("picture", show, "-o", name, *options)
        return self.folder / name

    def words(self, path):
        return " ".join(text.text or "" for text in ElementTree.parse(path).iter("{http://www.w3.org/2000/svg}text"))

    def test_a_png_of_the_size_asked_for(self):
        self.assertEqual(png_size(self.picture("a.png", "--size", "1600x900")), (1600, 900))
        self.assertEqual(png_size(self.picture("b.png", "--size", "3200x1800", "--dark")), (3200, 1800))
        self.assertEqual(png_size(self.picture("c.png", "--size", "1200"))[0], 1200)

    def test_light_and_dark_differ_and_light_is_usual(self):
        light = self.picture("light.png", "--light").read_bytes()
        self.assertEqual(light, self.picture("usual.png").read_bytes())
        self.assertNotEqual(light, self.picture("dark.png", "--dark").read_bytes())

    def test_an_svg_holds_the_words_of_the_sequence(self):
        words = self.words(self.picture("a.svg"))
        for word in ("The Keeper's Locker", "Scare", "Keeper valve", "Lantern", "oilskin", "receiver", "Keeper lunges"):
            self.assertIn(word, words)

    def test_an_svg_is_painted_by_another_program(self):
        path = self.picture("a.svg", "--size", "1600x900")
        subprocess.run(["rsvg-convert", "-o", str(self.folder / "again.png"), str(path)], check=True)
        self.assertEqual(png_size(self.folder / "again.png"), (1600, 900))

    def test_a_stretch_and_another_sequence(self):
        words = self.words(self.picture("a.svg", "--from", "14", "--to", "17"))
        self.assertIn("Keeper lunges", words)
        self.assertNotIn("lantern over the boots", words)
        self.assertIn("lantern turns", self.words(self.picture("b.svg", "--sequence", "Watch")))

    def test_the_sequence_taken_is_told_when_there_are_several(self):
        self.assertIn(b'"Scare", the first of 2', self.gasp("picture", LOCKER, "-o", "a.svg").stderr)
        self.assertEqual(self.gasp("picture", LOCKER, "-o", "a.svg", "--sequence", "Watch").stderr, b"")

    def test_units(self):
        self.assertIn(" bar", self.words(self.picture("a.svg")))
        self.assertIn(" psi", self.words(self.picture("b.svg", "--units", "us")))

    def test_circuits_are_pictures_that_another_program_paints(self):
        for of, words in (("air", ("Keeper", "regulator", "14: Keeper valve")), ("wiring", ("Lantern", "X1", "X2"))):
            with self.subTest(of):
                path = self.picture(f"{of}.svg", "--of", of)
                said = self.words(path)
                for word in words:
                    self.assertIn(word, said)
                subprocess.run(["rsvg-convert", "-o", str(self.folder / f"{of}-again.png"), str(path)], check=True)
                self.assertEqual(png_size(self.folder / f"{of}-again.png")[0], 1600)
                self.assertEqual(png_size(self.picture(f"{of}.png", "--of", of, "--size", "2400"))[0], 2400)
        self.assertIn("--from", self.refusal("picture", LOCKER, "-o", "a.svg", "--of", "air", "--from", "2"))

        def bare(document):
            document["rig"] = {"air_plant": {}}
            for sequence in document["sequences"]:
                sequence["cues"] = []
        self.assertIn("Add an actuator", self.refusal("picture", self.show(bare), "-o", "a.svg", "--of", "air"))

    def test_hostile_names_leave_good_xml(self):
        def evil(document):
            document["name"] = "<svg>&amp;\x01\x1b\ud7ff\uffff"
            document["rig"]["channels"][0]["name"] = "]]> \"'<!--"
            document["sequences"][0]["cues"][0]["name"] = "\x01" * 50
        self.assertIn("<svg>&amp;", self.words(self.picture("a.svg", show=self.show(evil))))

    def test_many_channels_and_none(self):
        def many(document):
            base = document["next_id"]
            document["rig"]["channels"] += [{"id": base + n, "name": f"lamp {n}", "kind": "lamp"} for n in range(200)]
            document["next_id"] = base + 200

        def none(document):
            document["rig"]["channels"] = []
            document["sequences"] = [{"id": 1, "name": "empty", "kind": "idle", "length_us": 1, "clips": [],
                                      "marks": [], "cues": []}]
        self.assertEqual(png_size(self.picture("a.png", "--size", "1600x900", show=self.show(many))), (1600, 900))
        self.assertGreater(png_size(self.picture("b.png", show=self.show(many)))[1], 6000)
        self.picture("c.png", show=self.show(none))

    def test_what_cannot_be_painted_is_refused(self):
        self.assertIn(".png or .svg", self.refusal("picture", LOCKER, "-o", "a.gif"))
        self.assertIn("--from", self.refusal("picture", LOCKER, "-o", "a.png", "--from", "5", "--to", "4"))
        self.assertIn("--from", self.refusal("picture", LOCKER, "-o", "a.png", "--from", "50"))
        self.assertIn("none: the folder", self.gasp("picture", LOCKER, "--sequence", "Scare", "-o", "none/a.png",
                                              code=2).stderr.decode())
        self.assertEqual([path for path in self.folder.iterdir() if path.suffix == ".png"], [])

    def test_a_sound_is_painted_as_a_new_show_of_it(self):
        shutil.copy(DEMOS / "keepers-locker.flac", self.folder / "voice.flac")
        done = self.gasp("picture", "voice.flac", "-o", "a.svg")
        self.assertEqual(done.stderr, b"")
        words = self.words(self.folder / "a.svg")
        self.assertIn("voice.flac", words)
        self.assertIn("15 s", words)

    def test_a_missing_sound_is_told_and_the_picture_painted(self):
        show = self.folder / "alone.gasp"
        show.write_bytes(LOCKER.read_bytes())
        done = self.gasp("picture", show, "-o", "a.png", "--sequence", "Scare")
        self.assertIn(b"keepers-locker.flac", done.stderr)
        self.assertTrue((self.folder / "a.png").exists())

    def test_no_fonts_are_an_error_and_no_empty_picture(self):
        config = self.folder / "fonts.conf"
        config.write_text("<fontconfig><dir>/nowhere</dir></fontconfig>")
        done = subprocess.run([str(GASP), "picture", str(LOCKER), "-o", "a.png", "--sequence", "Scare"],
                              cwd=self.folder, capture_output=True, check=False,
                              env={**os.environ, "FONTCONFIG_FILE": str(config)})
        self.assertEqual(done.returncode, 2)
        self.assertIn(b"fonts-dejavu-core", done.stderr)
        self.assertFalse((self.folder / "a.png").exists())

    def test_bad_files_are_refused(self):
        self.refuses_bad_files("picture", "-o", "a.png")


main()
