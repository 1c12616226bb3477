#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""Plays through a real sound server and compares what comes out with what should.

A PulseAudio server of our own, with a null sink, in a private XDG_RUNTIME_DIR; a stream of silence keeps the sink's
clock fine-grained. Usage: null_sink_test.py AUDITION_PLAYER record|loop|seek|pause|replace|slow|scrub|lost|none

A loaded machine may starve the server itself, so a recording that does not match is made again, a few times over;
a fault of the program fails every time.
"""
import contextlib
import os
import pathlib
import shutil
import signal
import subprocess
import sys
import tempfile
import time

import numpy as np
from scipy import signal as dsp
from scipy.io import wavfile

RATE = 48000
FADE = 240
# The sink itself loses up to 14 frames at a start (so does paplay): what follows the fade in is compared.
VOICE = "/usr/share/sounds/alsa/Front_Center.wav"  # 48 kHz, 16 bit, one channel: nothing is resampled
OTHER_VOICE = "/usr/share/sounds/alsa/Front_Left.wav"
PROMPT = "/usr/share/asterisk/sounds/en_US_f_Allison/auth-thankyou.wav"  # 8 kHz
TONE_HZ = 440
ATTEMPTS = 4


class Mismatch(Exception):
    pass


def need(condition, message):
    if not condition:
        raise Mismatch(message)


def wait_for(condition, seconds, what):
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if condition():
            return
        time.sleep(0.05)
    raise Mismatch(f"{what} within {seconds} s")


class Server:
    """pulseaudio with one null sink, and the stream that keeps it awake."""

    def __init__(self, folder):
        self.folder = pathlib.Path(folder)
        runtime = self.folder / "run"
        runtime.mkdir(mode=0o700)
        self.env = dict(os.environ, XDG_RUNTIME_DIR=str(runtime), HOME=str(self.folder), QT_QPA_PLATFORM="offscreen")
        self.env["PULSE_SERVER"] = f"unix:{runtime}/pulse/native"  # ours or none: nothing is started in its stead
        for name in ("PULSE_SINK", "DISPLAY", "WAYLAND_DISPLAY", "DBUS_SESSION_BUS_ADDRESS"):
            self.env.pop(name, None)
        self.children = []

    def start(self):
        self.pulse = self.spawn(
            ["pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "--realtime=no", "--high-priority=no",
             "-L", "module-native-protocol-unix auth-anonymous=1",
             "-L", "module-null-sink sink_name=lab rate=48000 channels=2 format=s16le", "-L", "module-always-sink"])
        wait_for(lambda: self.run(["pactl", "info"]).returncode == 0, 20, "the sound server answers")
        with open("/dev/zero", "rb") as zero:
            self.spawn(["pacat", "--playback", "--raw", "--rate=48000", "--channels=2", "--format=s16le",
                        "--latency-msec=5", "--device=lab"], stdin=zero)
        # Before the stream came, the idle sink had rendered up to 2 s ahead.
        wait_for(lambda: self.latency_us() < 50_000, 20, "the sink's clock is fine-grained")

    def latency_us(self):
        lines = [line.split() for line in self.run(["pactl", "list", "sinks"]).stdout.splitlines()]
        return next((int(words[1]) for words in lines if words[:1] == ["Latency:"]), 10**9)

    def spawn(self, command, **options):
        options.setdefault("stdout", subprocess.DEVNULL)
        child = subprocess.Popen(command, env=self.env, stderr=subprocess.DEVNULL, **options)
        self.children.append(child)
        return child

    def run(self, command):
        return subprocess.run(command, env=self.env, capture_output=True, text=True, check=False)

    @contextlib.contextmanager
    def recording(self):
        """A list that holds the recorded frames, stereo, once the block is left."""
        path = self.folder / f"recorded-{time.monotonic_ns()}.raw"
        heard = []
        with open(path, "wb") as out:
            recorder = self.spawn(["parec", "--raw", "--rate=48000", "--channels=2", "--format=s16le",
                                   "--latency-msec=20", "--device=lab.monitor"], stdout=out)
            wait_for(lambda: path.stat().st_size > 9600, 20, "the recorder runs")
            yield heard
            time.sleep(0.3)
            recorder.terminate()
            recorder.wait()
        raw = np.fromfile(path, dtype="<i2")
        heard.append(raw[: len(raw) // 2 * 2].reshape(-1, 2).astype(np.int32))

    def stop(self):
        for child in reversed(self.children):
            if child.poll() is None:
                child.send_signal(signal.SIGTERM)
        for child in self.children:
            with contextlib.suppress(subprocess.TimeoutExpired):
                child.wait(5)
            if child.poll() is None:
                child.kill()


class Said:
    """What audition_player wrote."""

    def __init__(self, text):
        lines = [line.split(" ", 2) for line in text.splitlines()]
        self.at = np.array([[int(a), int(b)] for kind, a, b in lines if kind == "at"])
        self.notices = [(int(a), b) for kind, a, b in lines if kind == "notice"]
        ends = [(int(a), int(b)) for kind, a, b in lines if kind == "end"]
        need(ends, f"the player came to its end; it wrote: {text[-400:]!r}")
        self.end, self.underruns = ends[0]


def play(server, player, *arguments):
    result = server.run([player, *map(str, arguments)])
    need(result.returncode == 0, f"the player ended with {result.returncode}: {result.stderr[-400:]}")
    return Said(result.stdout)


def place_of(heard, wanted):
    """The frame of `heard` where `wanted` lies, by cross-correlation of the sums of both sides."""
    a = heard.sum(axis=1).astype(float)
    b = wanted.sum(axis=1).astype(float)
    need(np.abs(a).max() > 0, "anything was recorded")
    return int(np.argmax(dsp.correlate(a, b, mode="valid", method="fft")))


def same(heard, wanted, name):
    """Compares sample by sample after aligning."""
    need(len(heard) >= len(wanted), f"{name}: recorded {len(heard)} frames, wanted {len(wanted)}")
    offset = place_of(heard, wanted)
    difference = np.abs(heard[offset: offset + len(wanted)] - wanted)
    wrong = int(np.count_nonzero(difference.max(axis=1)))
    print(f"{name}: aligned at frame {offset}; of {len(wanted)} frames {wrong} differ, by at most {difference.max()}")
    need(wrong == 0, f"{name}: {wrong} frames differ")
    return offset


def mono_file(path):
    rate, samples = wavfile.read(path)
    need(rate == RATE and samples.dtype == np.int16 and samples.ndim == 1, f"{path} is 48 kHz, 16 bit, mono")
    return np.repeat(samples.astype(np.int32)[:, None], 2, axis=1)


def steady(said, name):
    """The position never steps back, and keeps the pace of the steady clock."""
    moving = said.at[(said.at[:, 1] > 0) & (said.at[:, 1] < said.end)]
    need(len(moving) > 50, f"{name}: the position moves")
    steps = np.diff(moving[:, 1])
    need(steps.min() >= 0, f"{name}: the position stepped back by {-steps.min()} us")
    line = moving[:, 1] - moving[:, 0]
    print(f"{name}: position against the steady clock: sd {line.std() / 1000:.2f} ms, "
          f"range {np.ptp(line) / 1000:.2f} ms, largest step {steps.max() / 1000:.2f} ms")
    return line


def record(server, player):
    mix_path = server.folder / "mix.raw"
    # The voice from the very start, and a prompt of another rate over its end.
    sounds = server.folder / "sounds"
    sounds.mkdir(exist_ok=True)
    for path in (VOICE, PROMPT):
        shutil.copy(path, sounds)
    voice, prompt = (sounds / pathlib.Path(path).name for path in (VOICE, PROMPT))
    with server.recording() as heard:
        said = play(server, player, 4000, voice, 0, prompt, 2000, "--mix", mix_path)
    need(said.underruns == 0, f"{said.underruns} underruns")
    need(not said.notices, f"nothing to say: {said.notices}")
    need(said.end == 4_000_000, f"ended at {said.end} us")
    mix = np.fromfile(mix_path, dtype="<i2").reshape(-1, 2).astype(np.int32)
    need(len(mix) == 4 * RATE, f"the mix is 4 s long, not {len(mix)} frames")
    same(heard[0], mix[FADE:-FADE], "against core's mix")
    same(heard[0], mono_file(VOICE)[FADE:], "against the voice's file itself")
    line = steady(said, "record")
    need(np.percentile(np.abs(line - np.median(line)), 90) < 10_000, "the position follows within 10 ms")


def loop(server, player):
    with server.recording() as heard:
        said = play(server, player, 2000, VOICE, 0, "--loop", 300, 700, "--stop-after", 3000)
    need(said.underruns == 0, f"{said.underruns} underruns")
    voice = mono_file(VOICE)
    first, last = 300 * 48, 700 * 48
    same(heard[0], np.concatenate([voice[FADE:last]] + [voice[first:last]] * 4), "four returns of the loop")
    positions = said.at[:, 1]
    need(positions.max() <= 700_000, f"the position stays in the loop, not {positions.max()} us")
    returns = np.count_nonzero(np.diff(positions) < -300_000)
    need(returns >= 5, f"the position returns with the loop; it did {returns} times")


def seek(server, player):
    with server.recording() as heard:
        said = play(server, player, 2000, VOICE, 0, "--seek", 300, 900)
    voice = mono_file(VOICE)
    offset = same(heard[0], voice[900 * 48 + FADE:], "after the jump")
    around = heard[0][offset - 3 * FADE: offset, :].astype(int)
    loudest_step = np.abs(np.diff(voice[:, 0])).max() + 32768 // FADE
    need(np.abs(np.diff(around[:, 0])).max() <= loudest_step, "the jump does not click")
    jump = int(np.argmax(np.diff(said.at[:, 1])))
    need(abs(said.at[jump + 1, 1] - 900_000) < 30_000, f"the position jumps to 0.9 s, not {said.at[jump + 1, 1]} us")
    need(np.diff(said.at[jump + 1:, 1]).min() >= 0, "and never back")
    need(said.end == 2_000_000, f"ended at {said.end} us")


def pause(server, player):
    with server.recording() as heard:
        said = play(server, player, 2000, VOICE, 0, "--pause", 700, "--stop-after", 1800)
    voice = mono_file(VOICE)
    need(300_000 < said.end < 720_000, f"paused at {said.end} us")
    need(len(set(said.at[-100:, 1])) == 1, "the position stands still")
    sound = np.flatnonzero(np.abs(heard[0]).max(axis=1))
    tail = heard[0][sound[-1] - FADE: sound[-1] + 1, 0]
    loudest_step = np.abs(np.diff(voice[:, 0])).max() + 32768 // FADE
    need(np.abs(np.diff(tail)).max() <= loudest_step, "the pause does not click")
    heard_ms = (sound[-1] - sound[0]) / 48
    print(f"pause: shown {said.end / 1000:.1f} ms, heard {heard_ms:.1f} ms (the device's buffer follows)")
    need(heard_ms < said.end / 1000 + 300, "it falls silent soon")


def replace(server, player):
    """A sound that is replaced on the disk while it plays goes on as the other from the same place."""
    sounds = server.folder / "replaced"
    sounds.mkdir(exist_ok=True)
    shutil.copy(VOICE, sounds / "voice.wav")
    shutil.copy(OTHER_VOICE, sounds / "other take")
    with server.recording() as heard:
        said = play(server, player, 1400, sounds / "voice.wav", 0, "--replace", 400, sounds / "other take")
    need(said.underruns == 0, f"{said.underruns} underruns")
    need(not said.notices, f"nothing to say: {said.notices}")
    # What was read ahead is played to its end, a third of a second.
    head = same(heard[0], mono_file(VOICE)[FADE: 300 * 48], "before it is replaced")
    tail = same(heard[0], mono_file(OTHER_VOICE)[1000 * 48: 1390 * 48], "after it is replaced")
    need(tail - head == 1000 * 48 - FADE, f"the other take is {tail - head - 1000 * 48 + FADE} frames out of place")


def tone(server):
    """Three seconds of a tone, 440 Hz, a quarter of full scale."""
    path = server.folder / "tone.wav"
    time_s = np.arange(3 * RATE) / RATE
    wavfile.write(path, RATE, np.round(8192 * np.sin(2 * np.pi * TONE_HZ * time_s)).astype(np.int16))
    return path


def cents_off(heard, shares):
    """How far the pitch heard is from the tone's: the median of the angle's pace where it sounds at its full
    level, and the shares of those moments that are to be left out at either end of the list of paces."""
    whole = dsp.hilbert(heard.sum(axis=1).astype(float))
    loud = np.abs(whole[:-1]) > 0.8 * np.percentile(np.abs(whole), 99)
    pace = np.angle(whole[1:] * np.conj(whole[:-1]))[loud] * RATE / (2 * np.pi)
    need(len(pace) > RATE // 10, f"it sounds for {len(pace) / RATE:.2f} s")
    return 1200 * np.log2(np.quantile(pace, shares) / TONE_HZ)


def slow(server, player):
    """At half and at a quarter of the speed the tone lasts so much longer, and its pitch stays within 5 cents."""
    path = tone(server)
    for times in (2, 4):
        with server.recording() as heard:
            said = play(server, player, 3000, path, 0, "--times", times)
        need(said.underruns == 0, f"{said.underruns} underruns")
        need(said.end == 3_000_000, f"ended at {said.end} us")
        sound = np.flatnonzero(np.abs(heard[0]).max(axis=1) > 800)
        lasts = (sound[-1] - sound[0]) / RATE
        # Its middle half: the stretcher needs a moment at either end.
        middle = heard[0][sound[0] + len(sound) // 4: sound[0] + len(sound) * 3 // 4]
        low, middle_cents, high = cents_off(middle, [0.05, 0.5, 0.95])
        print(f"slow: {times} times as slow: lasts {lasts:.3f} s, {middle_cents:+.2f} cents, "
              f"nine tenths of it within {low:+.2f} and {high:+.2f}")
        need(abs(lasts - 3.0 * times) < 0.1, f"three seconds last {lasts:.3f} s at {times} times as slow")
        need(abs(middle_cents) < 5, f"the pitch is off by {middle_cents:.1f} cents")


def scrub(server, player):
    """A drag of the playhead is heard in pieces, at the pitch of what lies under it within 5 cents."""
    path = tone(server)
    with server.recording() as heard:
        said = play(server, player, 3000, path, 0, "--scrub", 300, 1800, "--stop-after", 2500)
    need(not said.notices, f"nothing to say: {said.notices}")
    sound = np.flatnonzero(np.abs(heard[0]).max(axis=1) > 800)
    need(len(sound) > 0, "anything is heard")
    lasts = (sound[-1] - sound[0]) / RATE
    middle_cents = cents_off(heard[0], [0.5])[0]
    steps = np.abs(np.diff(heard[0][:, 0])).max()
    print(f"scrub: heard for {lasts:.3f} s, {middle_cents:+.2f} cents, largest step {steps}")
    need(1.0 < lasts < 2.2, f"a drag of 1.5 s is heard for {lasts:.3f} s")
    need(abs(middle_cents) < 5, f"the pitch is off by {middle_cents:.1f} cents")
    need(steps < 8192 * 2 * np.pi * TONE_HZ / RATE + 2 * 8192 / FADE + 2, "it does not click")


def lost(server, player):
    running = subprocess.Popen([player, "5000", VOICE, "0"], env=server.env, stdout=subprocess.PIPE, text=True)
    time.sleep(2.0)
    server.pulse.kill()
    text, _ = running.communicate(timeout=60)
    said = Said(text)
    need(len(said.notices) == 1, f"one notice: {said.notices}")
    need("lost: running silently on a steady clock" in said.notices[0][1], said.notices[0][1])
    need(said.notices[0][0] > 0, "it was lost in mid play")
    line = steady(said, "lost")
    # The device may stand still for a moment before it is known to be lost.
    need(np.ptp(line) < 300_000, f"the position goes on from where it was, not {np.ptp(line)} us away")
    need(said.end == 5_000_000, f"ended at {said.end} us")


def none(server, player):
    said = play(server, player, 1500, VOICE, 0)
    need([text for _, text in said.notices] == ["No sound device: running silently on a steady clock"],
         f"it says so once: {said.notices}")
    line = steady(said, "none")
    need(np.percentile(np.abs(line - np.median(line)), 90) < 10_000, "the clock is steady within 10 ms")
    need(said.end == 1_500_000, f"ended at {said.end} us")


def main():
    player, case = sys.argv[1:]
    for tool in ("pulseaudio", "pacat", "parec", "pactl"):
        if shutil.which(tool) is None:
            sys.exit(f"{tool} is missing: apt-get install pulseaudio pulseaudio-utils")
    for path in (VOICE, PROMPT):
        if not os.path.exists(path):
            sys.exit(f"{path} is missing: apt-get install alsa-utils asterisk-core-sounds-en-wav")
    for attempt in range(1, ATTEMPTS + 1):
        with tempfile.TemporaryDirectory(prefix="gaspworks-") as folder:
            server = Server(folder)
            try:
                if case != "none":
                    server.start()
                globals()[case](server, player)
                print(f"{case}: good at attempt {attempt} of {ATTEMPTS}")
                return
            except Mismatch as mismatch:
                print(f"{case}, attempt {attempt}: {mismatch}", flush=True)
            finally:
                server.stop()
    sys.exit(f"{case}: failed {ATTEMPTS} times")


if __name__ == "__main__":
    main()
