#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""Holds the show file's schema against JSON Schema draft 7 (json-schema.org/draft-07), and shows against it.

Usage: check_schema.py SCHEMA BROKEN_FOLDER GOOD_FILE_OR_FOLDER...

Good shows must pass. Broken ones must fail, but for those whose fault no schema can see.
"""

import json
import pathlib
import sys

import jsonschema

# Faults between one part of a show and another: a schema knows nothing of them.
BEYOND_A_SCHEMA = {
    "nobody_actuator", "nobody_board", "nobody_cue_channel", "nobody_cue_mark", "nobody_excluded",
    "nobody_excluded_itself", "range_ends_after_a_day", "range_tied_before_the_start", "twice_a_channel_id",
    "twice_a_channel_name", "twice_a_cue_id", "whole_next_id_too_low",
}
# Faults in the text that a JSON reader lets pass or settles by itself: RFC 8259 leaves both open.
BEYOND_A_JSON_READER = {
    "json_lone_surrogate", "json_nesting_bomb", "json_unknown_overflow", "text_nul_escape", "twice_a_key",
    "twice_a_key_with_an_escape", "twice_an_unknown_key", "twice_an_unknown_key_with_an_escape",
}
# 1e6 is an integer to JSON Schema; our reader wants it written out.
WRITTEN_OTHERWISE = {"type_time_exponent"}


def refuse_word(word):
    raise ValueError(f"{word} is not JSON")


def load(path):
    return json.loads(path.read_bytes().decode("utf-8"), parse_constant=refuse_word)


def shows_in(place):
    return sorted(place.glob("*.gasp")) if place.is_dir() else [place]


def main(schema_path, broken_folder, *good):
    schema = load(pathlib.Path(schema_path))
    jsonschema.Draft7Validator.check_schema(schema)
    validator = jsonschema.Draft7Validator(schema)
    faults = []
    passed = [path for place in good for path in shows_in(pathlib.Path(place))]
    for path in passed:
        for error in validator.iter_errors(load(path)):
            faults.append(f"{path.name}: {'/'.join(map(str, error.path))}: {error.message}")
    broken = shows_in(pathlib.Path(broken_folder))
    unseen = set()
    for path in broken:
        try:
            if validator.is_valid(load(path)):
                unseen.add(path.stem)
        except (ValueError, RecursionError):
            pass
    expected = BEYOND_A_SCHEMA | BEYOND_A_JSON_READER | WRITTEN_OTHERWISE
    faults += [f"{name}.gasp is broken and passes" for name in sorted(unseen - expected)]
    faults += [f"{name}.gasp is refused after all: take it off the list" for name in sorted(expected - unseen)]
    print(f"{len(passed)} good shows pass, {len(broken) - len(unseen)} of {len(broken)} broken ones are refused")
    print(*faults, sep="\n")
    return 1 if faults or len(passed) < 100 or not broken else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
