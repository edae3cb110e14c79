"""Reference figures for sums of independent quantities: a convolution in NumPy at 2**22 cells.

Independent of the engine: probabilities of cells come from distribution functions written here (standard library and
NumPy), cells are put at their middles with nothing kept of their moments, and the plain transform of NumPy does the
rest. The error of that plain rule goes with the square of the step; what 2**22 and 2**21 cells differ by is in the file.

Run: python3 tests/reference/convolution.py > tests/reference/convolution.json
"""

import json
import math
import sys

import numpy as np

CELLS = 2**22


def phi(x):
    """Standard normal distribution function at many points."""
    return 0.5 * ERFC(-x / math.sqrt(2))


ERFC = np.vectorize(math.erfc, otypes=[float])


def rectangular(a):
    return lambda x: np.clip((x + a) / (2 * a), 0, 1)


def triangular(a):
    def F(x):
        z = np.clip(x / a, -1, 1)
        return np.where(z < 0, (1 + z) ** 2 / 2, 1 - (1 - z) ** 2 / 2)

    return F


def arcsine(a):
    return lambda x: 0.5 + np.arcsin(np.clip(x / a, -1, 1)) / math.pi


def exponential(mean):
    """About its mean."""
    return lambda x: np.where(x > -mean, -np.expm1(-np.maximum(x + mean, 0) / mean), 0.0)


def trapezoidal(a, ratio):
    """The sum of two rectangulars: its density is made of four ramps, so that F is of four half squares."""
    wide, narrow = a * (1 + ratio) / 2, a * (1 - ratio) / 2

    def half_square(z):
        return np.maximum(z, 0) ** 2 / 2

    def F(x):
        z = np.clip(x, -a, a)
        ends = half_square(z + a) - half_square(z + wide - narrow) - half_square(z - wide + narrow)
        return ends / (4 * wide * narrow)

    return F


def curvilinear_trapezoid(w, d):
    """A rectangular whose half-width h is itself rectangular, w - d to w + d: F(x) = mean of (1 + x/h)/2 held to [0, 1]."""
    least, most = w - d, w + d

    def F(x):
        z = np.clip(np.abs(x), 0, most)
        covered = np.maximum(z, least)
        upper = ((covered - least) + ((most - covered) + z * np.log(most / covered)) / 2) / (2 * d)
        return np.where(x < 0, 1 - upper, upper)

    return F


def poisson(step, mean):
    """Counts times a step, about their mean; a whole mean and a step that is a power of 2 put counts on middles of cells."""
    assert mean == int(mean) and math.log2(step) == int(math.log2(step))
    below = np.cumsum([0.0] + [math.exp(k * math.log(mean) - mean - math.lgamma(k + 1)) for k in range(400)])

    def F(x):
        return below[np.clip(np.floor(x / step + mean).astype(int) + 1, 0, 400)]

    return F


def student(scale, nu):
    """Odd degrees of freedom in closed form: Abramowitz and Stegun, 26.7.3."""
    assert nu % 2 == 1

    def F(x):
        theta = np.arctan(x / scale / math.sqrt(nu))
        c = np.cos(theta)
        power = c.copy()
        total = c.copy() if nu > 1 else np.zeros_like(c)
        for k in range(3, nu - 1, 2):
            power = power * ((k - 1) / k) * c * c
            total = total + power
        return 0.5 + (theta + np.sin(theta) * total) / math.pi

    return F


def gaussian(sd):
    return lambda x: phi(x / sd)


def ends(parts, probabilities, half_width, cells):
    """The x with P(X <= x) = p for each p, by bins of equal width."""
    step = 2 * half_width / cells
    edges = (np.arange(cells + 1) - cells / 2 - 0.5) * step
    product = 1.0
    for F in parts:
        values = F(edges)
        mass = np.diff(values)
        mass[0] += values[0]
        mass[-1] += 1 - values[-1]
        product = product * np.fft.rfft(np.fft.ifftshift(mass))
    total = np.fft.fftshift(np.fft.irfft(product, cells))
    below = np.concatenate([[0.0], np.cumsum(total)])
    return [inside(edges, below, p) for p in probabilities]


def inside(edges, below, p):
    """The place between two edges, by a cubic through four of them."""
    i = int(np.searchsorted(below, p))
    xs = edges[i - 2 : i + 2]
    ys = below[i - 2 : i + 2]
    low, high = xs[1], xs[2]
    for _ in range(100):
        middle = (low + high) / 2
        value = sum(
            ys[j] * math.prod((middle - xs[k]) / (xs[j] - xs[k]) for k in range(4) if k != j) for j in range(4)
        )
        low, high = (middle, high) if value < p else (low, middle)
    return (low + high) / 2


def sixty():
    terms = []
    for i in range(60):
        if i % 3 == 0:
            terms.append(("normal", 1 + i % 5))
        elif i % 3 == 1:
            terms.append(("rectangular", 1 + i % 7))
        else:
            terms.append(("t", 0.2 + i % 4, 3 + 2 * (i % 5)))
    return terms


SUMS = {
    "twelve inputs of a bath": [
        ("normal", 1),
        ("normal", 0.2),
        ("normal", 0.4),
        ("normal", 0.1),
        ("normal", 0.7),
        ("normal", 0.02),
        ("rectangular", math.sqrt(3)),
        ("rectangular", 0.5),
        ("rectangular", 0.3),
        ("rectangular", 0.05),
        ("t", 1, 5),
        ("t", 0.3, 9),
    ],
    "one rectangular dominates": [("rectangular", 3), ("rectangular", 0.4), ("normal", 0.1), ("t", 0.1, 7)],
    "an arc sine with a normal": [("arcsine", 1), ("normal", 0.1)],
    "two arc sines and a triangular": [("arcsine", 1), ("arcsine", 0.7), ("triangular", 0.5)],
    "exponentials with a rectangular": [("exponential", 1), ("exponential", 0.3), ("rectangular", 0.5)],
    "two t of three degrees of freedom": [("t", 1, 3), ("t", 1, 3)],
    "a narrow t in a wide sum": [("t", 0.004, 3), ("rectangular", 1), ("triangular", 1)],
    "a trapezoid with a normal": [("trapezoidal", 1, 0.4), ("normal", 0.1)],
    "a curvilinear trapezoid dominates": [("curvilinear-trapezoid", 1, 0.3), ("rectangular", 0.2)],
    "trapezoids of both kinds with a t": [("trapezoidal", 1, 0.7), ("curvilinear-trapezoid", 0.8, 0.1), ("t", 0.2, 5)],
    "few counts with a rectangular and a normal": [("poisson", 0.5, 4), ("rectangular", 0.4), ("normal", 0.2)],
    "many counts with a trapezoid": [("poisson", 0.125, 36), ("trapezoidal", 0.5, 0.5)],
    "sixty inputs": sixty(),
}

KINDS = {
    "normal": gaussian,
    "rectangular": rectangular,
    "triangular": triangular,
    "arcsine": arcsine,
    "exponential": exponential,
    "trapezoidal": trapezoidal,
    "curvilinear-trapezoid": curvilinear_trapezoid,
    "poisson": poisson,
    "t": student,
}

PROBABILITIES = [0.025, 0.975, 0.995]


VARIANCES = {
    "normal": lambda sd: sd**2,
    "rectangular": lambda a: a**2 / 3,
    "triangular": lambda a: a**2 / 6,
    "arcsine": lambda a: a**2 / 2,
    "exponential": lambda mean: mean**2,
    "trapezoidal": lambda a, ratio: a**2 * (1 + ratio**2) / 6,
    "curvilinear-trapezoid": lambda w, d: w**2 / 3 + d**2 / 9,
    "poisson": lambda step, mean: step**2 * mean,
    "t": lambda scale, nu: scale**2 * (nu / (nu - 2)),
}


def variance(kind, *sizes):
    return VARIANCES[kind](*sizes)


def half_width_of(terms):
    u = math.sqrt(sum(variance(*term) for term in terms))
    if any(term[0] == "poisson" for term in terms):
        return 64
    heavy = sum(1 for term in terms if term[0] == "t" and term[2] <= 3)
    return u * (400 if heavy > 1 else 60)


def main():
    cases = []
    for name, terms in SUMS.items():
        # Normals are one normal, so that the largest transforms are made once.
        sd = math.sqrt(sum(term[1] ** 2 for term in terms if term[0] == "normal"))
        parts = [KINDS[kind](*sizes) for kind, *sizes in terms if kind != "normal"]
        if sd > 0:
            parts.append(gaussian(sd))
        u = math.sqrt(sum(variance(*term) for term in terms))
        fine = ends(parts, PROBABILITIES, half_width_of(terms), CELLS)
        coarse = ends(parts, PROBABILITIES, half_width_of(terms), CELLS // 2)
        cases.append(
            {
                "name": name,
                "terms": [list(term) for term in terms],
                "standardUncertainty": u,
                "quantiles": [list(pair) for pair in zip(PROBABILITIES, fine)],
                "twoLatticesDifferBy": max(abs(a - b) for a, b in zip(fine, coarse)),
            }
        )
        print(name, file=sys.stderr)
    json.dump(
        {
            "madeBy": "tests/reference/convolution.py",
            "python": sys.version.split()[0],
            "numpy": np.__version__,
            "cells": CELLS,
            "cases": cases,
        },
        sys.stdout,
        indent=2,
    )
    sys.stdout.write("\n")


main()
