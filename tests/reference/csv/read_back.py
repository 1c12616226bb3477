#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""Event tables read by two readers that are not ours, Python's csv (strict) and Perl's Text::CSV (strict), and
compared with what gasp says of the same shows in JSON.

Usage: read_back.py GASP DEMO_SHOWS
"""

import csv
import decimal
import json
import pathlib
import subprocess
import sys
import tempfile

GASP, DEMOS = sys.argv[1], pathlib.Path(sys.argv[2])
HERE = pathlib.Path(__file__).parent
COLUMNS = ["sequence", "time_ms", "channel", "output", "load"]
# Names that make trouble in CSV, in spreadsheets, or both.
NAMES = ['a,b', 'say "now"', 'two\nlines', 'two\r\nlines', '=1+1', '+lamp', '-lamp', '@lamp', "'quoted'", '#lamp',
         ' lead and trail ', 'mole d’été 港', 'semi;colon', '\ttab', '"', '""']


def run(*arguments):
    done = subprocess.run([GASP, *arguments], capture_output=True, text=True)
    assert done.returncode in (0, 1), done.stderr  # 1: findings, which do not concern the table
    return done.stdout


def show_of_names(folder):
    """The first demo show with troublesome names on channels and sequences, and a tick of 0.5 ms."""
    show = json.loads((DEMOS / "keepers-locker.gasp").read_text(encoding="utf-8"))
    channels = show["rig"]["channels"]
    next_id = show["next_id"]
    for name in NAMES[len(channels):]:
        channels.append({"id": next_id, "name": name, "kind": "lamp", "contact": "normally_closed"})
        show["sequences"][0]["cues"].append({"id": next_id + 1, "channel": next_id, "start_us": 500,
                                             "length_us": 1_500_500})
        next_id += 2
    for channel, name in zip(channels, NAMES):
        channel["name"] = name
    show["sequences"][0]["name"] = '=SUM(1,2) "x"'
    show["rig"]["boards"][0]["tick_ms"] = 0.5
    show["next_id"] = next_id
    for sequence in show["sequences"]:
        sequence["clips"] = []
    path = folder / "names.gasp"
    path.write_text(json.dumps(show), encoding="utf-8")
    return path


def plain(name):
    """csv.md: one leading ' is taken off."""
    return name[1:] if name.startswith("'") else name


def expected(show):
    rows = []
    for table in json.loads(run("table", str(show), "--json"))["tables"]:
        for row in table["rows"]:
            rows.append([table["sequence"], row["time_us"], row["channel"], row["output"], row["load"]])
    return rows


def understood(records):
    assert records[0] == COLUMNS, records[0]
    return [[plain(sequence), int(decimal.Decimal(time) * 1000), plain(channel), int(output), int(load)]
            for sequence, time, channel, output, load in records[1:]]


def read_by_python(path):
    with open(path, newline="", encoding="utf-8") as file:
        return list(csv.reader(file, strict=True))


def read_by_perl(path):
    done = subprocess.run(["perl", str(HERE / "read_csv.pl"), str(path)], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def main():
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for show in [*sorted(DEMOS.glob("*.gasp")), show_of_names(folder)]:
            table = folder / (show.stem + ".csv")
            run("table", str(show), "--no-comments", "-o", str(table))
            wanted = expected(show)
            assert len(wanted) > 4, show
            for reader in (read_by_python, read_by_perl):
                records = reader(table)
                formulas = [cell for record in records for cell in record if cell[:1] in ("=", "+", "-", "@", "\t")]
                assert not formulas, f"{show}: cells a spreadsheet would run: {formulas}"
                got = understood(records)
                differ = next((pair for pair in zip(got, wanted) if pair[0] != pair[1]), None)
                assert got == wanted, f"{show}: {reader.__name__}: {len(got)} and {len(wanted)} rows, first {differ}"
            print(f"{show.name}: {len(wanted)} rows, alike in both readers and in JSON")


main()
