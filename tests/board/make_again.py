#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""The steps of building.md one after the other in the same folder: what is in board.hex is what was asked last.

Called with the gasp program, the folder of the demo shows and the folder of the player.
"""

import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

GASP, DEMOS, PLAYER = (pathlib.Path(argument).resolve() for argument in sys.argv[1:4])


class MakeAgain(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def image(self, show):
        path = self.folder / f"{show}.bin"
        subprocess.run([str(GASP), "table", str(DEMOS / f"{show}.gasp"), "--as", "bin", "-o", str(path)], check=True,
                       stderr=subprocess.DEVNULL)
        return path

    def make(self, *arguments):
        return subprocess.run(["make", "-s", "-C", str(PLAYER / "ports/avr"), f"OUT={self.folder / 'out'}", *arguments],
                              capture_output=True, text=True, check=False)

    def hex_bytes(self):
        """What board.hex (Intel HEX) would put into the chip."""
        chip = bytearray()
        for line in (self.folder / "out/board.hex").read_text().splitlines():
            record = bytes.fromhex(line[1:])
            if record[3] == 0:
                at = int.from_bytes(record[1:3], "big")
                chip.extend(b"\xff" * (at + record[0] - len(chip)))
                chip[at:at + record[0]] = record[4:-1]
        return bytes(chip)

    def test_the_last_that_was_asked_for_is_built(self):
        locker, fog = self.image("keepers-locker"), self.image("fog-signal")
        os.utime(fog, (0, 0))
        self.assertEqual(self.make().returncode, 0)
        plain = self.hex_bytes()
        for table in (locker, fog):
            self.assertEqual(self.make(f"TABLE={table}").returncode, 0)
            self.assertIn(table.read_bytes(), self.hex_bytes())
        with_link = self.hex_bytes()
        self.assertEqual(self.make(f"TABLE={fog}", "LINK=no").returncode, 0)
        self.assertLess(sum(byte != 0xff for byte in self.hex_bytes()), sum(byte != 0xff for byte in with_link) - 2000)
        self.assertEqual(self.make().returncode, 0)
        self.assertEqual(self.hex_bytes(), plain)

    def test_what_cannot_be_built_leaves_nothing_to_flash(self):
        locker = self.image("keepers-locker")
        wrong, large = self.folder / "show.csv", self.folder / "large.bin"
        wrong.write_text("sequence,time_ms,channel,output,load\n")
        large.write_bytes(locker.read_bytes() + bytes(24064))
        for table, words in ((wrong, "not a table for a board"), (large, "the chip has room for 24064")):
            self.assertEqual(self.make(f"TABLE={locker}").returncode, 0)
            refused = self.make(f"TABLE={table}")
            self.assertNotEqual(refused.returncode, 0)
            self.assertIn(words, refused.stdout + refused.stderr)
            self.assertFalse((self.folder / "out/board.hex").exists())


unittest.main(argv=sys.argv[:1] + sys.argv[4:])
