"""A made-up trace through SciPy's filters the way the conditioner should treat it; writes cases.json beside this file."""
import json
import pathlib

import numpy
from scipy.signal import firwin, upfirdn
from scipy.signal._arraytools import odd_ext

random = numpy.random.default_rng(1)
cases = []
for rate, up, down in [(50, 1, 1), (100, 1, 2), (250, 1, 4), (1000, 1, 16), (40, 2, 1)]:
    n = 3 * rate + 7
    t = numpy.arange(n) / rate
    x = 500 + 40 * numpy.sin(2 * numpy.pi * 1.3 * t) + 15 * numpy.sin(2 * numpy.pi * 3.9 * t + 1)
    x = numpy.round(x + 8 * t + random.normal(0, 3, n), 3)
    half = rate // 10
    if up == 1:
        taps = firwin(2 * half + 1, 10, window=("kaiser", 3.4), fs=rate)
        y = numpy.convolve(odd_ext(x, half), taps, "valid")[::down]
    else:
        taps = firwin(4 * half + 1, 10, window=("kaiser", 3.4), fs=2 * rate)
        for phase in (0, 1):
            taps[phase::2] /= taps[phase::2].sum()
        extended = odd_ext(x, half)
        y = upfirdn(taps, extended, up=2)[4 * half : 4 * half + 2 * n - 1]
    cases.append({"rate": rate, "innerRate": rate * up / down, "values": list(x), "expected": list(y)})
pathlib.Path(__file__).with_name("cases.json").write_text(json.dumps(cases))
