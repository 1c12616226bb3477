#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp sheet: the build pack as poppler's tools read it (pdftotext, pdfinfo): words, order, pages, paper."""

import os
import re
import subprocess
import unicodedata

from gasp_program import DEMOS, GASP, LOCKER, GaspTest, main

DECK = DEMOS / "boiler-deck.gasp"


class Sheet(GaspTest):
    def pack(self, *options, show=LOCKER, name="pack.pdf"):
        self.gasp("sheet", show, "-o", name, *options)
        return self.folder / name

    def text(self, path, *options):
        done = subprocess.run(["pdftotext", *options, str(path), "-"], capture_output=True, check=True)
        return unicodedata.normalize("NFKC", done.stdout.decode())

    def info(self, path):
        out = subprocess.run(["pdfinfo", str(path)], capture_output=True, check=True).stdout.decode()
        return dict(line.split(":", 1) for line in out.splitlines() if ":" in line)

    def pages(self, path):
        return self.text(path, "-layout").split("\f")[:-1]

    def section(self, path, title):
        """The pages whose head names it."""
        return "\n".join(page for page in self.pages(path) if title in page.strip().splitlines()[0])

    def test_each_page_tells_show_revision_and_number(self):
        path = self.pack(show=DECK)
        told = self.json("sheet", DECK, "-o", "again.pdf")
        pages = self.pages(path)
        self.assertEqual(len(pages), told["pages"])
        for number, page in enumerate(pages, 1):
            self.assertIn("Boiler Deck", page)
            self.assertIn(f"revision {told['revision']}", page)
            self.assertIn(f"page {number} of {len(pages)}", page)

    def test_the_revision_is_the_show_s_and_no_other_s(self):
        def renamed(document):
            document["rig"]["channels"][0]["name"] = "another"
        one = self.json("sheet", self.show(), "-o", "a.pdf")["revision"]
        self.assertEqual(one, self.json("sheet", self.show(name="copy.gasp"), "-o", "b.pdf")["revision"])
        self.assertNotEqual(one, self.json("sheet", self.show(renamed), "-o", "c.pdf")["revision"])

    def test_paper_goes_by_option_and_units(self):
        self.assertIn("A4", self.info(self.pack())["Page size"])
        self.assertIn("letter", self.info(self.pack("--units", "us"))["Page size"])
        self.assertIn("A4", self.info(self.pack("--units", "us", "--paper", "a4"))["Page size"])
        self.assertIn("letter", self.info(self.pack("--paper", "letter"))["Page size"])

    def test_the_cue_sheet_has_every_cue_once_in_order_of_time(self):
        sheet = self.section(self.pack(show=DECK), "Cue sheet: Blow-off")
        cues = ["fire glows", "gauge lit", "Stoker rears", "gauge lit again", "Engineer turns", "steam",
                "Stoker twitches", "Stoker again", "fire flares", "Engineer again", "Hatch bursts", "hatch lit",
                "Hatch slams again"]
        lines = [re.match(r"\s*(\d+)\s+\d:\d\d\.\d{3}\s+(.*?)\s{2,}", line) for line in sheet.splitlines()]
        self.assertEqual([(int(line[1]), line[2]) for line in lines if line], list(enumerate(cues, 1)))

    def test_one_sequence_alone(self):
        both = self.text(self.pack())
        self.assertIn("Cue sheet: Scare", both)
        self.assertIn("Cue sheet: Watch", both)
        one = self.text(self.pack("--sequence", "Watch"))
        self.assertNotIn("Cue sheet: Scare", one)
        self.assertIn("Cue sheet: Watch", one)

    def test_what_cannot_be_written_is_refused(self):
        self.assertIn(".pdf", self.refusal("sheet", LOCKER, "-o", "a.txt"))
        self.assertIn("none", self.gasp("sheet", LOCKER, "-o", "none/a.pdf", code=2).stderr.decode())

    def test_no_fonts_are_an_error_and_no_empty_page(self):
        config = self.folder / "fonts.conf"
        config.write_text("<fontconfig><dir>/nowhere</dir></fontconfig>")
        done = subprocess.run([str(GASP), "sheet", str(LOCKER), "-o", "a.pdf"], cwd=self.folder, capture_output=True,
                              check=False, env={**os.environ, "FONTCONFIG_FILE": str(config)})
        self.assertEqual(done.returncode, 2)
        self.assertIn(b"fonts-dejavu-core", done.stderr)
        self.assertFalse((self.folder / "a.pdf").exists())

    def test_bad_files_are_refused(self):
        self.refuses_bad_files("sheet", "-o", "a.pdf")


main()
