"""Band-pass plus peak search over one channel, as in SciPy's own examples; times itself.

Prints JSON: seconds for filter and search, peaks found, versions. Input: raw float64, one channel.
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
start = time.perf_counter()
filtered = signal.sosfiltfilt(sections, samples)
between = time.perf_counter()
peaks, _ = signal.find_peaks(filtered, distance=int(0.3 * rate), prominence=0.3 * filtered.std())
end = time.perf_counter()
print(
    json.dumps(
        {
            "filter_s": between - start,
            "search_s": end - between,
            "peaks": len(peaks),
            "numpy": numpy.__version__,
            "scipy": scipy.__version__,
        }
    )
)
