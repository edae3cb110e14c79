#!/usr/bin/python3
"""Largest consistent subset and median of laboratories' results, from numpy, written to laboratories.json.

    /usr/bin/python3 tests/reference/laboratories.py

The subset by trying every subset, its weighted mean by generalised least squares; the median by ten million trials of a
multivariate normal; chi-squared quantiles from scipy. Data: entries of interlaboratory.json, which name their documents.
"""
import itertools
import json
import pathlib

import numpy
from scipy.stats import chi2

HERE = pathlib.Path(__file__).parent
ENTRIES = {entry["id"]: entry for entry in json.loads((HERE / "interlaboratory.json").read_text())}
TRIALS = 10_000_000
CHUNK = 500_000
ALPHA = 0.05


def mean_of(x, V, members):
    part = V[numpy.ix_(members, members)]
    ones = numpy.ones(len(members))
    inverse = numpy.linalg.inv(part)
    variance = 1 / (ones @ inverse @ ones)
    shift = x[members[0]]
    off = x[list(members)] - shift
    mean = variance * (ones @ inverse @ off)
    rest = off - mean
    return shift + mean, variance, rest @ inverse @ rest, variance * (inverse @ ones)


def largest(x, V):
    n = len(x)
    for size in range(n, 1, -1):
        found = []
        for members in itertools.combinations(range(n), size):
            value, variance, q, weights = mean_of(x, V, members)
            if q <= chi2.ppf(1 - ALPHA, size - 1):
                found.append((q, members, value, variance, weights))
        if found:
            q, members, value, variance, weights = min(found)
            row = numpy.zeros(n)
            row[list(members)] = weights
            A = numpy.eye(n) - row
            return {
                "members": list(members),
                "value": value,
                "u": variance**0.5,
                "chi2": q,
                "p": float(chi2.sf(q, size - 1)),
                "D": (x - value).tolist(),
                "u_D": numpy.sqrt(numpy.diag(A @ V @ A.T)).tolist(),
            }
    return None


def shortest(values, p=0.95):
    values = numpy.sort(values)
    span = round(p * len(values))
    widths = values[span:] - values[:-span]
    i = int(numpy.argmin(widths))
    return [float(values[i]), float(values[i + span])]


def median(x, V, seed):
    generator = numpy.random.default_rng(seed)
    shift = x[0]
    L = numpy.linalg.cholesky(V)
    medians, kept = [], []
    for _ in range(TRIALS // CHUNK):
        drawn = (x - shift) + generator.standard_normal((CHUNK, len(x))) @ L.T
        m = numpy.median(drawn, axis=1)
        medians.append(m)
        kept.append(drawn - m[:, None])
    medians, kept = numpy.concatenate(medians), numpy.concatenate(kept)
    return {
        "trials": TRIALS,
        "value": float(shift + medians.mean()),
        "u": float(medians.std(ddof=1)),
        "u_D": kept.std(axis=0, ddof=1).tolist(),
        "interval_D": [shortest(kept[:, i]) for i in range(len(x))],
    }


def case(name, x, u, correlations=(), labels=()):
    x, u = numpy.array(x, float), numpy.array(u, float)
    V = numpy.diag(u * u)
    for a, b, r in correlations:
        i, j = labels.index(a), labels.index(b)
        V[i, j] = V[j, i] = r * u[i] * u[j]
    return {"id": name, "x": x.tolist(), "u": u.tolist(), "subset": largest(x, V), "median": median(x, V, 20260302)}


kacker = ENTRIES["random-effects-kacker-2004"]["inputs"]
gravity = ENTRIES["birge-ratio-codata-2010-G"]["inputs"]
cases = [
    case("random-effects-kacker-2004", kacker["x"], [v**0.5 for v in kacker["variance"]]),
    case("birge-ratio-codata-2010-G", gravity["x"], gravity["u"], gravity["correlations"], gravity["labels"]),
]
(HERE / "laboratories.json").write_text(json.dumps({"numpy": numpy.__version__, "alpha": ALPHA, "cases": cases}, indent=1) + "\n")
