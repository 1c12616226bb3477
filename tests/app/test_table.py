#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp table: the event table in its forms, of all boards and of each, and a table compared with its show."""

import json
import os
import pty
import subprocess

from gasp_program import DEMOS, GASP, LOCKER, GaspTest, main

BOILER = DEMOS / "boiler-deck.gasp"

HEAD = "sequence,time_ms,channel,output,load"


class Table(GaspTest):
    def test_rows_say_what_the_cues_ask_for(self):
        rows = self.gasp("table", LOCKER, "--no-comments").stdout.decode().split("\r\n")
        self.assertEqual(rows[0], HEAD)
        self.assertEqual(rows[1], "Scare,0,Keeper valve,0,0")
        self.assertEqual(rows[4], "Scare,0,Watch room lamp,0,1")  # normally closed: power at rest
        # The figure strikes at the mark at 14.8 s, which takes about 0.3 s, and the cue is 1.9 s long.
        begin, = (int(row.split(",")[1]) for row in rows if row.endswith(",Keeper valve,1,1"))
        self.assertTrue(14800 - 350 < begin < 14800 - 250, begin)
        self.assertIn(f"Scare,{begin + 1900},Keeper valve,0,0", rows)
        self.assertIn("Scare,1500,Watch room lamp,1,0", rows)
        self.assertIn("Scare,19000,Watch room lamp,0,1", rows)

    def test_the_head_can_be_left_out(self):
        whole = self.out("table", LOCKER)
        rows = self.out("table", LOCKER, "--no-comments", "--as", "csv")
        self.assertTrue(whole.startswith("# "))
        self.assertTrue(whole.endswith(rows))
        self.assertTrue(all(line.startswith("#") for line in whole[:-len(rows)].splitlines()))

    def test_json_has_the_same_rows(self):
        said = self.json("table", LOCKER)
        rows = self.gasp("table", LOCKER, "--no-comments").stdout.decode().split("\r\n")[1:-1]
        again = [f"{table['sequence']},{row['time_us'] / 1000:g},{row['channel']},{row['output']},{row['load']}"
                 for table in said["tables"] for row in table["rows"]]
        self.assertEqual(rows, again)

    def test_findings_of_severity_stop_are_told_and_the_table_is_written(self):
        def change(document):
            document["rig"]["channels"][1]["output"] = document["rig"]["channels"][2]["output"]
        done = self.gasp("table", self.show(change), code=1)
        self.assertIn(b"of severity stop", done.stderr)
        self.assertIn(HEAD.encode(), done.stdout)

    def test_bad_files_are_refused(self):
        self.refuses_bad_files("table")


class Forms(GaspTest):
    def test_json_is_one_form_by_either_name(self):
        self.assertEqual(self.out("table", LOCKER, "--json"), self.out("table", LOCKER, "--as", "json"))
        self.refusal("table", LOCKER, "--json", "--as", "c")

    def test_every_form_that_says_all_compares_as_the_same(self):
        for form in ("csv", "c", "json", "bin"):
            with self.subTest(form):
                self.gasp("table", LOCKER, "--as", form, "-o", "table")
                self.assertEqual(self.out("table", LOCKER, "--compare", "table"), "Scare: the same\nWatch: the same\n")
        self.gasp("table", LOCKER, "--as", "vcd", "-o", "table")
        self.assertIn("Give the table as csv, c or json", self.refusal("table", LOCKER, "--compare", "table"))

    def test_a_board_alone(self):
        text = self.out("table", BOILER, "--board", "Hatch board", "--no-comments", code=1)
        self.assertEqual({row.split(",")[2] for row in text.splitlines()[1:]}, {"Hatch valve", "Hatch lamp"})
        self.gasp("table", BOILER, "--board", "Hatch board", "-o", "hatch.csv", code=1)
        self.assertIn("the same", self.out("table", BOILER, "--board", "Hatch board", "--compare", "hatch.csv"))
        self.assertIn('It has "Deck board", "Hatch board"', self.refusal("table", BOILER, "--board", "none"))

    def test_a_file_for_each_board_in_a_folder(self):
        for form, suffix in {"csv": ".csv", "c": ".h", "bin": ".bin", "vcd": ".vcd", "json": ".json"}.items():
            done = self.gasp("table", BOILER, "--as", form, "-o", f"{form}/", code=1)
            names = [f"{form}/Deck board{suffix}", f"{form}/Hatch board{suffix}"]
            self.assertEqual(done.stdout.decode().splitlines(), names)
            self.assertTrue(all((self.folder / name).stat().st_size > 0 for name in names))

    def test_the_drift_of_the_boards_is_told(self):
        done = self.gasp("table", BOILER, code=1)
        # Two clocks, 50 and 5000 ppm off, by the last change at 13.428 s: 67.8 ms.
        self.assertIn(b'"Deck board" and "Hatch board" start by the same trigger and may be 67.8 ms apart by 0:13.428', done.stderr)

    def test_an_image_is_of_one_board(self):
        done = self.gasp("table", BOILER, "--as", "bin", code=2)
        self.assertIn(b'Choose one of "Deck board", "Hatch board"', done.stderr)

    def test_what_a_board_cannot_play_is_told(self):
        def change(**board):
            return lambda document: document["rig"]["boards"][0].update(board)
        size = len(self.gasp("table", LOCKER, "--as", "bin").stdout)
        message = self.refusal("table", self.show(change(table_bytes=200)), "--as", "bin")
        self.assertIn(f'takes {size} bytes and it has room for 200: {size - 200} too many', message)
        self.assertRegex(message, r"\d+ of its \d+ events would fit")
        done = self.gasp("table", self.show(change(outputs=3)), "--as", "bin", code=2)
        self.assertIn(b'channel "Watch room lamp" is on output 4, and the board has 3', done.stderr)

    def test_an_image_is_not_for_a_terminal(self):
        hand, terminal = pty.openpty()
        done = subprocess.run([str(GASP), "table", str(LOCKER), "--as", "bin"], stdout=terminal, stderr=subprocess.PIPE)
        os.close(terminal)
        os.close(hand)
        self.assertEqual(done.returncode, 2)
        self.assertIn(b"Give -o FILE", done.stderr)

    def test_damaged_tables_are_refused_by_place(self):
        self.gasp("table", LOCKER, "--as", "bin", "-o", "table")
        bytes_ = bytearray((self.folder / "table").read_bytes())
        bytes_[100] ^= 1
        (self.folder / "table").write_bytes(bytes_)
        self.assertIn("its CRC is wrong", self.refusal("table", LOCKER, "--compare", "table"))
        document = json.loads(self.out("table", LOCKER, "--as", "json"))
        document["tables"][1]["rows"][3]["output"] = 7
        (self.folder / "table").write_text(json.dumps(document))
        self.assertIn("table: tables[1].rows[3].output: ", self.refusal("table", LOCKER, "--compare", "table"))
        header = self.out("table", LOCKER, "--as", "c")
        (self.folder / "table").write_text(header.replace("uint8_t driven;", "uint8_t driver;"))
        line = header.splitlines().index("    uint8_t driven;            /* 1: the output is driven, away from its rest */") + 1
        self.assertIn(f"table:{line}: ", self.refusal("table", LOCKER, "--compare", "table"))


class Compare(GaspTest):
    def setUp(self):
        super().setUp()
        self.table = self.folder / "table.csv"

    def test_an_exported_table_is_the_same(self):
        for options in ([], ["--no-comments"]):
            self.gasp("table", LOCKER, "-o", self.table, *options)
            self.assertEqual(self.out("table", LOCKER, "--compare", self.table), "Scare: the same\nWatch: the same\n")
        said = self.json("table", LOCKER, "--compare", self.table)
        self.assertEqual([one["same"] for one in said["sequences"]], [True, True])

    def test_the_first_difference_is_told(self):
        def later(document):
            document["sequences"][0]["marks"][-1]["time_us"] += 10_000
        self.gasp("table", LOCKER, "-o", self.table)
        text = self.out("table", self.show(later), "--compare", self.table, code=1)
        self.assertRegex(text, r"Scare: it has 0:14\.(\d\d)(\d) Keeper valve output 1, the show 0:14\.\d\d\2 Keeper valve output 1")
        self.assertIn("Watch: the same", text)

    def test_another_output_is_told(self):
        def moved(document):
            document["rig"]["channels"][1]["output"] = 7
        self.gasp("table", LOCKER, "-o", self.table)
        self.assertIn('channel "Lantern" is on another board or output',
                      self.out("table", self.show(moved), "--compare", self.table, code=1))

    def test_a_file_that_is_no_table_is_refused(self):
        self.assertIn("none.csv", self.refusal("table", LOCKER, "--compare", "none.csv"))
        self.assertIn(self.folder.name, self.refusal("table", LOCKER, "--compare", self.folder))
        self.table.write_text(HEAD + "\nScare,0,Lantern,0,0\nScare,1e3,Lantern,1,1\n")
        self.assertIn(":3, column time_ms: ", self.refusal("table", LOCKER, "--compare", self.table))


main()
