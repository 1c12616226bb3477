#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp board: a board spoken to over a pseudo-terminal. Python plays the board (board_peer.py) where it must
misbehave; the board player itself, built for this machine, does the whole job."""

import os
import pathlib
import signal
import subprocess
import sys
import time

from board_peer import Peer
from gasp_program import DEMOS, LOCKER, GaspTest, main

HOST_BOARD = pathlib.Path(os.environ.get("GASPWORKS_HOST_BOARD", "none"))


class Board(GaspTest):
    def peer(self, **how):
        peer = Peer(**how)
        self.addCleanup(peer.close)
        return peer

    def test_ports_are_listed(self):
        self.assertEqual(set(self.json("board", "list")), {"ports"})

    def test_frames_are_those_of_an_independent_implementation(self):
        peer = self.peer()
        said = self.json("board", peer.path, "identify")
        self.assertEqual(said["chip"], "python?[2J")  # nothing a terminal would obey
        self.assertEqual((said["player"], said["outputs"], said["inputs"]), ("1.0", 8, ["trigger", "output-enable"]))
        self.assertEqual(said["no_table_because"], "there is none")
        self.assertEqual(peer.bad_frames, 0)

    def test_a_table_is_loaded_compared_and_read_back(self):
        peer = self.peer()
        said = self.json("board", peer.path, "load", LOCKER)
        image = self.gasp("table", LOCKER, "--as", "bin").stdout
        self.assertEqual((said["bytes"], said["verified"]), (len(image), True))
        self.assertEqual(peer.image, image)
        self.assertEqual(self.gasp("board", peer.path, "read", "--as", "bin").stdout, image)
        self.assertEqual(self.out("board", peer.path, "read", LOCKER), self.out("table", LOCKER))
        self.assertIn("output 1", self.out("board", peer.path, "read"))
        self.assertIn("its table is the show's", self.out("board", peer.path, "identify", "--show", LOCKER))
        other = self.show(lambda document: document["sequences"][0]["cues"].pop())
        self.assertIn("load it", self.out("board", peer.path, "identify", "--show", other, code=1))

    def test_a_board_of_a_show_with_several_is_named(self):
        peer = self.peer()
        boiler = DEMOS / "boiler-deck.gasp"
        self.assertIn("--board NAME", self.refusal("board", peer.path, "load", boiler))
        self.assertIn('It has "Deck board", "Hatch board"', self.refusal("board", peer.path, "load", boiler, "--board", "x"))
        self.gasp("board", peer.path, "load", boiler, "--board", "Hatch board", code=1)  # it has findings
        self.assertEqual(peer.image, self.gasp("table", boiler, "--as", "bin", "--board", "Hatch board", code=1).stdout)

    def test_what_does_not_fit_is_told_by_how_much(self):
        peer = self.peer(store=200)
        size = len(self.gasp("table", LOCKER, "--as", "bin").stdout)
        self.assertIn(f"takes {size} bytes and the board has room for 200: {size - 200} too many",
                      self.refusal("board", peer.path, "load", LOCKER))
        few = self.peer(outputs=2)
        self.assertIn("uses output 4 and the board has 2", self.refusal("board", few.path, "load", LOCKER))

    def test_what_is_no_board_is_told(self):
        for behave, words in {"silent": "nothing answers on this port", "rubbish": "no board with the player of this program",
                              "damaged": "no board with the player of this program",
                              "version": "of another version: it speaks 2 to 3, this program 1"}.items():
            with self.subTest(behave):
                peer = self.peer(behave=behave)
                begun = time.monotonic()
                message = self.refusal("board", peer.path)
                self.assertIn(words, message)
                self.assertIn(peer.path, message)
                self.assertLess(time.monotonic() - begun, 6)

    def test_a_load_that_breaks_off_is_told(self):
        for behave, words in {"unplugged": "was unplugged", "stalled": "stopped answering",
                              "forgetful": "is not what was loaded"}.items():
            with self.subTest(behave):
                peer = self.peer(behave=behave)
                self.assertIn(words, self.refusal("board", peer.path, "load", LOCKER))

    def test_ports_that_cannot_be_opened(self):
        self.assertIn("/dev/nothing: there is no such port", self.refusal("board", "/dev/nothing"))
        self.assertIn("no serial port", self.refusal("board", "/dev/null"))

    def test_nothing_moves_without_the_words(self):
        peer = self.peer()
        self.gasp("board", peer.path, "load", LOCKER)
        done = self.gasp("board", peer.path, "fire", "2", "--for", "300", code=2, input=b"yes\n")
        self.assertIn(b"not confirmed", done.stderr)
        self.assertEqual(peer.held, [])
        done = self.gasp("board", peer.path, "fire", "2", "--for", "300", input=b"fire 2\n")
        self.assertIn(b"out of reach", done.stderr)
        self.assertEqual(peer.held[-1], 0xFF)
        self.assertEqual(set(peer.held[:-1]), {1})
        self.assertGreaterEqual(len(peer.held), 4)
        self.assertFalse(peer.armed)
        self.gasp("board", peer.path, "fire", "Lantern", "--show", LOCKER, "--for", "10", input=b"fire 2\n")
        self.gasp("board", peer.path, "run", "Watch", "--show", LOCKER, input=b"run 2\n")
        self.assertEqual(peer.ran, [1])

    def test_a_key_is_wanted_where_no_time_is_given(self):
        peer = self.peer()
        done = self.gasp("board", peer.path, "fire", "1", code=2, input=b"fire 1\n")
        self.assertIn(b"Give --for MS", done.stderr)
        self.assertEqual([output for output in peer.held if output != 0xFF], [])

    def test_outputs_and_actions_that_are_not_there(self):
        peer = self.peer()
        self.assertIn('"9" is no output of this board', self.refusal("board", peer.path, "fire", "9", "--for", "10"))
        self.assertIn("no sequence", self.refusal("board", peer.path, "run", "none"))
        self.assertIn("ACTION", self.refusal("board", peer.path, "dance"))

    def test_log_and_state(self):
        peer = self.peer()
        log = self.json("board", peer.path, "log")["entries"]
        self.assertEqual(len(log), 64)
        self.assertEqual([entry["words"] for entry in log[:4]],
                         ["power-up: power", "trigger: sequence 1", "trigger refused: lockout", "fault: stray pulse on the start line"])
        self.assertIn("0:01:10  trigger refused: lockout", self.out("board", peer.path, "log"))
        self.assertEqual(self.out("board", peer.path, "clear"), "log cleared\n")
        state = self.json("board", peer.path, "status")
        self.assertEqual((state["state"], state["triggers"], state["refusals"], state["faults"]), ("ready", 4, 2, 1))
        self.assertIn("there and back", self.out("board", peer.path, "latency"))


main()
