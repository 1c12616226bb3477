#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""What holds for every verb of gasp: help, version, wrong arguments, and where its results go."""

import contextlib
import csv
import io
import os
import pty
import shutil
import subprocess
import termios
import unittest

from gasp_program import DEMOS, GASP, LOCKER, GaspTest, main

VERBS = ["check", "stroke", "budget", "power", "night", "table", "sound", "picture", "sheet", "size", "fit", "board"]


class Help(GaspTest):
    def test_version_and_help_go_to_standard_output(self):
        self.assertRegex(self.out("--version"), r"^gasp \d+\.\d+\.\d+\n$")
        text = self.out("--help")
        for verb in VERBS:
            self.assertRegex(text, rf"\n\s+{verb} ")
        self.assertIn("Exit codes: 0 clean, 1 findings of severity stop, 2", text)

    def test_each_verb_tells_its_options(self):
        for verb in VERBS:
            with self.subTest(verb):
                text = self.out(verb, "--help")
                self.assertIn("--json", text)
                self.assertIn("-o", text)


class WrongArguments(GaspTest):
    def test_each_is_refused_in_a_line(self):
        for arguments in ([], ["lift"], ["check"], ["check", "--loud", LOCKER], ["sound"], ["board"], ["table", LOCKER, "--as", "png"],
                          ["budget", LOCKER, "--units", "furlongs"], ["picture", LOCKER],
                          ["picture", LOCKER, "-o", "a.png", "--size", "12x"],
                          ["picture", LOCKER, "-o", "a.png", "--light", "--dark"], ["sheet", LOCKER],
                          ["sheet", LOCKER, "-o", "a.pdf", "--paper", "a3"]):
            with self.subTest(arguments):
                self.assertIn("gasp --help", self.refusal(*arguments))

    def test_a_verb_that_is_none_is_answered_with_those_that_are(self):
        self.assertIn('there is no verb "lift"; the verbs are ' + ", ".join(VERBS), self.refusal("lift"))
        self.assertIn("a verb is missing; the verbs are", self.refusal())

    def test_what_is_refused_is_told_in_words_of_ours(self):
        self.assertIn("'furlongs' is no system of units: give metric or us.", self.refusal("budget", LOCKER, "--units", "furlongs"))
        self.assertNotIn("..", self.refusal("picture", LOCKER, "-o", "a.png", "--from", "dawn"))

    def test_a_sequence_that_is_not_there_is_answered_with_those_that_are(self):
        message = self.refusal("check", LOCKER, "--sequence", "Dawn")
        self.assertIn('there is no sequence "Dawn"', message)
        self.assertIn('"Scare", "Watch"', message)


class Output(GaspTest):
    def test_a_file_gets_what_standard_output_would(self):
        for verb in ("budget", "table"):
            with self.subTest(verb):
                done = self.gasp(verb, LOCKER, "-o", "result")
                self.assertEqual(done.stdout, b"")
                self.assertEqual((self.folder / "result").read_bytes(), self.gasp(verb, LOCKER).stdout)

    def test_an_unwritable_file_is_named_and_leaves_nothing(self):
        self.assertIn("none: the folder", self.refusal("table", LOCKER, "-o", "none/result"))
        self.assertIn(self.folder.name, self.refusal("check", LOCKER, "-o", self.folder))
        self.assertIn("/dev/full", self.refusal("table", LOCKER, "-o", "/dev/full"))
        self.assertEqual(list(self.folder.iterdir()), [])

    def test_nothing_is_written_over_a_show_or_its_sounds(self):
        shutil.copy(LOCKER, self.folder / "show.gasp")
        for sound in DEMOS.glob("*.flac"):
            shutil.copy(sound, self.folder)
        before = {path: path.read_bytes() for path in self.folder.iterdir()}
        for verb in ("check", "budget", "table"):
            for output in ("show.gasp", "./show.gasp", "other.gasp", "keepers-locker.flac", "locker-bang.flac"):
                with self.subTest((verb, output)):
                    self.assertIn("Choose another", self.refusal(verb, "show.gasp", "-o", output))
        self.assertIn("Choose another", self.refusal("sound", "locker-bang.flac", "-o", "locker-bang.flac"))
        self.gasp("table", "show.gasp", "-o", "table.csv")
        self.assertIn("Choose another", self.refusal("table", "show.gasp", "--compare", "table.csv", "-o", "table.csv"))
        (self.folder / "table.csv").unlink()
        self.assertEqual({path: path.read_bytes() for path in self.folder.iterdir()}, before)

    @unittest.skipIf(os.geteuid() == 0, "root may write everywhere")
    def test_a_folder_without_leave_is_named(self):
        os.chmod(self.folder, 0o500)
        self.addCleanup(os.chmod, self.folder, 0o700)
        self.assertIn("result", self.refusal("table", LOCKER, "-o", "result"))

    def test_a_full_disk_is_an_error(self):
        with open("/dev/full", "wb") as full:
            done = subprocess.run([str(GASP), "table", str(LOCKER)], stdout=full, stderr=subprocess.PIPE, check=False)
        self.assertEqual(done.returncode, 2)
        self.assertIn(b"gasp: standard output: No space left on device", done.stderr)

    def test_a_reader_that_goes_away_is_none(self):
        reader, writer = os.pipe()
        os.close(reader)
        done = subprocess.run([str(GASP), "table", str(LOCKER)], stdout=writer, stderr=subprocess.PIPE, check=False)
        os.close(writer)
        self.assertEqual((done.returncode, done.stderr), (0, b""))

    def test_names_cannot_steer_the_terminal(self):
        def evil(document):
            document["rig"]["actuators"][0]["name"] = "\x1b[31mred\u202e\x07"
            document["sequences"][0]["name"] = "\x1b]0;title\x07\x9b"
        show = self.show(evil)
        for arguments in (["budget", show], ["check", show], ["check", show, "--json"], ["budget", show, "--json"],
                          ["table", show, "--json"], ["check", show, "--sequence", "x"]):
            with self.subTest(arguments):
                done = subprocess.run([str(GASP), *map(str, arguments)], capture_output=True, check=False)
                text = (done.stdout + done.stderr).decode()
                self.assertEqual([c for c in text if c != "\n" and (ord(c) < 32 or 126 < ord(c) < 160)], [])
                self.assertNotIn("\u202e", text)
        self.assertIn("\\x1b[31mred", self.out("budget", show))

    def on_terminal(self, *arguments):
        """What a run writes to a terminal of its own, as bytes."""
        here, there = pty.openpty()
        attributes = termios.tcgetattr(there)
        attributes[1] &= ~termios.OPOST
        termios.tcsetattr(there, termios.TCSANOW, attributes)
        with subprocess.Popen([str(GASP), *map(str, arguments)], stdin=subprocess.DEVNULL, stdout=there, stderr=there,
                              cwd=self.folder) as run:
            os.close(there)
            written = b""
            with contextlib.suppress(OSError):  # Linux's way to say that the other side is closed
                while block := os.read(here, 65536):
                    written += block
        os.close(here)
        self.assertEqual(run.returncode, 0, written)
        return written

    def test_a_table_shown_on_a_terminal_is_text_and_to_a_program_it_is_exact(self):
        name = "lamp \x1b]0;title\x07\x9b2J\u202e\r\n"

        def evil(document):
            document["rig"]["channels"][0]["name"] = name
        show = self.show(evil)
        for form in ("csv", "c", "vcd", "json"):
            with self.subTest(form):
                shown = self.on_terminal("table", show, "--as", form).decode().replace("\r\n", "\n")
                self.assertEqual([c for c in shown if c != "\n" and (ord(c) < 32 or 126 < ord(c) < 160)], [])
                self.assertNotIn("\u202e", shown)
        self.assertIn(r"lamp \x1b]0;title\x07\xc2\x9b2J", self.on_terminal("table", show).decode())
        rows = csv.reader(io.StringIO(self.gasp("table", show, "--no-comments").stdout.decode(), newline=""))
        self.assertIn(name, {row[2] for row in rows})


main()
