import json, numpy as np
rng = np.random.default_rng(7)
x = np.round(rng.normal(size=64) + 3, 6)
y = np.round(rng.normal(size=45), 6)
X = np.fft.fft(x)
Y = np.fft.fft(y) / np.sqrt(45)
json.dump({"x": x.tolist(), "re": X.real.tolist(), "im": X.imag.tolist(),
           "y": y.tolist(), "lineRe": Y.real[2:9].tolist(), "lineIm": Y.imag[2:9].tolist()},
          open("expected.json", "w"), indent=0)
