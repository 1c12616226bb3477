# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""What the tests of the gasp command share: running it, and shows to run it on.

A test file is called with the program and the folder of the demo shows, then unittest's own arguments.
"""

import json
import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest

GASP = pathlib.Path(sys.argv[1]).resolve()
DEMOS = pathlib.Path(sys.argv[2]).resolve()
LOCKER = DEMOS / "keepers-locker.gasp"


def main():
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])


class GaspTest(unittest.TestCase):
    """Each test has a folder of its own, with a space and a letter beyond ASCII in its name."""

    def setUp(self):
        base = tempfile.mkdtemp()
        self.addCleanup(shutil.rmtree, base)
        self.folder = pathlib.Path(base) / "sea wäll"
        self.folder.mkdir()

    def gasp(self, *arguments, code=0, **options):
        done = subprocess.run([str(GASP), *map(str, arguments)], capture_output=True, cwd=self.folder, timeout=120,
                              **options)
        self.assertEqual(done.returncode, code, f"{arguments}: {done.stderr.decode()}")
        return done

    def out(self, *arguments, code=0):
        return self.gasp(*arguments, code=code).stdout.decode()

    def json(self, *arguments, code=0):
        return json.loads(self.out(*arguments, "--json", code=code))

    def refusal(self, *arguments):
        """The one message of a run that must end with exit code 2 and print nothing else."""
        done = self.gasp(*arguments, code=2)
        self.assertEqual(done.stdout, b"")
        message = done.stderr.decode()
        self.assertTrue(message.startswith("gasp: "), message)
        self.assertEqual(message.count("\n"), 1, message)
        return message

    def show(self, change=None, name="show.gasp"):
        """A copy of the first demo show without its sounds, changed by `change(document)`."""
        document = json.loads(LOCKER.read_text(encoding="utf-8"))
        for sequence in document["sequences"]:
            sequence["clips"] = []
        if change:
            change(document)
        path = self.folder / name
        path.write_text(json.dumps(document), encoding="utf-8")
        return path

    def refuses_bad_files(self, *verb):
        """What every verb that reads a show must refuse, naming the file."""
        self.assertIn("none.gasp", self.refusal(*verb, "none.gasp"))
        self.assertIn(self.folder.name, self.refusal(*verb, self.folder))
        text = LOCKER.read_text(encoding="utf-8")
        for name, content in {"empty.gasp": "", "cut.gasp": text[:1000], "no-json.gasp": "lamp on at 3",
                              "wrong-type.gasp": text.replace("19000000", '"long"', 1),
                              "newer.gasp": text.replace('"version": 1', '"version": 99', 1)}.items():
            with self.subTest(name):
                (self.folder / name).write_text(content, encoding="utf-8")
                self.assertIn(name, self.refusal(*verb, name))
