"""Band-pass plus peak search over one channel, as in SciPy's own examples; times itself.

Prints JSON: seconds and processor seconds of a first and a second reading, peaks found, versions.
Input: raw float64, one channel.
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
# Reads every sample once, so that the system has given the process its memory before the clock starts.
samples.sum()


def read_once():
    start = time.perf_counter()
    start_cpu = time.process_time()
    filtered = signal.sosfiltfilt(sections, samples)
    peaks, _ = signal.find_peaks(filtered, distance=int(0.3 * rate), prominence=0.3 * filtered.std())
    return time.perf_counter() - start, time.process_time() - start_cpu, len(peaks)


# The first call also pays for memory of its own that the process has not touched yet; the second does not.
first, first_cpu, count = read_once()
second, second_cpu, _ = read_once()
print(
    json.dumps(
        {
            "first_s": first,
            "first_cpu_s": first_cpu,
            "second_s": second,
            "second_cpu_s": second_cpu,
            "peaks": count,
            "numpy": numpy.__version__,
            "scipy": scipy.__version__,
        }
    )
)
