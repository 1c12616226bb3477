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

    def test_sections_stand_in_their_order_and_where_the_cover_says(self):
        told = self.json("sheet", DECK, "-o", "pack.pdf")
        titles = [section["title"] for section in told["sections"]]
        self.assertEqual(titles, ["Cover", "Cue sheet: Blow-off", "Timeline: Blow-off", "The night's forecast",
                                  "Air circuit", "Wiring", "Power", "Board connections", "Parts list", "Checklists",
                                  "When power or air fails", "Notices to post"])
        pages = self.pages(self.folder / "pack.pdf")
        for section in told["sections"]:
            self.assertIn(section["title"], pages[section["first_page"] - 1].strip().splitlines()[0])
            self.assertRegex(" ".join(pages[0].split()), re.escape(section["title"]) + rf" {section['first_page']}\b")

    def test_every_part_once(self):
        text = self.section(self.pack(show=DECK), "Parts list")
        for size in ("bore 40 mm, rod 16 mm, stroke 250 mm", "bore 32 mm, rod 12 mm, stroke 200 mm",
                     "bore 63 mm, rod 20 mm, stroke 300 mm"):
            self.assertEqual(" ".join(text.split()).count(size.split(",")[0]), 1, size)
        for part in ("Compressor", "Receiver", "Pressure switch", "Regulator", "Relief valve", "Shut-off valve"):
            self.assertEqual(len(re.findall(rf"\b{part}\b", text)), 1, part)

    def test_every_wire_once_in_order_of_the_rig(self):
        text = self.section(self.pack(show=DECK), "Wiring")
        chart = text[:text.index("Wiring, drawn without power")]
        wires = re.findall(r"X(\d+), X(\d+)", chart)
        self.assertEqual(wires, [(str(2 * n - 1), str(2 * n)) for n in range(1, 8)])
        for terminal in range(1, 15):
            self.assertEqual(len(re.findall(rf"\bX{terminal}\b", text)), 2, terminal)

    def test_names_of_any_script_and_length_come_back(self):
        names = {"channel": "\u03a6\u03ac\u03c1\u03bf\u03c2", "cue": "\u03bb\u03ac\u03bc\u03c8\u03b7", "long": "long " * 60}

        def rename(document):
            document["rig"]["channels"][0]["name"] = names["channel"]
            document["sequences"][0]["cues"][0]["name"] = names["cue"]
            document["sequences"][0]["cues"][1]["name"] = names["long"]
            document["name"] = "\u706f\u53f0 \U0001f526 \u062d\u0627\u0631\u0633"
        path = self.pack(show=self.show(rename))
        text = self.text(path)
        self.assertIn(names["channel"], text)
        self.assertIn(names["cue"], text)
        self.assertIn("...", text)  # what is too long is cut with a mark, an ellipsis that NFKC takes apart

    def test_letters_that_no_font_has_are_told_of(self):
        def rename(document):
            document["rig"]["channels"][0]["name"] = "lamp \U00012f90"  # Cypro-Minoan: younger than the fonts of Debian 12
        self.assertIn(b"No font on this computer", self.gasp("sheet", self.show(rename), "-o", "a.pdf").stderr)
        self.assertNotIn(b"No font", self.gasp("sheet", LOCKER, "-o", "a.pdf").stderr)

    def test_poppler_paints_every_page_and_none_is_blank(self):
        path = self.pack(show=DECK)
        subprocess.run(["pdftoppm", "-r", "20", "-gray", str(path), str(self.folder / "page")], check=True)
        images = sorted(self.folder.glob("page*.pgm"))
        self.assertEqual(len(images), len(self.pages(path)))
        for image in images:
            data = image.read_bytes()
            pixels = data.split(b"\n", 3)[3] if data.split(b"\n")[1][0:1].isdigit() else data
            self.assertLess(min(pixels), 120, image)

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
