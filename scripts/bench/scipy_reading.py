"""Band-pass plus peak search over one channel, as in SciPy's own examples; times itself.

Prints JSON: seconds of a first and a second reading, peaks found, versions. Input: raw float64, one channel.
"""
import json
import sys
import time

import numpy
import scipy
from scipy import signal

samples = numpy.fromfile(sys.argv[1], dtype=numpy.float64)
rate = float(sys.argv[2])
sections = signal.butter(2, [0.5, 8], "bandpass", fs=rate, output="sos")


def read_once():
    start = time.perf_counter()
    filtered = signal.sosfiltfilt(sections, samples)
    peaks, _ = signal.find_peaks(filtered, distance=int(0.3 * rate), prominence=0.3 * filtered.std())
    return time.perf_counter() - start, len(peaks)


# The first call also pays for memory the process has not touched yet; the second does not.
first, count = read_once()
second, _ = read_once()
print(
    json.dumps(
        {
            "first_s": first,
            "second_s": second,
            "peaks": count,
            "numpy": numpy.__version__,
            "scipy": scipy.__version__,
        }
    )
)
