#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""The waveform of the chip, as libsimavr records it, against that of the table, as gasp writes it; both go through
gtkwave's converters first, so that it is theirs that is read.

Usage: compare_vcd.py GASP CHIP_VCD DEMO_SHOWS
"""

import json
import pathlib
import re
import subprocess
import sys
import tempfile

GASP, CHIP_VCD, DEMOS = sys.argv[1:4]
LATEST_US = 200.0


def converted(folder, vcd):
    """The dump as fst2vcd writes it after vcd2fst has read it."""
    fst = folder / "t.fst"
    subprocess.run(["vcd2fst", vcd, fst], check=True, capture_output=True)
    return subprocess.run(["fst2vcd", fst], check=True, capture_output=True, text=True).stdout


def read(text):
    """{wire: [(us, level), ...]}, None being a level not known yet (IEEE 1364-2005, clause 18)."""
    scale = re.search(r"\$timescale\s+(\d+)\s*(\w+)\s+\$end", text)
    step_us = int(scale[1]) * {"s": 1e6, "ms": 1e3, "us": 1, "ns": 1e-3, "ps": 1e-6}[scale[2]]
    names, scope, wires, time = {}, [], {}, 0
    for line in text.splitlines():
        words = line.split()
        if not words:
            continue
        if words[0] == "$scope":
            scope.append(words[2])
        elif words[0] == "$upscope":
            scope.pop()
        elif words[0] == "$var":
            names[words[3]] = "/".join([*scope, words[4]])
        elif words[0][0] == "#":
            time = int(words[0][1:]) * step_us
        elif words[0][0] in "01x" and words[0][1:] in names:
            wire = wires.setdefault(names[words[0][1:]], [])
            level = None if words[0][0] == "x" else int(words[0][0])
            if not wire or wire[-1][1] != level:
                wire.append((time, level))
    return wires


def edges(wire):
    return wire[1:]  # behind the level at the beginning


def identifier(name):
    return re.sub("[^a-z0-9]+", "_", name.lower()).strip("_")


def compare(folder, show_file, show, sequence, board):
    name, sequence_name = board["name"], sequence["name"]
    select = ["--sequence", sequence_name, "--board", name]
    image, table, chip = folder / "t.bin", folder / "table.vcd", folder / "chip.vcd"
    for form, file in ("bin", image), ("vcd", table):
        done = subprocess.run([GASP, "table", show_file, *select, "--as", form, "-o", file], capture_output=True)
        assert done.returncode in (0, 1), done.stderr  # 1: written, though findings stand against it
    seconds = sequence["length_us"] / 1e6 + 1
    subprocess.run([CHIP_VCD, image, str(seconds), chip], check=True)
    planned, played = read(converted(folder, table)), read(converted(folder, chip))
    tick_us = board.get("tick_ms", 1) * 1000
    debounce_us = -(-show["rig"]["sensor"].get("debounce_ms", 0) * 1000 // tick_us) * tick_us
    trigger = next(wire for path, wire in played.items() if path.endswith("trigger"))
    zero = next(time for time, level in edges(trigger) if level == 0) + debounce_us
    count, latest = 0, 0.0
    for channel in show["rig"]["channels"]:
        if channel.get("board") != board["id"]:
            continue
        path = f"seq_{identifier(sequence_name)}/ch_{identifier(channel['name'])}/output"
        wanted = [(time, level) for time, level in planned[path] if not (time == 0 and level == 0)]
        pin = next(wire for path, wire in played.items() if path.endswith(f"output{channel['output']}"))
        low = channel.get("driven_level") == "low"
        got = [(time - zero, level ^ low) for time, level in edges(pin)]
        assert [level for _, level in got] == [level for _, level in wanted], (path, wanted, got)
        for (at, _), (planned_at, _) in zip(got, wanted):
            assert 0 <= at - planned_at <= LATEST_US, (path, at, planned_at)
            latest = max(latest, at - planned_at)
        count += len(got)
    return count, latest


def main():
    count, latest = 0, 0.0
    for show_file in sorted(pathlib.Path(DEMOS).glob("*.gasp")):
        show = json.loads(show_file.read_text(encoding="utf-8"))
        for sequence in show["sequences"]:
            for board in show["rig"]["boards"] if sequence["kind"] == "triggered" else []:
                with tempfile.TemporaryDirectory() as folder:
                    more, late = compare(pathlib.Path(folder), show_file, show, sequence, board)
                    count, latest = count + more, max(latest, late)
    assert count > 0
    print(f"figure: {count} edges of the chip's waveform stand in the table's, at most {latest:.1f} us after it")


main()
