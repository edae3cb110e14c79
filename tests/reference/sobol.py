#!/usr/bin/python3
"""Writes sobol.json: Sobol' points of another implementation.

Run: /usr/bin/python3 sobol.py > sobol.json     (made with SciPy 1.10, NumPy 1.24)

scipy.stats.qmc.Sobol with scramble=False has the same published direction numbers (Joe and Kuo, new-joe-kuo-6), its own
recurrence, and the same Gray code order. Points 0 to 1023 have ten binary digits, so that 1024 times a coordinate is a
whole number: these figures are exact.

The gains are of the mean over its scrambled points (a linear matrix scramble with a digital shift, of the same variance
as nested uniform scrambling: J. Matousek, J. Complexity 14 (1998) 527-556) of Sobol's g-function, with its known mean
and variance; 512 fixed seeds.
"""
import json

import numpy
import scipy
from scipy.stats import qmc

POINTS = 1024
DIMENSIONS = 161
SHOWN = [0, 1, 2, 3, 4, 5, 6, 7, 8, 100, 511, 512, 767, 1022, 1023]
FAR = 123456

points = qmc.Sobol(d=DIMENSIONS, scramble=False).random(POINTS) * POINTS
whole = points.astype(numpy.int64)
assert (whole == points).all()
places = numpy.arange(1, POINTS + 1)
far = qmc.Sobol(d=DIMENSIONS, scramble=False, bits=30)
far.fast_forward(FAR)


A = numpy.array([0, 1, 4.5, 9, 99, 99, 99, 99])
VARIANCE = numpy.prod(1 + 1 / (3 * (1 + A) ** 2)) - 1


def gain(m):
    """Variance of random trials' mean over the mean square error of 2^m scrambled points."""
    errors = []
    for seed in range(512):
        x = qmc.Sobol(d=len(A), scramble=True, seed=seed).random_base2(m)
        errors.append(numpy.prod((numpy.abs(4 * x - 2) + A) / (1 + A), axis=1).mean() - 1)
    return float(VARIANCE / 2**m / numpy.mean(numpy.square(errors)))


out = {
    "source": f"scipy.stats.qmc.Sobol, scramble=False (SciPy {scipy.__version__}, NumPy {numpy.__version__})",
    "meaning": {
        "rows": "1024 times the coordinates of some points, by index",
        "sums": "sum over points 0 to 1023 of (index + 1) times 1024 times the coordinate, by dimension",
        "products": "the same of the product of the coordinates of neighbouring dimensions, times 1024 again",
        "gains": "of Sobol's g-function with these a, for 2^m points, by m",
        "far": "2^30 times the coordinates of three points from index `first` on",
    },
    "points": POINTS,
    "dimensions": DIMENSIONS,
    "rows": {str(i): whole[i].tolist() for i in SHOWN},
    "sums": (places @ whole).tolist(),
    "products": (places @ (whole[:, :-1] * whole[:, 1:])).tolist(),
    "gains": {"a": A.tolist(), "byPower": {str(m): round(gain(m)) for m in (8, 10, 12)}},
    "far": {"first": FAR, "rows": (far.random(3) * 2**30).astype(numpy.int64).tolist()},
}
print(json.dumps(out, separators=(",", ":")).replace('],"', '],\n"').replace("],[", "],\n["))
