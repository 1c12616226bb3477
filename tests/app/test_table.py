#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp table: the event table as CSV and JSON, and a table compared with its show."""

from gasp_program import LOCKER, GaspTest, main

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
