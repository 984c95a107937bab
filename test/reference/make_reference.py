"""Writes the reference values that the tests of src/signal compare with, from SciPy and NumPy.

Run: python3 test/reference/make_reference.py
Inputs are not stored: both sides make them from the same linear congruential generator (see `lcg`).
"""

import json
import pathlib
import platform

import numpy as np
import scipy
from scipy import linalg, signal, stats

HERE = pathlib.Path(__file__).parent
PROVENANCE = {
    "script": "test/reference/make_reference.py",
    "scipy": scipy.__version__,
    "numpy": np.__version__,
    "python": platform.python_version(),
}


def lcg(seed, count):
    out = np.empty(count)
    for i in range(count):
        seed = (1664525 * seed + 1013904223) % 2**32
        out[i] = seed / 2**32
    return out


def noise(seed, count):
    return lcg(seed, count) - 0.5


def write(name, content):
    def plain(value):
        if isinstance(value, np.ndarray):
            if np.iscomplexobj(value):
                return {"re": value.real.tolist(), "im": value.imag.tolist()}
            return value.tolist()
        if isinstance(value, np.generic):
            return value.item()
        raise TypeError(type(value))

    text = json.dumps({"provenance": PROVENANCE, **content}, default=plain, separators=(",", ":"))
    (HERE / f"{name}.json").write_text(text + "\n")


def spectra():
    names = {
        "rectangular": "boxcar",
        "hann": "hann",
        "hamming": "hamming",
        "blackman": "blackman",
        "nuttall": "nuttall",
        "blackman-harris": "blackmanharris",
        "flat-top": "flattop",
    }
    windows = [
        {"name": ours, "length": n, "symmetric": sym, "weights": signal.get_window(theirs, n, fftbins=not sym)}
        for ours, theirs in names.items()
        for n in (8, 9)
        for sym in (False, True)
    ]
    cases = []
    for n, length, overlap, window, detrend in [
        (1000, 256, 0.5, "hann", "constant"),
        (1001, 64, 0.75, "blackman", "linear"),
        (333, 101, 0.5, "hamming", "constant"),
        (257, 100, 0.25, "flat-top", "none"),
        (64, 64, 0.5, "hann", "linear"),
        (37, 7, 0.5, "rectangular", "constant"),
        (16, 2, 0.5, "rectangular", "none"),
    ]:
        x, y = noise(1, n) + 0.3, noise(2, n)
        y[1:] += 0.8 * x[:-1]
        arguments = dict(
            fs=250.0,
            window=names[window],
            nperseg=length,
            noverlap=int(length * overlap),
            detrend=False if detrend == "none" else detrend,
        )
        cases.append(
            {
                "samples": n,
                "segmentLength": length,
                "overlap": overlap,
                "window": window,
                "detrend": detrend,
                "frequency": signal.welch(x, **arguments)[0],
                "power": signal.welch(x, **arguments)[1],
                "cross": signal.csd(x, y, **arguments)[1],
                "coherence": signal.coherence(x, y, **arguments)[1],
            }
        )
    f, t, s = signal.spectrogram(noise(3, 500), fs=100.0, window="hann", nperseg=64, noverlap=48, detrend="constant")
    x = noise(4, 100)
    x = x - x.mean()
    tapers = [np.sqrt(2 / 101) * np.sin(np.pi * k * np.arange(1, 101) / 101) for k in range(1, 5)]
    power = np.mean([np.abs(np.fft.rfft(x * taper, 128)) ** 2 for taper in tapers], axis=0) / 50.0
    power[1:-1] *= 2
    transforms = [{"length": n, "spectrum": np.fft.fft(noise(5, n) + 1j * noise(6, n))} for n in (1, 2, 3, 8, 17, 60)]
    write(
        "spectra",
        {
            "windows": windows,
            "welch": cases,
            "spectrogram": {"frequency": f, "time": t, "density": s.T},
            "multitaper": power,
            "transforms": transforms,
        },
    )


def filters():
    cases = []
    frequency = np.array([0.0, 1.0, 7.5, 20.0, 33.0, 49.0])
    for order, cutoff, kind in [
        (1, 10.0, "low"),
        (2, 10.0, "low"),
        (5, 0.4, "low"),
        (8, 45.0, "low"),
        (1, 5.0, "high"),
        (4, 20.0, "high"),
        (7, 3.0, "high"),
        (1, [5.0, 20.0], "band"),
        (2, [0.5, 30.0], "band"),
        (3, [10.0, 12.0], "band"),
        (4, [3.0, 30.0], "band"),
        (5, [1.0, 45.0], "band"),
    ]:
        sos = signal.butter(order, cutoff, "bandpass" if kind == "band" else kind, fs=100.0, output="sos")
        x = np.cumsum(noise(order, 131)) + 2
        cases.append(
            {
                "order": order,
                "cutoff": cutoff,
                "pass": kind,
                "response": signal.sosfreqz(sos, worN=frequency, fs=100.0)[1],
                "causal": signal.sosfilt(sos, x),
                "zeroPhase": signal.sosfiltfilt(sos, x),
            }
        )
    b, a = signal.iirnotch(60, 30, 1000)
    x = np.cumsum(noise(9, 203))
    anti_alias = signal.butter(8, 0.8 / 5, output="sos")
    hilbert = [{"length": n, "signal": signal.hilbert(noise(11, n))} for n in (1, 2, 3, 30, 31)]
    write(
        "filters",
        {
            "frequency": frequency,
            "butterworth": cases,
            "notch": {"b": b, "a": a},
            "decimated": signal.sosfiltfilt(anti_alias, x)[::5],
            "hilbert": hilbert,
        },
    )


def statistics():
    distributions = []
    for dof in (0.7, 1, 3, 10.5, 60, 1000):
        for p in (1e-8, 0.001, 0.025, 0.3, 0.5, 0.9, 0.975):
            distributions.append(
                {
                    "dof": dof,
                    "p": p,
                    "chiSquare": stats.chi2.ppf(p, dof),
                    "studentT": polished_t_quantile(p, dof),
                    "normal": stats.norm.ppf(p),
                }
            )
    tails = [
        {
            "x": x,
            "dof": dof,
            "chiSquare": stats.chi2.cdf(x, dof),
            "studentT": stats.t.cdf(-x, dof),
            "normal": stats.norm.cdf(-x),
        }
        for x in (0.01, 0.5, 2.0, 7.0, 25.0)
        for dof in (0.5, 2, 9, 300)
    ]
    x = noise(21, 41)
    y = 0.7 * np.arange(41) + 30 * noise(22, 41) ** 3
    slope, intercept, low, high = stats.theilslopes(y, np.arange(41), method="separate")
    test = stats.ttest_ind(x, y[:17], equal_var=False)
    centred = x - x.mean()
    covariance = np.correlate(centred, centred, "full")[40:] / 41
    p_values = lcg(23, 12) ** 3
    write(
        "statistics",
        {
            "quantiles": distributions,
            "tails": tails,
            "sampleQuantiles": np.quantile(x, [0, 0.1, 0.333, 0.5, 0.99, 1]),
            "mad": stats.median_abs_deviation(x, scale="normal"),
            "theilSen": {"slope": slope, "intercept": intercept, "low": low, "high": high},
            "welchTest": {"t": test.statistic, "p": test.pvalue},
            "autocovariance": covariance,
            "benjaminiHochberg": benjamini_hochberg(p_values),
            "logGamma": [[v, scipy.special.gammaln(v)] for v in (0.1, 0.5, 1.5, 10, 123.4, 5000)],
            "trigamma": [[v, scipy.special.polygamma(1, v)] for v in (0.1, 0.5, 1, 2.5, 10, 300)],
            "yuleWalker": [yule_walker(x, order) for order in (1, 2, 7)],
        },
    )


def polished_t_quantile(p, dof):
    """SciPy 1.10 stops its search near 1e-8; Newton steps on its own cdf carry on to full precision."""
    if p == 0.5:
        return 0.0
    t = stats.t.ppf(p, dof)
    for _ in range(3):
        t -= (stats.t.cdf(t, dof) - p) / stats.t.pdf(t, dof)
    return t


def benjamini_hochberg(p):
    order = np.argsort(p)
    scaled = p[order] * len(p) / np.arange(1, len(p) + 1)
    out = np.empty(len(p))
    out[order] = np.minimum.accumulate(scaled[::-1])[::-1]
    return np.minimum(out, 1)


def yule_walker(x, order):
    centred = x - x.mean()
    r = np.array([centred[: len(x) - k] @ centred[k:] for k in range(order + 1)]) / len(x)
    return linalg.solve_toeplitz(r[:-1], r[1:])


def linear_algebra():
    shapes = []
    for rows, columns in [(1, 1), (3, 2), (5, 5), (12, 4), (4, 7), (30, 10)]:
        a = noise(31, rows * columns).reshape(rows, columns)
        shapes.append(
            {
                "rows": rows,
                "columns": columns,
                "singularValues": linalg.svdvals(a),
                "pseudoInverse": linalg.pinv(a),
                "condition": np.linalg.cond(a),
            }
        )
    squares = []
    for n in (1, 2, 3, 6, 15):
        a = noise(32, n * n).reshape(n, n)
        values = linalg.eigvals(a)
        squares.append(
            {
                "size": n,
                "eigenvalues": values[np.lexsort((values.imag, values.real))],
                "symmetricEigenvalues": linalg.eigvalsh(a + a.T),
            }
        )
    a = noise(33, 40 * 3).reshape(40, 3)
    b = a @ [1.0, -2.0, 0.5] + 0.1 * noise(34, 40)
    solution, residual, _, _ = linalg.lstsq(a, b)
    covariance = linalg.inv(a.T @ a) * residual / 37
    write(
        "linear-algebra",
        {
            "matrices": shapes,
            "squares": squares,
            "leastSquares": {"solution": solution, "covariance": covariance.ravel(), "residual": residual},
        },
    )


spectra()
filters()
statistics()
linear_algebra()
