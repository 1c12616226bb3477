# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
"""A board played by Python on a pseudo-terminal, by resources/board-player/protocol.md alone: its COBS is written
from the paper, its CRCs are those of binascii and zlib. It can be told to misbehave."""

import binascii
import os
import pty
import struct
import threading
import tty
import zlib


def cobs(data):
    """Cheshire and Baker, 1999: each block is its length, one more than its bytes, and those up to a zero."""
    line, block = b"", b""
    for byte in data + b"\0":
        if byte == 0:
            line += bytes([len(block) + 1]) + block
            block = b""
        else:
            block += bytes([byte])
    return line + b"\0"


def from_cobs(line):
    """None where it is no COBS."""
    data, place = b"", 0
    while place < len(line):
        block = line[place + 1:place + line[place]]
        if len(block) != line[place] - 1:
            return None
        data += block + b"\0"
        place += line[place]
    return data[:-1]


class Peer:
    """Answers on `path` until it is closed. `store`: its longest image. `behave`: a word for what is wrong with it."""

    def __init__(self, behave="", store=16384, outputs=8):
        self.behave, self.store, self.outputs = behave, store, outputs
        self.image, self.coming, self.wanted, self.held, self.ran, self.bad_frames = b"", b"", (0, 0), [], [], 0
        self.armed = False
        self.board, self.slave = pty.openpty()
        tty.setraw(self.slave)
        self.path = os.ttyname(self.slave)
        self.thread = threading.Thread(target=self.serve, daemon=True)
        self.thread.start()

    def close(self):
        for file in (self.board, self.slave):
            try:
                os.close(file)
            except OSError:
                pass

    def serve(self):
        rest = b""
        try:
            while True:
                rest += os.read(self.board, 4096)
                *lines, rest = rest.split(b"\0")
                for line in filter(None, lines):
                    self.take(line)
        except OSError:
            return  # closed

    def take(self, line):
        frame = from_cobs(line)
        if frame is None or len(frame) < 5 or binascii.crc_hqx(frame[:-2], 0xFFFF) != int.from_bytes(frame[-2:], "little"):
            self.bad_frames += 1
            return
        version, kind, sequence = frame[:3]
        if self.behave == "silent":
            return
        if self.behave == "rubbish":
            os.write(self.board, b"login: \x1b[2J\r\n" * 20)
            return
        if self.behave == "unplugged" and kind == 0x11 and len(self.coming) > 300:
            os.close(self.slave)
            os.close(self.board)
            raise OSError
        if self.behave == "stalled" and kind == 0x11 and len(self.coming) > 300:
            return
        if self.behave == "version" or version != 1:
            return self.answer(kind, sequence, b"\x01\x02\x03", version=2)
        self.answer(kind, sequence, self.work(kind, frame[3:-2]))

    def answer(self, kind, sequence, payload, version=1):
        frame = bytes([version, kind | 0x80, sequence]) + payload
        frame += binascii.crc_hqx(frame, 0xFFFF).to_bytes(2, "little")
        if self.behave == "damaged":
            frame = frame[:-1] + bytes([frame[-1] ^ 1])
        os.write(self.board, cobs(frame))

    def work(self, kind, payload):
        if kind == 0x01:
            good = bool(self.image)
            revision, board = struct.unpack_from("<II", self.image, 12) if good else (0, 0)
            crc = int.from_bytes(self.image[-4:], "little")
            return b"\0" + struct.pack("<HBBBIBIIIIH16s", 0x0100, self.outputs, 3, 64, self.store, good, len(self.image),
                                       crc, revision, board, 7, b"python\x1b[2J")
        if kind == 0x10:
            self.wanted = struct.unpack("<II", payload)
            if self.wanted[0] > self.store:
                return b"\x0a" + struct.pack("<I", self.store)
            self.coming, self.image = b"", b""
            return b"\0" + struct.pack("<I", 0)
        if kind == 0x11:
            offset, = struct.unpack_from("<I", payload)
            if offset == len(self.coming):
                self.coming += payload[4:]
            return b"\0" + struct.pack("<I", len(self.coming))
        if kind == 0x12:
            if len(self.coming) != self.wanted[0] or zlib.crc32(self.coming[:-4]) != self.wanted[1]:
                return b"\x0c\x05"
            self.image = self.coming
            return b"\0"
        if kind == 0x13:
            offset, count = struct.unpack("<IB", payload)
            data = self.image[offset:offset + count]
            return b"\0" + (data[::-1] if self.behave == "forgetful" else data)
        if kind == 0x20:
            self.armed = True
            return b"\0" + struct.pack("<H", 0xBEEF)
        if kind == 0x21:
            self.armed = False
            return b"\0"
        if kind in (0x22, 0x23):
            token, number = struct.unpack("<HB", payload)
            if token != 0xBEEF or not self.armed:
                return b"\x04"
            (self.held if kind == 0x22 else self.ran).append(number)
            return b"\0"
        if kind == 0x30:
            return b"\0" + struct.pack("<BBIIIIIIBBBIIII", 2, 0xFF, 0, 0, 0, 0, 0, 0, 3, self.armed, 0xFF, 3725, 4, 2, 1)
        if kind == 0x31:
            log = [(1, 0, 0), (2, 0, 60), (3, 18, 70), (4, 2, 80)] + [(2, 1, 90 + n) for n in range(60)]
            first, = struct.unpack("<H", payload)
            return b"\0" + struct.pack("<H", len(log)) + b"".join(struct.pack("<BBI", *one) for one in log[first:first + 21])
        if kind == 0x33:
            return b"\0" + struct.pack("<I", 1000) + payload
        return b"\0" if kind in (0x24, 0x25, 0x32) else b"\x02"
