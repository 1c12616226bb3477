#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""gasp sound: length, rate and levels, and files that are none."""

import json
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

    def test_words_and_onsets(self):
        tone = lambda peak, ms: [peak if i // 10 % 2 else -peak for i in range(8 * ms)]
        self.wav("two.wav", tone(0, 500) + tone(9000, 400) + tone(0, 600) + tone(6000, 300) + tone(0, 300))
        said, = self.json("sound", "two.wav")
        for word, (begin, end) in zip(said["words"], ((500_000, 900_000), (1_500_000, 1_800_000)), strict=True):
            self.assertAlmostEqual(word["begin_us"], begin, delta=10_000)
            self.assertAlmostEqual(word["end_us"], end, delta=10_000)
        for begin in (500_000, 1_500_000):
            self.assertTrue(any(abs(onset - begin) < 16_000 for onset in said["onsets_us"]), said["onsets_us"])
        self.assertTrue(500_000 <= said["loudest_us"] < 900_000)
        self.assertRegex(self.out("sound", "two.wav"), r"(?m)^  words +0:00\.\d+ to 0:00\.\d+, RMS up to -11\.\d dBFS$")
        self.assertEqual(len(self.json("sound", "--pause-ms", "700", "two.wav")[0]["words"]), 1)
        self.assertIn("opening level", self.gasp("sound", "--word-level-db", "0", "two.wav", code=2).stderr.decode())

    def test_the_loudest_moment_of_a_file_and_of_a_mix(self):
        # A steady tone is as loud over 0.4 s and 3 s as over all of it; the quieter 6.02 dB of it as much less.
        tone = lambda peak, s: [peak if i // 4 % 2 else -peak for i in range(8000 * s)]
        self.wav("steps.wav", tone(4096, 4) + tone(8192, 4))
        said, = self.json("sound", "steps.wav")
        self.assertAlmostEqual(said["max_momentary_lufs"], said["max_short_term_lufs"], delta=0.1)
        self.assertTrue(4_000_000 < said["max_momentary_at_us"] < 8_000_000)
        self.wav("steady.wav", tone(4096, 4))
        steady, = self.json("sound", "steady.wav")
        self.assertAlmostEqual(steady["max_momentary_lufs"], steady["loudness_lufs"], delta=0.1)
        self.assertAlmostEqual(said["max_momentary_lufs"] - steady["max_momentary_lufs"], 6.02, delta=0.1)
        self.assertRegex(self.out("sound", "steps.wav"), r"(?m)^  max momentary +-\d+\.\d LUFS at 0:0[4-7]\.\d+$")
        self.assertRegex(self.out("sound", "steps.wav"), r"(?m)^  max short-term +-\d+\.\d LUFS$")
        self.wav("still.wav", [0] * 8000)
        self.assertIsNone(self.json("sound", "still.wav")[0]["max_momentary_lufs"])
        mix, = self.json("sound", self.show())
        self.assertTrue(1_000_000 < mix["max_momentary_at_us"] < 2_000_000, mix)
        self.assertTrue(1_000_000 < mix["clips"][0]["max_momentary_at_us"] < 2_000_000, mix)
        self.assertAlmostEqual(
            mix["clips"][0]["max_momentary_lufs"] - mix["clips"][1]["max_momentary_lufs"], 6.02, delta=0.1)

    def show(self, lag=None):
        """A show of one sequence of 3 s: half full scale from 1 s to 2 s, in two clips at once."""
        self.wav("half.wav", [16384, -16384] * 4000)
        clip = {"file": "half.wav", "file_length_us": 1_000_000, "start_us": 1_000_000, "length_us": 1_000_000}
        speaker = {"power_w": 10, "sensitivity_db": 90, "distance_m": 1}
        (self.folder / "show.gasp").write_text(json.dumps(
            {"format": "gaspworks-show", "version": 1,
             "rig": {"speaker": speaker if lag is None else {**speaker, "player_lag_ms": lag}},
             "sequences": [{"id": 1, "name": "Fog Signal", "length_us": 3_000_000,
                            "clips": [{"id": 2, **clip}, {"id": 3, "lane": 2, "gain_db": -6.0206, **clip}]}]}))
        return "show.gasp"

    def test_the_mix_of_a_show_is_measured_and_handed_over(self):
        said, = self.json("sound", self.show(lag=250), "--mix", "out")
        # 0.5 and 0.25 of full scale add up to 0.75: 20 log10(0.75) = -2.50 dB. 8 kHz is resampled, with ripple.
        self.assertAlmostEqual(said["first_sound_us"], 1_000_000, delta=5_000)
        self.assertEqual((said["sequence"], said["lost_to_player_lag_us"]), ("Fog Signal", 0))
        self.assertEqual([clip["lane"] for clip in said["clips"]], [1, 2])
        self.assertAlmostEqual(said["clips"][0]["loudness_lufs"] - said["clips"][1]["loudness_lufs"], 6.02, places=1)
        self.assertAlmostEqual(said["level_at_ear_db"], 100 + said["loudness_lufs"], places=6)
        with wave.open(str(self.folder / "out" / "001-fog-signal.wav")) as mix:
            self.assertEqual((mix.getframerate(), mix.getnchannels(), mix.getsampwidth()), (44100, 2, 2))
            self.assertEqual(mix.getnframes(), 44100 * 275 // 100)

    def test_what_a_late_player_loses_is_told(self):
        told = self.gasp("sound", self.show(lag=1200)).stderr.decode()
        self.assertRegex(told, r"the first (199|200|20[0-4])[.0-9]* ms of its sound are lost")
        self.assertIn("not known", self.gasp("sound", self.show(), "--mix", "out").stderr.decode())

    def test_a_mix_is_of_one_show(self):
        self.wav("half.wav", [16384, -16384] * 4000)
        self.assertIn("Give one show", self.gasp("sound", "half.wav", "--mix", "out", code=2).stderr.decode())
        self.assertIn("wav nor flac", self.gasp("sound", "half.wav", "--as", "mp3", code=2).stderr.decode())

    def test_a_show_is_gathered_with_its_sounds(self):
        show = self.show()
        said = self.json("sound", show, "--gather", "away")
        self.assertEqual((said["sounds_copied"], said["missing"]), (1, []))
        self.assertEqual(self.json("sound", said["show"])[0]["clips"], self.json("sound", show)[0]["clips"])
        self.assertIn("there already", self.gasp("sound", show, "--gather", "away", code=2).stderr.decode())
        self.assertIn("one show", self.gasp("sound", self.wav("one.wav", [1] * 8000), "--gather", "away",
                                            code=2).stderr.decode())

    def test_a_players_lag_is_heard_in_a_recording(self):
        click = lambda peak: [peak * (1 if i % 2 else -1) * max(0, 60 - i) // 60 for i in range(80)]
        start = click(4000) + [0] * (8 * 170 - 80) + click(12000) + [0] * (8 * 3000)
        self.wav("starts.wav", [0] * 8000 + start * 3)
        said = self.json("sound", "--player-lag", "starts.wav")
        self.assertAlmostEqual(said["player_lag_ms"], 170, delta=3)
        self.assertEqual(len(said["each_ms"]), 3)
        self.assertIn("player lag 170 ms", self.out("sound", "--player-lag", "starts.wav"))
        self.wav("still.wav", [0] * 16000)
        self.gasp("sound", "--player-lag", "still.wav", code=2)

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
