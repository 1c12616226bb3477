# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""A small reader of value change dumps, by the grammar of IEEE Std 1364-2005, clause 18.2, for wires of one bit."""


def read(text):
    """{path of the wire: [(time in us, value), ...]}, of each time the last value; ($timescale is 1 us)."""
    words = text.split()
    names, changes, scope, place, time = {}, {}, [], 0, None
    while place < len(words):
        word = words[place]
        place += 1
        if word in ("$dumpvars", "$end"):
            continue
        if word.startswith("$"):
            end = words.index("$end", place)
            body = words[place:end]
            place = end + 1
            if word == "$timescale":
                assert "".join(body) == "1us", body
            elif word == "$scope":
                scope.append(body[1])
            elif word == "$upscope":
                scope.pop()
            elif word == "$var":
                kind, bits, code, name = body[:4]
                assert (kind, bits) == ("wire", "1"), body
                assert all(33 <= ord(c) <= 126 for c in code), code
                names.setdefault(code, []).append("/".join([*scope, name]))
            elif word == "$enddefinitions":
                assert not scope
            else:
                assert word in ("$comment", "$date", "$version", "$dumpall", "$dumpoff", "$dumpon"), word
        elif word.startswith("#"):
            assert time is None or int(word[1:]) >= time, word
            time = int(word[1:])
        else:
            assert word[0] in "01", word
            for name in names[word[1:]]:
                wire = changes.setdefault(name, [])
                if wire and wire[-1][0] == time:
                    wire.pop()
                wire.append((time, int(word[0])))
    return changes
