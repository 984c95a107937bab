"""The SciPy side of signal-bench.mjs: reads the name of a job a line, runs it once, answers with its milliseconds."""

import sys
import time

import numpy as np
import scipy
from scipy import linalg, signal


def lcg(seed, count):
    out = np.empty(count)
    for i in range(count):
        seed = (1664525 * seed + 1013904223) % 2**32
        out[i] = seed / 2**32
    return out


LONG = lcg(1, 600_000) - 0.5
T = np.arange(500) / 250
RINGING = (
    np.exp(-0.5 * T) * np.cos(2 * np.pi * 3 * T)
    + 0.6 * np.exp(-0.2 * T) * np.cos(2 * np.pi * 7.5 * T + np.pi / 4)
    + 0.02 * (lcg(2, 500) - 0.5)
)
BAND = signal.butter(4, [5, 80], "bandpass", fs=1000, output="sos")


def matrix_pencil(y, order=4):
    pencil = len(y) // 3
    hankel = linalg.hankel(y[: len(y) - pencil], y[len(y) - pencil - 1 :])
    v = linalg.svd(hankel, full_matrices=False)[2][:order].T
    z = linalg.eigvals(linalg.pinv(v[:-1]) @ v[1:])
    basis = z[None, :] ** np.arange(len(y))[:, None]
    return np.log(z) * 250, linalg.lstsq(basis, y)[0]


JOBS = {
    "welch": lambda: signal.welch(LONG, 1000, nperseg=4096),
    "spectrogram": lambda: signal.spectrogram(LONG, 1000, window="hann", nperseg=4096, noverlap=2048),
    "zero-phase": lambda: signal.sosfiltfilt(BAND, LONG),
    "matrix-pencil": lambda: matrix_pencil(RINGING),
}

print(f"SciPy {scipy.__version__}, NumPy {np.__version__}", flush=True)
for line in sys.stdin:
    job = JOBS[line.strip()]
    start = time.perf_counter()
    job()
    print((time.perf_counter() - start) * 1e3, flush=True)
