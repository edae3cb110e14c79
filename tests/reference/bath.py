#!/usr/bin/python3
"""Figures for the bath records from numpy and scipy (Debian packages), written to bath-computed.json.

    /usr/bin/python3 tests/reference/bath.py
"""
import json
import math
import pathlib

import numpy
import scipy
from scipy import optimize, signal, stats

HERE = pathlib.Path(__file__).parent
FIGURES = json.loads((HERE / "bath.json").read_text(encoding="utf8"))


def critical(n, alpha):
    t = stats.t.ppf(1 - alpha / (2 * n), n - 2)
    return (n - 1) * t / math.sqrt((n - 2 + t * t) * n)


def deviates(values, most):
    left = list(values)
    found = []
    for _ in range(most):
        a = numpy.array(left)
        far = int(numpy.argmax(abs(a - a.mean())))
        found.append({"value": left[far], "statistic": abs(left[far] - a.mean()) / a.std(ddof=1), "critical": critical(len(left), 0.05)})
        del left[far]
    return found


def neighbours(n, rho):
    """Mean of n values with neighbour correlation rho, by the matrices themselves."""
    v = numpy.eye(n) + rho * (numpy.eye(n, k=1) + numpy.eye(n, k=-1))
    m = numpy.eye(n) - numpy.ones((n, n)) / n
    mv = m @ v
    return {
        "n": n,
        "rho": rho,
        "effective": n * n / v.sum(),
        "deviationFactor": math.sqrt((n - 1) / numpy.trace(mv)),
        "degreesOfFreedom": numpy.trace(mv) ** 2 / numpy.trace(mv @ mv),
    }


def stem():
    """Readings at six depths with invented scatter; least squares with its covariance."""
    depths = numpy.array([180.0, 210.0, 240.0, 270.0, 300.0, 330.0])
    scatter = numpy.array([0.0004, -0.0007, 0.0005, -0.0002, 0.0006, -0.0005])
    readings = 134.0 - 0.09 * numpy.exp(-(depths - 180.0) / 31.0) + scatter
    readings = numpy.round(readings, 5)

    def curve(x, limiting, amplitude, length):
        return limiting + amplitude * numpy.exp((depths.mean() - x) / length)

    p, cov = optimize.curve_fit(curve, depths, readings, p0=[134.0, -0.01, 30.0], xtol=1e-14, ftol=1e-14, gtol=1e-14)
    residual = readings - curve(depths, *p)
    planned = 320.0
    g = numpy.array([0, math.exp((depths.mean() - planned) / p[2]), -p[1] * math.exp((depths.mean() - planned) / p[2]) * (depths.mean() - planned) / p[2] ** 2])
    return {
        "depths": list(depths),
        "readings": list(readings),
        "limiting": p[0],
        "amplitude": p[1],
        "conductionLength": p[2],
        "residualDeviation": math.sqrt((residual**2).sum() / 3),
        "planned": planned,
        "plannedError": p[1] * math.exp((depths.mean() - planned) / p[2]),
        "plannedStandardUncertainty": math.sqrt(g @ cov @ g),
    }


def autoregressive():
    """One long AR(1) series, and what theory gives for the mean: n_eff = n(1 - phi)/(1 + phi)."""
    phi, n = 0.6, 4000
    e = numpy.random.Generator(numpy.random.PCG64(20260302)).normal(size=n + 200)
    y = signal.lfilter([1], [1, -phi], e)[200:]
    return {"phi": phi, "seed": "PCG64(20260302), 4200 normals, the first 200 dropped after filtering", "first": list(numpy.round(y[:500], 6)), "theory": (1 - phi) / (1 + phi)}


result = {
    "$about": f"Written by bath.py with numpy {numpy.__version__} and scipy {scipy.__version__}.",
    "rosner": deviates(FIGURES["rosner"]["values"], 5),
    "grubbs": deviates(FIGURES["grubbs"]["values"], 1),
    "criticalDeviates": [{"n": n, "critical": critical(n, 0.05)} for n in (3, 5, 8, 10, 14, 30, 100)],
    "neighbours": [neighbours(n, rho) for n, rho in ((2, 0.25), (3, 0.25), (6, 0.25), (10, 0.2), (8, 0.0))],
    "varianceRatio": [
        {"ratio": r, "today": a, "history": b, "probability": float(stats.f.sf(r * r, a, b))}
        for r, a, b in ((1.0, 9, 30), (1.5, 9, 30), (2.0, 5, 40), (0.7, 7, 12), (1.3, 19, 8), (2.5, 3, 4))
    ],
    "stem": stem(),
    "autoregressive": autoregressive(),
}
(HERE / "bath-computed.json").write_text(json.dumps(result, indent=1) + "\n", encoding="utf8")
