#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp board: a board spoken to over a pseudo-terminal. Python plays the board (board_peer.py) where it must
misbehave; the board player itself, built for this machine, does the whole job."""

import json
import os
import pty
import signal
import subprocess
import time

from board_peer import Peer
from gasp_program import DEMOS, GASP, LOCKER, GaspTest, main

HOST_BOARD = os.environ["GASPWORKS_HOST_BOARD"]


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
        self.gasp("board", peer.path, "load", boiler, "--board", "Hatch board", "--despite-stops")  # it has findings
        self.assertEqual(peer.image, self.gasp("table", boiler, "--as", "bin", "--board", "Hatch board", code=1).stdout)

    def test_a_table_with_stop_findings_is_loaded_only_on_demand(self):
        def change(document):
            first, second = document["rig"]["channels"][1:3]
            first["excludes"] = [second["id"]]
            document["sequences"][0]["cues"] += [
                {"id": 900 + place, "channel": channel["id"], "start_us": 1_000_000, "length_us": 500_000}
                for place, channel in enumerate((first, second))]
            document["next_id"] = 1000
        show = self.show(change)
        peer = self.peer()
        done = self.gasp("board", peer.path, "load", show, code=1)
        self.assertIn(b"of severity stop stand", done.stderr)
        self.assertIn(b"Nothing was loaded", done.stderr)
        self.assertIn(b"--despite-stops", done.stderr)
        named = [one["what"] for one in json.loads(self.gasp("check", show, "--json", code=1).stdout)["findings"]
                 if one["severity"] == "stop"]
        self.assertIn(named[0], done.stderr.decode())
        self.assertIn(named[0], self.gasp("table", show, code=1).stderr.decode())
        self.assertFalse(peer.image)
        self.assertIn(named[0], self.gasp("board", peer.path, "load", show, "--despite-stops").stderr.decode())
        self.assertEqual(peer.image, self.gasp("table", show, "--as", "bin", code=1).stdout)

    def test_a_table_too_large_is_found_by_check_and_refused_alike(self):
        show = self.show(lambda document: document["rig"]["boards"][0].update(table_bytes=200))
        size = len(self.gasp("table", LOCKER, "--as", "bin").stdout)
        found, = [one for one in json.loads(self.gasp("check", show, "--json", code=1).stdout)["findings"]
                  if one["check"] == "table_room"]
        self.assertEqual((found["figure"], found["limit"]), (f"{size} bytes", "at most 200 bytes"))
        peer = self.peer()
        refused = self.refusal("board", peer.path, "load", show)
        self.assertIn(f"takes {size} bytes and it has room for 200: {size - 200} too many", refused)
        self.assertIn(found["remedy"].rstrip("."), refused)
        self.assertFalse(peer.image)

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

    def test_an_output_is_driven_while_enter_is_held(self):
        peer = self.peer()
        hand, keyboard = pty.openpty()
        self.addCleanup(os.close, hand)
        done = subprocess.Popen([str(GASP), "board", peer.path, "fire", "1"], stdin=keyboard, stdout=subprocess.PIPE,
                                stderr=subprocess.PIPE, cwd=self.folder)
        os.close(keyboard)
        os.write(hand, b"fire 1\n")
        while b"Hold Enter" not in done.stderr.readline():
            self.assertIsNone(done.poll())
        time.sleep(0.3)
        self.assertEqual(peer.held, [])
        for _ in range(10):
            os.write(hand, b"\n")
            time.sleep(0.05)
        time.sleep(1.2)
        self.assertEqual((set(peer.held[:-1]), peer.held[-1]), ({0}, 0xFF))
        os.write(hand, b"q")
        self.assertEqual(done.wait(timeout=10), 0)
        done.communicate()
        self.assertFalse(peer.armed)

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


class Player(GaspTest):
    """The board player itself, in a process."""

    def setUp(self):
        super().setUp()
        self.link, self.trace, self.kept = (self.folder / name for name in ("port", "trace", "kept"))
        self.player = None
        self.addCleanup(self.power_off)

    def power_on(self):
        self.player = subprocess.Popen([HOST_BOARD, "--pty", self.link, "--keep", self.kept, "--trace", self.trace],
                                       stdin=subprocess.DEVNULL)
        end = time.monotonic() + 10
        while not self.link.is_symlink():
            self.assertLess(time.monotonic(), end)
            time.sleep(0.01)

    def power_off(self):
        if self.player:
            self.player.terminate()  # whose store is a file it must not leave half written
            self.player.wait()
            self.link.unlink()
            self.player = None

    def short_show(self, change=None):
        """One triggered sequence of 0.6 s: two flashes of the lantern, and the lamp that has power at rest off."""
        def short(document):
            scare, = document["sequences"][:1]
            scare |= {"length_us": 600_000, "marks": [], "cues": [
                {"id": 17, "channel": 4, "start_us": 100_000, "length_us": 100_000},
                {"id": 18, "channel": 4, "start_us": 300_000, "length_us": 50_000},
                {"id": 19, "channel": 6, "start_us": 0, "length_us": 400_000}]}
            document["sequences"] = [scare]
            document["rig"]["sensor"]["lockout_s"] = 1
            if change:
                change(document)
        return self.show(short)

    def edges(self):
        """[(ms, levels)] since the run began, of what the trace has from then on."""
        lines = [line.split() for line in self.trace.read_text().splitlines()]
        changes = [(int(us) / 1000, int(levels, 16)) for us, levels in lines]
        first = next(n for n in range(len(changes) - 1, -1, -1) if changes[n][1] == 8 and changes[n - 1][1] == 0)
        return [(round(ms - changes[first][0]), levels) for ms, levels in changes[first:]]

    def test_the_whole_job(self):
        show = self.short_show()
        self.power_on()
        self.assertEqual(self.json("board", self.link)["chip"], "host")
        self.assertTrue(self.json("board", self.link, "load", show)["verified"])
        self.assertEqual(self.gasp("board", self.link, "read", show).stdout, self.gasp("table", show).stdout)
        self.assertIn("its table is the show's", self.out("board", self.link, "identify", "--show", show))
        self.assertEqual(self.out("table", show, "--compare", self.read_back(show)), "Scare: the same\n")
        self.go_on()
        self.gasp("board", self.link, "run", "1", input=b"run 1\n")
        expected = [(0, 8), (100, 10), (200, 8), (300, 10), (350, 8), (400, 0)]
        self.assertEqual([levels for _, levels in self.edges()[:6]], [levels for _, levels in expected])
        for (ms, _), (wanted, _) in zip(self.edges(), expected):
            self.assertAlmostEqual(ms, wanted, delta=150)  # a process among others, no chip
        self.gasp("board", self.link, "fire", "Lantern", "--show", show, "--for", "200", input=b"fire 2\n")
        self.assertIn(" 2\n", self.trace.read_text()[-60:])

    def go_on(self):
        """A board just loaded rests until it is told to go on."""
        self.assertEqual(self.json("board", self.link, "status")["state"], "stopped over the link")
        self.gasp("board", self.link, "go-on", input=b"go on\n")

    def read_back(self, show):
        path = self.folder / "back.bin"
        self.gasp("board", self.link, "read", "--as", "bin", "-o", path)
        return path

    def test_a_trigger_is_in_the_log_even_after_a_power_cut(self):
        show = self.short_show()
        self.power_on()
        self.assertIn("The board rests until it is told to go on", self.out("board", self.link, "load", show))
        self.go_on()
        self.gasp("board", self.link, "clear")
        self.player.send_signal(signal.SIGUSR1)
        time.sleep(1)
        self.power_off()
        self.power_on()
        words = [entry["words"] for entry in self.json("board", self.link, "log")["entries"]]
        self.assertEqual(words, ["trigger: sequence 1", "power-up: power"])

    def test_a_load_broken_off_by_a_power_cut_goes_on(self):
        def many(document):
            scare, = document["sequences"]
            scare["length_us"] = 60_000_000
            scare["cues"] = [{"id": 20 + n, "channel": 4, "start_us": 20_000 * n, "length_us": 10_000}
                             for n in range(2900)]
            document["next_id"] = 5000
            document["rig"]["boards"][0].pop("table_bytes")
        show = self.short_show(many)
        self.power_on()
        loading = subprocess.Popen([str(GASP), "board", self.link, "load", show, "--despite-stops"], stdout=subprocess.PIPE,
                                   stderr=subprocess.PIPE, cwd=self.folder)
        end = time.monotonic() + 20
        while time.monotonic() < end and not self.loaded_bytes():
            time.sleep(0.005)
        self.power_off()
        said = loading.communicate(timeout=30)[1].decode()
        self.assertEqual(loading.returncode, 2, said)
        self.assertRegex(said, "unplugged|stopped answering")
        self.power_on()
        self.assertGreater(self.json("board", self.link, "load", show, "--despite-stops")["resumed_at"], 0)

    def loaded_bytes(self):
        """Some KB of an image are in the store: more than a board may forget of a load."""
        store = self.kept.read_bytes()[:1 << 20] if self.kept.exists() else b""
        return len(store.rstrip(b"\xff")) > 4000

    def test_a_stopped_board_says_so(self):
        show = self.short_show()
        self.power_on()
        self.gasp("board", self.link, "load", show)
        self.assertIn("stopped", self.out("board", self.link, "stop"))
        self.assertEqual(self.json("board", self.link, "status")["state"], "stopped over the link")
        self.assertIn("stopped over the link", self.gasp("board", self.link, "run", "1", code=2, input=b"run 1\n").stderr.decode())
        self.gasp("board", self.link, "go-on", input=b"go on\n")
        self.assertEqual(self.json("board", self.link, "status")["state"], "ready")


main()
