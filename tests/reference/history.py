#!/usr/bin/python3
"""Drift lines of invented calibrations by generalised least squares, from numpy, written to history.json.

    /usr/bin/python3 tests/reference/history.py

Where chi-squared fails at 5 %, a variance is added to each calibration for which chi-squared is its degrees of freedom
(brentq of scipy). The covariance between slope and last value is propagated from the matrix that turns values into
parameters, not from an identity.
"""
import json
import pathlib

import numpy
from scipy.optimize import brentq
from scipy.stats import chi2, norm, t

HERE = pathlib.Path(__file__).parent
ALPHA, P = 0.05, 0.95

CASES = {
    "consistent": ([0, 372, 750, 1107, 1492], [1.2, 1.9, 2.1, 3.4, 3.6], [0.4, 0.4, 0.5, 0.3, 0.3], 0.2, 1900),
    "scattered": ([0, 367, 729, 1099, 1464, 1827], [2.2, 2.9, 3.9, 4.4, 2.3, 2.5], [0.25] * 6, 0.1, 1960),
    "falling": ([0, 181, 365, 548, 731, 913, 1096], [-5.0, -6.1, -6.6, -8.4, -8.2, -10.3, -10.9], [0.1, 0.2, 0.1, 0.2, 0.1, 0.2, 0.1], 0.3, 1280),
}


def solve(day, y, V):
    X = numpy.column_stack([numpy.ones(len(day)), day])
    W = numpy.linalg.inv(V)
    G = numpy.linalg.inv(X.T @ W @ X) @ X.T @ W
    a = G @ y
    r = y - X @ a
    return a, G, float(r @ W @ r)


def case(day, y, u, shared, use):
    day, y, u = numpy.array(day, float), numpy.array(y), numpy.array(u)
    own = numpy.diag(u * u)
    nu = len(day) - 2
    _, _, q = solve(day, y, own)
    p = float(chi2.sf(q, nu))
    tau2 = 0.0
    if p < ALPHA:
        tau2 = brentq(lambda v: solve(day, y, own + v * numpy.eye(len(day)))[2] - nu, 0, 100, xtol=1e-15, rtol=1e-14)
    V = own + tau2 * numpy.eye(len(day)) + shared**2
    a, G, _ = solve(day, y, V)
    C = G @ V @ G.T
    row = numpy.array([1, use])
    last = len(day) - 1
    days = use - day[last]
    drift = (days**2 * C[1, 1] + tau2) ** 0.5
    k = float(t.ppf((1 + P) / 2, nu) if tau2 > 0 else norm.ppf((1 + P) / 2))
    return {
        "day": day.tolist(),
        "value": y.tolist(),
        "u": u.tolist(),
        "shared": shared,
        "use": use,
        "chi2": q,
        "p": p,
        "excess": tau2**0.5,
        "a": float(a[0]),
        "b": float(a[1]),
        "covariance": C.tolist(),
        "k": k,
        "prediction": float(row @ a),
        "u_prediction": float((row @ C @ row + tau2) ** 0.5),
        "drift": float(days * a[1]),
        "u_drift": float(drift),
        "correlation": float(days * (G @ V)[1, last] / (drift * V[last, last] ** 0.5)),
    }


cases = {name: case(*given) for name, given in CASES.items()}
(HERE / "history.json").write_text(json.dumps({"numpy": numpy.__version__, "cases": cases}, indent=1) + "\n")
