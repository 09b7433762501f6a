"""Writes an annotation file by annot(5) of the WFDB Applications Guide, and what is in it.

    /usr/bin/python3 make.py
"""
import json, os, re, shutil, struct, subprocess, tempfile

here = os.path.dirname(os.path.abspath(__file__))
SKIP, NUM, SUB, CHN, AUX = 59, 60, 61, 62, 63


def pair(code, step):
    return struct.pack("<H", code << 10 | step)


def skip(step):
    return pair(SKIP, 0) + struct.pack("<HH", step >> 16 & 0xFFFF, step & 0xFFFF)


def aux(text):
    b = text.encode()
    return pair(AUX, len(b)) + b + b"\0" * (len(b) % 2)


marks = [
    # tick, code, mnemonic, text, kind (beat or not: table of annotation codes in annot(5))
    (18, 28, "+", "(N", "other"),
    (77, 1, "N", "", "beat"),
    (370, 1, "N", "", "beat"),
    (662, 8, "A", "", "beat"),
    (2000, 5, "V", "", "beat"),
    (2001, 22, '"', "MISSB", "note"),
    (70000, 38, "f", "", "beat"),
    (70100, 37, "x", "", "other"),
    (200000, 13, "Q", "", "beat"),
]
out, now = b"", 0
for n, (tick, code, _, text, _) in enumerate(marks):
    step = tick - now
    out += pair(code, step) if step < 1024 else skip(step) + pair(code, 0)
    now = tick
    if n == 3:
        out += pair(SUB, 1)
    if n == 4:
        out += pair(CHN, 1) + pair(NUM, 3)
    if text:
        out += aux(text)
open(f"{here}/beats.atr", "wb").write(out + b"\0\0")
open(f"{here}/beats.hea", "w").write("beats 1 360 210000\nbeats.dat 16 200 16 0 0 0 0 ECG\n")
json.dump([dict(tick=t, kind=k, mnemonic=m, text=x) for t, _, m, x, k in marks], open(f"{here}/expected.json", "w"), indent=1)

# The same times on a clock of 1000 per second, with a code of its own; a step back, as writers leave after such notes.
notes = ["## time resolution: 1000", "## annotation type definitions", "42 PP pulse peak", "## end of definitions"]
out = b"".join(pair(22, 0) + aux(t) for t in notes) + skip(-1) + pair(0, 1)
out += pair(42, 500) + pair(42, 833) + pair(1, 1) + aux("ends")
open(f"{here}/beats.ppg", "wb").write(out + b"\0\0")

# What BioSig reads from the first file: code and seconds. It wants a signal file, made of zeros.
with tempfile.TemporaryDirectory() as folder:
    for name in ("beats.hea", "beats.atr"):
        shutil.copy(f"{here}/{name}", folder)
    open(f"{folder}/beats.dat", "wb").write(bytes(2 * 210000))
    text = subprocess.run(["save2gdf", "-JSON", f"{folder}/beats.hea"], capture_output=True, text=True).stdout
    events = re.findall(r'"TYP"\s*:\s*"0x([0-9a-f]+)",\s*"POS"\s*:\s*([0-9.]+)', text)
    json.dump([[int(code, 16), float(time)] for code, time in events], open(f"{here}/biosig.json", "w"))
