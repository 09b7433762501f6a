"""Low-pass kernels by SciPy's window method; writes expected.json beside this file."""
import json
import pathlib

from scipy.signal import firwin

cases = []
for rate, cutoff, half, beta in [(100, 10, 10, 3.4), (250, 10, 25, 3.4), (1000, 8, 120, 5.0), (50, 12, 7, 0.0)]:
    taps = firwin(2 * half + 1, cutoff, window=("kaiser", beta), fs=rate)
    cases.append({"rate": rate, "cutoff": cutoff, "half": half, "beta": beta, "taps": list(taps[half:])})
pathlib.Path(__file__).with_name("expected.json").write_text(json.dumps(cases))
