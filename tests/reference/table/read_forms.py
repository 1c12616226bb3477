#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""The forms of the event table read by what is not ours, and compared with gasp's CSV as Python's csv reads it:
C headers by gcc, g++ and avr-gcc, waveforms by a reader of IEEE 1364 and by gtkwave's converters, board images by
struct and zlib.

Usage: read_forms.py GASP DEMO_SHOWS
"""

import csv
import io
import json
import pathlib
import re
import shutil
import struct
import subprocess
import sys
import tempfile
import unittest
import zlib

import vcd

GASP, DEMOS = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
# Names that end comments, strings, lines or blocks in one form or another.
NAMES = ['a*/ int x; /*', 'say "now"', 'two\nlines', 'what??/', 'end\\', '=1+1', '$end', '%s%n', 'mole d’été 港', 'int',
         '7 lamps', '</script>', "'", '#define x', '']


def run(*arguments, code=(0, 1)):
    done = subprocess.run([str(GASP), *map(str, arguments)], capture_output=True)
    assert done.returncode in code, done.stderr
    return done.stdout


def identifier(name, given):
    """As the pages of the forms say: lower case, what is no letter or digit becomes _."""
    base = re.sub("[^a-z0-9]+", "_", re.sub("[A-Z]", lambda m: m[0].lower(), name)).strip("_")[:40].strip("_") or "x"
    result, number = base, 2
    while result in given:
        result, number = f"{base}_{number}", number + 1
    given.add(result)
    return result


class Forms(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp())
        self.addCleanup(shutil.rmtree, self.folder)
        self.shows = [*sorted(DEMOS.glob("*.gasp")), self.show_of_names()]

    def show_of_names(self):
        show = json.loads((DEMOS / "keepers-locker.gasp").read_text(encoding="utf-8"))
        channels = show["rig"]["channels"]
        next_id = show["next_id"]
        names = [name for name in NAMES if name]
        for number, name in enumerate(names):
            if number >= len(channels):
                channels.append({"id": next_id, "name": name, "contact": "normally_closed", "output": number + 1,
                                 "board": show["rig"]["boards"][0]["id"]})
                show["sequences"][0]["cues"].append({"id": next_id + 1, "channel": next_id, "start_us": 500 * number,
                                                     "length_us": 1_500_500})
                next_id += 2
            channels[number] |= {"name": name, "output": number + 1}
        show["name"] = "*/ ??/ \\\n$end"
        show["sequences"][0]["name"] = '*/ "\\'
        show["rig"]["boards"][0] |= {"tick_ms": 0.5, "outputs": 32, "name": "*/??/ $end"}
        show["next_id"] = next_id
        for sequence in show["sequences"]:
            sequence["clips"] = []
        path = self.folder / "names.gasp"
        path.write_text(json.dumps(show), encoding="utf-8")
        return path

    def rows(self, show, *options):
        """{sequence: ([channel], [(time in us, channel, output, load)])}, the two blocks of rest included."""
        text = run("table", show, "--no-comments", *options).decode()
        tables = {}
        for sequence, ms, channel, output, load in list(csv.reader(io.StringIO(text, newline=""), strict=True))[1:]:
            plain = [name[1:] if name.startswith("'") else name for name in (sequence, channel)]
            channels, rows = tables.setdefault(plain[0], ([], []))
            if plain[1] not in channels:
                channels.append(plain[1])
            rows.append((round(float(ms) * 1000), plain[1], int(output), int(load)))
        return tables

    def changes(self, channels, rows):
        return rows[len(channels):len(rows) - len(channels)]


class CHeader(Forms):
    def compile(self, header, source, *command):
        (self.folder / "table.h").write_bytes(header)
        (self.folder / "main.c").write_text(source)
        return subprocess.run([*command, "-Wall", "-Wextra", "-pedantic", "-Werror", "-I", self.folder,
                               self.folder / "main.c", "-o", self.folder / "out"], capture_output=True, text=True)

    def test_compilers_take_it_and_find_the_same_events(self):
        for show in self.shows:
            header = run("table", show, "--as", "c")
            arrays = re.findall(r"gaspworks_events_(\w+)\[\] GASPWORKS", header.decode())
            source = '#include "table.h"\n#include "table.h"\n#include <stdio.h>\nint main(void) {\n' + "".join(
                f"""for (unsigned long n = 0; gaspworks_events_{name}[n].channel != GASPWORKS_END; ++n)
                    printf("{number} %lu %u %u\\n",
                           (unsigned long)gaspworks_events_{name}[n].time * GASPWORKS_STEP_US_{name.upper()},
                           (unsigned)gaspworks_events_{name}[n].channel, (unsigned)gaspworks_events_{name}[n].driven);
                """ for number, name in enumerate(arrays)) + "(void)gaspworks_output; (void)gaspworks_load_at_rest; return 0; }\n"
            expected = [[number, time, channels.index(channel), output]
                        for number, (channels, rows) in enumerate(self.rows(show).values())
                        for time, channel, output, _ in self.changes(channels, rows)]
            for command in (["gcc", "-std=c11"], ["g++", "-x", "c++", "-std=c++11"]):
                with self.subTest(show=show.name, compiler=command[0]):
                    done = self.compile(header, source, *command)
                    self.assertEqual(done.stderr, "")
                    said = subprocess.run([self.folder / "out"], capture_output=True, text=True).stdout
                    self.assertEqual([list(map(int, line.split())) for line in said.splitlines()], expected)
            with self.subTest(show=show.name, compiler="avr-gcc"):
                on_chip = '#include "table.h"\nint main(void) { return (int)pgm_read_byte(&gaspworks_output[0]); }\n'
                done = self.compile(header, on_chip, "avr-gcc", "-std=c11", "-mmcu=atmega328p", "-Os")
                self.assertEqual(done.stderr, "")

    def test_a_lost_event_does_not_compile(self):
        header = run("table", self.shows[0], "--as", "c").decode()
        row = re.search(r"    \{\d+u, \d+u, 1u\},\n", header)[0]
        done = self.compile(header.replace(row, "", 1).encode(), '#include "table.h"\nint main(void) { return 0; }\n',
                            "gcc", "-std=c11")
        self.assertIn("events are missing", done.stderr)


class Vcd(Forms):
    def compare(self, show, text):
        wires = vcd.read(text)
        sequences = set()
        for sequence, (channels, rows) in self.rows(show).items():
            scope = "seq_" + identifier(sequence, sequences)
            self.assertEqual(wires[f"{scope}/running"], [(0, 1), (rows[-1][0], 0)])
            names = set()
            for channel in channels:
                own = [(time, output, load) for time, name, output, load in rows[:len(rows) - len(channels)] if name == channel]
                if len(own) > 1 and own[1][0] == 0:
                    own.pop(0)  # of a time the last value stands
                path = f"{scope}/ch_{identifier(channel, names)}"
                self.assertEqual(wires[path + "/output"], [(time, output) for time, output, _ in own])
                self.assertEqual(wires[path + "/load"], [(time, load) for time, _, load in own])

    def test_a_reader_of_the_standard_finds_the_same_changes(self):
        for show in self.shows:
            with self.subTest(show=show.name):
                self.compare(show, run("table", show, "--as", "vcd").decode())

    def test_a_viewers_converters_find_the_same_changes(self):
        for show in self.shows:
            with self.subTest(show=show.name):
                (self.folder / "t.vcd").write_bytes(run("table", show, "--as", "vcd"))
                subprocess.run(["vcd2fst", self.folder / "t.vcd", self.folder / "t.fst"], check=True, capture_output=True)
                again = subprocess.run(["fst2vcd", self.folder / "t.fst"], check=True, capture_output=True, text=True)
                self.compare(show, again.stdout)


class BoardImage(Forms):
    """Taken apart by resources/board-player/image.md."""

    def test_struct_and_zlib_find_the_same_events(self):
        for path in self.shows:
            show = json.loads(path.read_text(encoding="utf-8"))
            for board in show["rig"]["boards"]:
                with self.subTest(show=path.name, board=board["name"]):
                    self.compare(show, board, run("table", path, "--as", "bin", "--board", board["name"]),
                                 self.rows(path, "--board", board["name"]))

    def compare(self, show, board, image, tables):
        magic, version, _, outputs, sequences, length, _, board_id, tick = struct.unpack_from("<4sBBBBIIII", image)
        self.assertEqual((magic, version, length, board_id), (b"\xa7GTB", 1, len(image), board["id"]))
        self.assertEqual(tick, round(board["tick_ms"] * 1000))
        self.assertEqual(struct.unpack_from("<I", image, length - 4)[0], zlib.crc32(image[:-4]))
        self.assertEqual(sequences, len(tables))
        output_of = {channel["name"]: channel["output"] - 1 for channel in show["rig"]["channels"]}
        for index, (channels, rows) in enumerate(tables.values()):
            at = 56 + outputs + 40 * index
            ticks, _, count, first = struct.unpack_from("<IIII", image, at + 8)
            self.assertEqual(ticks, -(-rows[-1][0] // tick))
            events = [struct.unpack_from("<IBB", image, first + 6 * number) for number in range(count)]
            expected = [(time // tick, output_of[channel], output)
                        for time, channel, output, _ in self.changes(channels, rows)]
            self.assertEqual(events, sorted(expected))


unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
