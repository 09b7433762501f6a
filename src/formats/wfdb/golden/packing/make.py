"""Writes one small record per signal format and the stored numbers a separate decoder finds in it.

Packing and unpacking are written apart, in Python, from signal(5) of the WFDB Applications Guide: packing by bit
strings, unpacking by numpy. Where BioSig reads the format its numbers are compared too; see made-by.md.

    /usr/bin/python3 make.py
"""
import json, os, random, re, subprocess, tempfile
import numpy as np

here = os.path.dirname(os.path.abspath(__file__))
random.seed(20261125)
BITS = {8: 8, 16: 16, 24: 24, 32: 32, 61: 16, 80: 8, 160: 16, 212: 12, 310: 10, 311: 10}


def bits(value, n):
    return format(value & (2**n - 1), f"0{n}b")


def pack(fmt, s):
    """A list of samples in the order of the file to bytes, by strings of bits, most significant first."""
    if fmt in (16, 24, 32):
        return b"".join(v.to_bytes(fmt // 8, "little", signed=True) for v in s)
    if fmt == 61:
        return b"".join(v.to_bytes(2, "big", signed=True) for v in s)
    if fmt == 80:
        return bytes(v + 128 for v in s)
    if fmt == 160:
        return b"".join((v + 32768).to_bytes(2, "little") for v in s)
    out = b""
    if fmt == 212:
        for i in range(0, len(s), 2):
            a = bits(s[i], 12)
            b = bits(s[i + 1] if i + 1 < len(s) else 0, 12)
            out += bytes([int(a[4:], 2), int(b[:4] + a[:4], 2), int(b[4:], 2)])[: 3 if i + 1 < len(s) else 2]
    if fmt == 310:
        for i in range(0, len(s), 3):
            a, b, c = (bits(s[i + k] if i + k < len(s) else 0, 10) for k in range(3))
            low, high = c[5:] + a + "0", c[:5] + b + "0"
            words = [int(low, 2), int(high, 2)][: min(2, len(s) - i)]
            out += b"".join(w.to_bytes(2, "little") for w in words)
    if fmt == 311:
        for i in range(0, len(s), 3):
            a, b, c = (bits(s[i + k] if i + k < len(s) else 0, 10) for k in range(3))
            out += int("00" + c + b + a, 2).to_bytes(4, "little")[: min(4, 1 + len(s) - i)]
    return out


def unpack(fmt, data, count):
    """Bytes to a list of stored numbers, by numpy."""
    d = np.frombuffer(data, np.uint8).astype(np.int64)
    d = np.concatenate([d, np.zeros(8, np.int64)])
    if fmt == 16:
        v = np.frombuffer(data, "<i2")
    elif fmt == 61:
        v = np.frombuffer(data, ">i2")
    elif fmt == 32:
        v = np.frombuffer(data, "<i4")
    elif fmt == 80:
        v = np.frombuffer(data, np.uint8).astype(int) - 128
    elif fmt == 160:
        v = np.frombuffer(data, "<u2").astype(int) - 32768
    elif fmt == 24:
        n = len(data) // 3
        v = d[0 : 3 * n : 3] + 256 * d[1 : 3 * n : 3] + 65536 * d[2 : 3 * n : 3]
        v = np.where(v >= 2**23, v - 2**24, v)
    elif fmt == 212:
        n = (count + 1) // 2
        first = d[0 : 3 * n : 3] + 256 * (d[1 : 3 * n : 3] % 16)
        second = d[2 : 3 * n : 3] + 256 * (d[1 : 3 * n : 3] // 16)
        v = np.stack([first, second], 1).ravel()
        v = np.where(v >= 2048, v - 4096, v)
    elif fmt in (310, 311):
        n = (count + 2) // 3
        low = d[0 : 4 * n : 4] + 256 * d[1 : 4 * n : 4]
        high = d[2 : 4 * n : 4] + 256 * d[3 : 4 * n : 4]
        if fmt == 310:
            v = np.stack([low // 2 % 1024, high // 2 % 1024, low // 2048 + 32 * (high // 2048)], 1).ravel()
        else:
            v = np.stack([low % 1024, low // 1024 + 64 * (high % 16), high // 16 % 1024], 1).ravel()
        v = np.where(v >= 512, v - 1024, v)
    return [int(x) for x in v[:count]]


def biosig(name, fmt):
    """Physical values by channel as BioSig prints them (gain 1, baseline 0); None if it refuses."""
    with tempfile.TemporaryDirectory() as folder:
        run = subprocess.run(["save2gdf", "-f=ASCII", f"{here}/{name}.hea", f"{folder}/o"], capture_output=True, timeout=20)
        files = sorted(f for f in os.listdir(folder) if re.search(r"\.a\d+$", f))
        if not files:
            return None
        return [[float(x) for x in open(f"{folder}/{f}").read().split()] for f in files]


result = {}
agreed = {}
for fmt, width in BITS.items():
    for layout, perframe, frames in (("rates", [2, 1], 14), ("odd", [1], 11), ("pair", [1, 1], 9)):
        if layout == "pair" and fmt != 212:
            continue
        total = sum(perframe) * frames
        least = -(2 ** (width - 1))
        if fmt == 8:
            # Values whose steps fit in 8 bits, from an initial value on.
            initial = [1000, -7][: len(perframe)]
            state = list(initial)
            values, steps = [], []
            for f in range(frames):
                for s, n in enumerate(perframe):
                    for _ in range(n):
                        step = random.choice([-128, 127, 0, 1, -1, random.randint(-128, 127)])
                        state[s] += step
                        steps.append(step)
                        values.append(state[s])
            data = bytes(v & 255 for v in steps)
            decoded = []
            sums = list(initial)
            k = 0
            for v in np.frombuffer(data, np.int8):
                s = [s for s, n in enumerate(perframe) for _ in range(n)][k % sum(perframe)]
                sums[s] += int(v)
                decoded.append(sums[s])
                k += 1
        else:
            initial = None
            values = [random.choice([least, least + 1, -least - 1, 0, 1, -1] + [random.randint(least, -least - 1)] * 6) for _ in range(total)]
            data = pack(fmt, values)
            decoded = unpack(fmt, data, total)
        assert decoded == values, (fmt, layout)
        channels = [[] for _ in perframe]
        k = 0
        for f in range(frames):
            for s, n in enumerate(perframe):
                channels[s] += decoded[k : k + n]
                k += n
        name = f"{layout}_{fmt}"
        lines = [f"{name} {len(perframe)} 100 {frames}"]
        for s, n in enumerate(perframe):
            checksum = (sum(channels[s]) + 32768) % 65536 - 32768
            first = initial[s] if initial else channels[s][0]
            lines.append(f"{name}.dat {fmt}{f'x{n}' if n > 1 else ''} 1(0)/adu {width} 0 {first} {checksum} 0 {'AB'[s]}")
        open(f"{here}/{name}.hea", "w").write("\n".join(lines) + "\n")
        open(f"{here}/{name}.dat", "wb").write(data)
        result[name] = channels
        # BioSig 3.0.1 steps wrongly through frames of several signals, except pairs in format 212.
        if layout != "rates" and (read := biosig(name, fmt)) is not None:
            agreed[name] = read
json.dump(result, open(f"{here}/expected.json", "w"), separators=(",", ":"))
json.dump(agreed, open(f"{here}/biosig.json", "w"), separators=(",", ":"))
