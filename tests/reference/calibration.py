#!/usr/bin/env python3
"""Generalised least squares of a calibration whose points share what they share, with C fitted and with a certificate
whose corrections are partly correlated from point to point. Independent of Trialband: NumPy alone, analytic
sensitivities. Data invented. Prints calibration.json."""
import json
import numpy as np

A0, B0, C0 = 3.9083e-3, -5.775e-7, -4.183e-12


def ratio(t, a=A0, b=B0, c=C0):
    return 1 + a * t + b * t * t + (c * (t - 100) * t**3 if t < 0 else 0.0)


def slope(t, a=A0, b=B0, c=C0):
    return a + 2 * b * t + (c * t * t * (4 * t - 300) if t < 0 else 0.0)


def inverse(r):
    t = (r - 1) / A0
    for _ in range(60):
        t -= (ratio(t) - r) / slope(t)
    return t


rng = np.random.default_rng(20261129)
nominal = [-60.0, -40.0, -20.0, 4.0, 37.0, 72.0, 134.0]
U = [0.012, 0.010, 0.009, 0.008, 0.009, 0.012, 0.016]  # of the certificate, k = 2, by point
rho = 0.7  # between any two of its corrections
drift = 0.006  # half-width, one unknown for all points
readout = 0.002  # half-width in ohm, one unknown for all points
stability = [0.004, 0.003, 0.003, 0.002, 0.003, 0.004, 0.006]  # half-widths, own
own = (100.013, 3.9079e-3, -5.779e-7, -4.21e-12)
n = len(nominal)
correction = [round(float(0.004 * rng.standard_normal()), 4) for _ in nominal]
reading = [round(t + float(0.01 * rng.standard_normal()), 4) for t in nominal]
t = np.array(reading) + np.array(correction)
R = np.array([round(own[0] * ratio(x, *own[1:]) + float(0.0008 * rng.standard_normal()), 5) for x in t])
uR = 0.0006  # normal, own, ohm


def design(with_c):
    s = 100.0  # scaled, so that the columns are alike
    cols = [np.ones(n), t / s, (t / s) ** 2]
    term = np.where(t < 0, (t - 100) * t**3, 0.0)
    if with_c:
        cols.append(term / s**4)
        return np.array(cols).T, np.array([1.0, s, s**2, s**4])
    cols[0] = 1 + C0 * term
    return np.array(cols).T, np.array([1.0, s, s**2])


def coefficients(q, scale, with_c):
    p = q / scale
    return (p[0], p[1] / p[0], p[2] / p[0], p[3] / p[0] if with_c else C0)


def fit(with_c):
    X, scale = design(with_c)
    q0 = np.linalg.lstsq(X, R, rcond=None)[0]
    R0, a, b, c = coefficients(q0, scale, with_c)
    g = np.array([R0 * slope(x, a, b, c) for x in t])
    u = np.array(U) / 2
    Vt = np.outer(u, u) * (rho + (1 - rho) * np.eye(n)) + drift**2 / 3 * np.ones((n, n)) + np.diag(np.array(stability) ** 2 / 3)
    V = np.outer(g, g) * Vt + readout**2 / 3 * np.ones((n, n)) + uR**2 * np.eye(n)
    L = np.linalg.cholesky(V)
    Xw, yw = np.linalg.solve(L, X), np.linalg.solve(L, R)
    q, *_ = np.linalg.lstsq(Xw, yw, rcond=None)
    r = yw - Xw @ q
    p = coefficients(q, scale, with_c)
    cov = np.linalg.inv(Xw.T @ Xw)
    # To R0, A, B (and C): d(q_k/s_k/R0).
    J = np.zeros((len(q), len(q)))
    J[0, 0] = 1
    for k in range(1, len(q)):
        J[k, 0] = -p[k] / p[0]
        J[k, k] = 1 / (scale[k] * p[0])
    cov = J @ cov @ J.T
    return {
        "coefficients": [float(x) for x in p[: len(q)]],
        "standardUncertainties": [float(x) for x in np.sqrt(np.diag(cov))],
        "chiSquare": float(r @ r),
        "degreesOfFreedom": n - len(q),
        "covarianceOfPoints": V.tolist(),
    }


error = [inverse(r / 100) - x for r, x in zip(R, t)]
print(
    json.dumps(
        {
            "label": "invented",
            "numpy": np.__version__,
            "inputs": {
                "nominal": nominal, "reading": reading, "resistance": R.tolist(), "correction": correction, "U": U,
                "correlation": rho, "drift": drift, "readout": readout, "stability": stability, "uR": uR,
            },
            "errors": [float(e) for e in error],
            "withC": fit(True),
            "withoutC": fit(False),
        },
        indent=1,
    )
)
