#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp sound: length, rate and levels, and files that are none."""

import struct
import wave

from gasp_program import DEMOS, GaspTest, main


class Sound(GaspTest):
    def wav(self, name, samples, rate=8000, channels=1):
        with wave.open(str(self.folder / name), "wb") as file:
            file.setnchannels(channels)
            file.setsampwidth(2)
            file.setframerate(rate)
            file.writeframes(struct.pack(f"<{len(samples)}h", *samples))
        return name

    def test_levels_against_full_scale(self):
        # Half of full scale is 20 log10(1/2) = -6.02 dB, and a square wave's RMS is its peak.
        self.wav("half.wav", [16384, -16384] * 8000)
        said, = self.json("sound", "half.wav")
        self.assertEqual((said["length_us"], said["frames"], said["rate_hz"]), (2_000_000, 16000, 8000))
        self.assertAlmostEqual(said["channels"][0]["peak_dbfs"], -6.02, places=2)
        self.assertAlmostEqual(said["channels"][0]["rms_dbfs"], -6.02, places=2)
        text = self.out("sound", "half.wav")
        self.assertRegex(text, r"(?m)^  length +0:02\.000, 16000 frames at 8000 Hz$")
        self.assertRegex(text, r"(?m)^  channel 1 +peak -6\.0 dBFS, RMS -6\.0 dBFS$")

    def test_each_channel_has_its_level_and_silence_none(self):
        self.wav("left.wav", [32767, 0] * 4000, channels=2)
        said, = self.json("sound", "left.wav")
        self.assertAlmostEqual(said["channels"][0]["peak_dbfs"], 0.0, places=2)
        self.assertIsNone(said["channels"][1]["peak_dbfs"])
        self.assertIn("silent", self.out("sound", "left.wav"))

    def test_the_demo_voice(self):
        said, = self.json("sound", DEMOS / "keepers-locker.flac")
        self.assertAlmostEqual(said["length_us"], 14_841_769, delta=100)
        self.assertIn("FLAC", said["format"])

    def test_a_bad_file_is_named_and_the_good_ones_are_told(self):
        self.wav("good.wav", [1000] * 800)
        (self.folder / "bad.wav").write_bytes(b"RIFF\0\0\0\0WAVEfmt ")
        (self.folder / "empty.wav").write_bytes(b"")
        done = self.gasp("sound", "none.wav", "bad.wav", "empty.wav", self.folder, "good.wav", code=2)
        self.assertIn(b"good.wav", done.stdout)
        lines = done.stderr.decode().splitlines()
        self.assertEqual(len(lines), 4)
        for name, line in zip(("none.wav", "bad.wav", "empty.wav", self.folder.name), lines):
            self.assertIn(name, line)


main()
