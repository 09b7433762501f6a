"""Writes MAT-files with SciPy, and by hand where SciPy can't, and what SciPy reads back.

    /usr/bin/python3 make.py
"""
import json, os, struct
import numpy as np
import scipy.io
import scipy.sparse

here = os.path.dirname(os.path.abspath(__file__))
rng = np.random.default_rng(20261125)
kinds = ["int8", "uint8", "int16", "uint16", "int32", "uint32", "int64", "uint64", "float32", "float64"]


def numbers(kind, n):
    if kind.startswith("float"):
        return (1000 * rng.standard_normal(n)).astype(kind)
    info = np.iinfo(kind)
    # Beyond 2^53 a double can't tell them apart.
    low, high = max(info.min, -(2**53)), min(info.max, 2**53)
    v = rng.integers(low, high, n, dtype=np.int64, endpoint=True)
    v[:2] = low, high
    return v.astype(kind)


types = {f"v_{kind}": numbers(kind, 40) for kind in kinds} | {"fs": 50.0}
shapes = {
    "t": (100 + np.arange(300) / 125)[:, None],
    "tall": rng.standard_normal((300, 3)),
    "wide": rng.integers(-5, 5, (2, 300)).astype("int16"),
    "PLETH": rng.standard_normal(300).astype("float32"),
    "marks": np.array([3.0, 99.0, 170.0]),
    "note": "left index finger",
    "info": {"device": "made up", "gain": 2.0},
    "cells": np.array([1, "two"], dtype=object),
    "complex": np.ones(300) * 1j,
    "sparse": scipy.sparse.eye(300),
    "cube": np.zeros((2, 3, 300)),
    "empty": np.zeros((0, 300)),
    "one": 7.0,
}
for name, data in (("types", types), ("shapes", shapes)):
    scipy.io.savemat(f"{here}/{name}.mat", data, oned_as="row", do_compression=True)
    scipy.io.savemat(f"{here}/{name}-plain.mat", data, oned_as="column")

# Big-endian, by hand: SciPy only reads it. Numbers of a matrix of doubles stored in smaller types, short tags.
def element(code, data):
    return struct.pack(">II", code, len(data)) + data + b"\0" * (-len(data) % 8)


def matrix(name, rows, columns, code, data):
    short = struct.pack(">HH", len(data), code) + data.ljust(4, b"\0") if len(data) <= 4 else element(code, data)
    body = element(6, struct.pack(">II", 6, 0)) + element(5, struct.pack(">ii", rows, columns)) + element(1, name.encode()) + short
    return element(14, body)


big = b"MATLAB 5.0 MAT-file, made by hand".ljust(124) + struct.pack(">H", 0x0100) + b"MI"
big += matrix("rate", 1, 1, 2, bytes([200]))
big += matrix("IR_ADC", 7, 1, 5, struct.pack(">7i", 1, -2, 3, 70000, -70000, 2**31 - 1, -(2**31)))
big += matrix("pair", 2, 7, 3, struct.pack(">14h", *range(-7, 7)))
open(f"{here}/big.mat", "wb").write(big)

expected = {}
for name in ("types", "types-plain", "shapes", "shapes-plain", "big"):
    read = scipy.io.loadmat(f"{here}/{name}.mat")
    expected[name] = {
        key: value.astype(float).tolist()
        for key, value in read.items()
        if isinstance(value, np.ndarray) and value.dtype.kind in "iuf" and value.ndim == 2 and value.size > 0 and not key.startswith("__")
    }
json.dump(expected, open(f"{here}/expected.json", "w"), separators=(",", ":"))
