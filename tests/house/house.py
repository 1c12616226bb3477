#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""Holds the checkout against the rules of DEVELOPERS.md that a machine can see. Prints a line for each breach."""

import pathlib
import re
import subprocess
import sys

HOUSE = pathlib.Path(__file__).resolve().parents[2]
TOP = {"CMakeLists.txt", "CMakePresets.json", "README.md", "DEVELOPERS.md", "LICENSE",
       "app", "core", "ui", "resources", "tests", "demo-shows"}
# What each folder may see, beside itself and what those see: the order of DEVELOPERS.md.
ARROWS = {
    "core/units": [], "core/show": ["core/units"],
    "core/file": ["core/show"], "core/sound": ["core/show"], "core/power": ["core/show"],
    "core/air/model": ["core/show"], "core/air/run": ["core/air/model"], "core/air/budget": ["core/air/run"],
    "core/air/night": ["core/air/budget"], "core/air/sizing": ["core/air/run"],
    "core/air/fitting": ["core/air/budget"],
    "core/schedule": ["core/air/night", "core/sound", "core/power"],
    "core/table": ["core/schedule", "core/file"], "core/checks": ["core/table"],
    "core/link": ["core/table"],
    "ui/look": [], "ui/editor": ["ui/look"],
    "ui/timeline": ["ui/editor"], "ui/stage": ["ui/timeline"], "ui/sheet": ["ui/timeline"],
    "ui/sheet/circuit": ["ui/sheet"], "ui/sheet/pack": ["ui/sheet/circuit"],
    "ui/panels": ["ui/timeline", "ui/stage", "ui/sheet/pack"], "ui/window": ["ui/panels"],
}
CODE = {".cpp", ".hpp"}


def tracked():
    out = subprocess.run(["git", "ls-files", "-co", "--exclude-standard"], cwd=HOUSE, capture_output=True,
                         text=True, check=True).stdout
    return [pathlib.PurePosixPath(line) for line in out.splitlines() if (HOUSE / line).exists()]


def reach(folder, seen=None):
    seen = seen if seen is not None else set()
    for nearer in ARROWS[folder]:
        if nearer not in seen:
            seen.add(nearer)
            reach(nearer, seen)
    return seen


def breaches(files):
    text = {f: (HOUSE / f).read_text(encoding="utf-8") for f in files
            if f.suffix in CODE | {".txt", ".md", ".py", ".sh", ".cmake", ".pl"}}
    for top in {f.parts[0] for f in files}:
        if top not in TOP and not top.startswith("."):
            yield f"{top}: not one of the top level's entries"
    for f, body in text.items():
        if "SPDX-License-Identifier" not in "\n".join(body.splitlines()[:4]):
            yield f"{f}: no SPDX line at its head"
        if f.name != "house.py" and re.search(r"\b(TODO|FIXME|XXX|HACK)\b", body):
            yield f"{f}: work left for later in the code"
    folders = {f.parent for f in files if f.parts[0] in ("core", "ui", "app") and f.suffix in CODE}
    for folder in folders:
        readme = folder / "README.md"
        if readme not in text:
            yield f"{folder}: no README.md"
        elif len([line for line in text[readme].splitlines() if line and not line.startswith("<!--")]) > 8:
            yield f"{readme}: more than eight lines"
    for f, body in text.items():
        if f.suffix not in CODE:
            continue
        if len(body.splitlines()) > 500:
            yield f"{f}: {len(body.splitlines())} lines, more than one subject?"
        side = f.parts[0]
        if side not in ("core", "ui", "app"):
            continue
        for number, line in enumerate(body.splitlines(), 1):
            at = f"{f}:{number}"
            include = re.match(r'\s*#include\s+[<"]([^>"]+)[>"]', line)
            if include and side == "core" and (re.match(r"Q[A-Z]", include[1]) or include[1].startswith("ui/")):
                yield f"{at}: core includes {include[1]}"
            own = str(f.parent)
            if include and own in ARROWS and re.match(r"(core|ui)/", include[1]):
                other = include[1].rsplit("/", 1)[0]
                fine = other == own or other in reach(own) or (side == "ui" and other.startswith("core/"))
                if not fine:
                    yield f"{at}: {own} includes {include[1]}, against the arrows"
            if re.search(r'"[^"]*\b[Ss]afe\b[^"]*"', line):
                yield f'{at}: prints the word "safe"'
    listed = "\n".join(body for f, body in text.items() if f.name == "CMakeLists.txt")
    for f in text:
        if f.suffix == ".cpp" and f.name not in listed:
            yield f"{f}: in no CMakeLists.txt"
    core_cmake = "\n".join(body for f, body in text.items() if f.parts[0] == "core" and f.name == "CMakeLists.txt")
    if "Qt" in core_cmake:
        yield "core: a CMakeLists.txt names Qt"


def misformatted(files):
    code = [str(f) for f in files if f.suffix in CODE]
    run = subprocess.run(["clang-format", "--dry-run", "-Werror", *code], cwd=HOUSE, capture_output=True, text=True)
    return sorted({line.split(":")[0] + ": not formatted by clang-format" for line in run.stderr.splitlines()
                   if "-Wclang-format-violations" in line})


def main():
    files = tracked()
    found = [*breaches(files), *misformatted(files)]
    print("\n".join(found) or f"{len(files)} files, none out of place")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
