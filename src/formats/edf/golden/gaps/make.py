"""Writes input.edf (EDF+D with two pauses) and expected.json from the EDF+ specification alone.

Record times 0.25, 0.75 | 4.12, 4.62 | 20.0 s; two signals, 100 and 4 samples/s, records of 0.5 s.
Expected: sample n of a channel lies at 0.25 s + n / rate; a record begins at the sample nearest to its time.
"""
import json
import math
import struct

DURATION, TIMES = 0.5, [0.25, 0.75, 4.12, 4.62, 20.0]
SIGNALS = [("Pleth", "mNU", 50, (-1.0, 3.0)), ("Cuff", "mmHg", 2, (300.0, -20.0))]
NOTES = {1: [("+0.9", None, "band on")], 2: [("+0.5", "2.25", "Hebebühne ↑"), ("+4.2", None, "a\x14b")]}
CELLS = 40


def field(text, width):
    return str(text).encode("ascii").ljust(width)


def column(values, width):
    return b"".join(field(v, width) for v in values)


ns = len(SIGNALS) + 1
head = field("0", 8) + field("X X X X", 80) + field("Startdate 03-MAR-2093 X X X", 80)
head += field("03.03.93", 8) + field("23.59.59", 8) + field(256 * (ns + 1), 8) + field("EDF+D", 44)
head += field(len(TIMES), 8) + field(DURATION, 8) + field(ns, 4)
head += column([s[0] for s in SIGNALS] + ["EDF Annotations"], 16) + column([""] * ns, 80)
head += column([s[1] for s in SIGNALS] + [""], 8)
head += column([s[3][0] for s in SIGNALS] + [-1], 8) + column([s[3][1] for s in SIGNALS] + [1], 8)
head += column([-2048] * 2 + [-32768], 8) + column([2047] * 2 + [32767], 8)
head += column([""] * ns, 80) + column([s[2] for s in SIGNALS] + [CELLS], 8) + column([""] * ns, 32)

body = b""
channels = [[] for _ in SIGNALS]
for k, time in enumerate(TIMES):
    for c, (_, _, spr, (low, high)) in enumerate(SIGNALS):
        rate = spr / DURATION
        digital = [round(2000 * math.sin(0.7 * (k * spr + n) + c)) for n in range(spr)]
        body += struct.pack(f"<{spr}h", *digital)
        first = math.floor((time - TIMES[0]) * rate + 0.5)
        channels[c] += [None] * (first - len(channels[c]))
        channels[c] += [low + (d + 2048) * (high - low) / 4095 for d in digital]
    tals = f"+{time}\x14\x14\0".encode()
    for onset, duration, text in NOTES.get(k, []):
        stamp = onset if duration is None else f"{onset}\x15{duration}"
        tals += f"{stamp}\x14{text}\x14\0".encode()
    assert len(tals) <= 2 * CELLS
    body += tals.ljust(2 * CELLS, b"\0")

open("input.edf", "wb").write(head + body)
expected = {
    "start": "2093-03-03T23:59:59.250",
    "channels": channels,
    "notes": [[0.25, 2.25, "Hebebühne ↑"], [0.65, None, "band on"], [3.95, None, "a"], [3.95, None, "b"]],
}
open("expected.json", "w").write(json.dumps(expected, ensure_ascii=False))
