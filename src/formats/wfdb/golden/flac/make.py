"""Writes FLAC signal files with the reference encoder and the numbers that went in.

    /usr/bin/python3 make.py        (needs the command `flac`)
"""
import json, math, os, random, subprocess

here = os.path.dirname(os.path.abspath(__file__))
random.seed(20261125)


def clip(v, bits):
    # The lowest code means "no sample" and is left out, except where put in on purpose.
    return max(-(2 ** (bits - 1)) + 1, min(2 ** (bits - 1) - 1, int(v)))


def wave(n, bits, k):
    top = 2 ** (bits - 1)
    return [clip(0.6 * top * math.sin(2 * math.pi * i * (k + 1) / 173) + random.gauss(0, 0.01 * top + 0.4), bits) for i in range(n)]


def noise(n, bits):
    top = 2 ** (bits - 1)
    return [random.randint(-top + 1, top - 1) for _ in range(n)]


n = 900
smooth = [clip(20000 * math.sin(2 * math.pi * i / 173), 16) for i in range(n)]
cases = {
    # name: (format, bits, samples per frame, signals, options of the encoder)
    "f508": (508, 8, 1, [wave(n, 8, 0), wave(n, 8, 1)], ["-5", "--blocksize=576"]),
    "f516": (516, 16, 1, [wave(n, 16, 0), [7] * n, [16 * (v // 16) for v in wave(n, 16, 2)], noise(n, 16)], ["-8", "--blocksize=576"]),
    "f516fixed": (516, 16, 2, [wave(n, 16, 0), wave(n, 16, 0)], ["-2", "--blocksize=192"]),
    "f516mid": (516, 16, 1, [wave(n, 16, 0), [v + random.randint(-3, 3) for v in wave(n, 16, 0)]], ["-8", "-m", "--blocksize=256"]),
    "f516left": (516, 16, 1, [smooth, [v + random.randint(-300, 300) for v in smooth]], ["-8", "-m", "--blocksize=256"]),
    "f524": (524, 24, 1, [wave(n, 24, 0), noise(n, 24)], ["-8", "-e", "-p", "--blocksize=512", "--lax"]),
}
cases["f516"][3][0][100:105] = [-32768] * 5
expected = {}
for name, (fmt, bits, spf, signals, options) in cases.items():
    raw = b"".join(v.to_bytes(bits // 8, "little", signed=True) for row in zip(*signals) for v in row)
    open("/tmp/in.raw", "wb").write(raw)
    out = f"{here}/{name}.dat"
    subprocess.run(["flac", "-s", "-f", "--no-padding", "--no-seektable", "--force-raw-format", "--endian=little", "--sign=signed",
        f"--channels={len(signals)}", f"--bps={bits}", "--sample-rate=1000", *options, "-o", out, "/tmp/in.raw"], check=True)
    back = subprocess.run(["flac", "-s", "-d", "-c", "--force-raw-format", "--endian=little", "--sign=signed", out], capture_output=True, check=True)
    assert back.stdout == raw, name
    lines = [f"{name} {len(signals)} 125 {n // spf}"]
    for s, values in enumerate(signals):
        checksum = (sum(values) + 32768) % 65536 - 32768
        lines.append(f"{name}.dat {fmt}{f'x{spf}' if spf > 1 else ''} 1(0)/adu {bits} 0 {values[0]} {checksum} 0 S{s}")
    open(f"{here}/{name}.hea", "w").write("\n".join(lines) + "\n")
    expected[name] = signals
json.dump(expected, open(f"{here}/expected.json", "w"), separators=(",", ":"))
