#!/usr/bin/env python3
"""Calibration of standard platinum thermometers by comparison: R(0.01 C) and the deviation function of ITS-90 by
generalised least squares, the band of the curve between the points. Independent of Trialband: NumPy alone, the reference
function inverted by bisection, the fit by Gauss-Newton on all parameters at once, sensitivities by differences.
Coefficients of the reference function: H. Preston-Thomas, Metrologia 27 (1990) 3-10, table 4. Data invented.
Prints standard-thermometer.json."""
import json
import numpy as np

A = [-2.13534729, 3.18324720, -1.80143597, 0.71727204, 0.50344027, -0.61899395, -0.05332322, 0.28021362, 0.10715224,
     -0.29302865, 0.04459872, 0.11868632, -0.05248134]
C = [2.78157254, 1.64650916, -0.13714390, -0.00649767, -0.00234444, 0.00511868, 0.00187982, -0.00204472, -0.00046122,
     0.00045724]


LOWER = False  # Equation (9a) for sub-ranges up to 273.16 K, (10a) for those from 273.15 K up.


def reference(t):
    T = t + 273.15
    if LOWER:
        x = (np.log(T / 273.16) + 1.5) / 1.5
        return float(np.exp(sum(a * x**i for i, a in enumerate(A))))
    x = (T - 754.15) / 481
    return float(sum(c * x**i for i, c in enumerate(C)))


def inverse(W):
    low, high = -250.0, 900.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        if reference(middle) < W:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


TERMS = {
    "4": [lambda W: W - 1, lambda W: (W - 1) * np.log(W)],
    "7": [lambda W: W - 1, lambda W: (W - 1) ** 2, lambda W: (W - 1) ** 3],
    "8": [lambda W: W - 1, lambda W: (W - 1) ** 2],
}


def departure(terms, c, W):
    return sum(ck * f(W) for ck, f in zip(c, terms))


def ratio(terms, c, t):
    W = Wr = reference(t)
    for _ in range(12):
        W = Wr + departure(terms, c, W)
    return W


def fit(terms, t, R, V):
    """Minimises r'V^-1 r with r = R - Rtp (Wr(t) + dev(R/Rtp)): Gauss-Newton in (Rtp, c) with differences."""
    L = np.linalg.cholesky(V)
    Wr = np.array([reference(x) for x in t])

    def residuals(p):
        return R - p[0] * (Wr + departure(terms, p[1:], R / p[0]))

    p = np.concatenate([[float(np.mean(R / Wr))], np.zeros(len(terms))])
    for _ in range(6):
        r = residuals(p)
        steps = [1e-4 * p[0]] + [1e-4] * len(terms)
        J = np.array([(residuals(p + s * e) - residuals(p - s * e)) / (2 * s) for s, e in zip(steps, np.eye(len(p)))]).T
        d, *_ = np.linalg.lstsq(np.linalg.solve(L, J), np.linalg.solve(L, r), rcond=None)
        p = p - d
    # From there, the fit that is linear in (Rtp, Rtp c) with W from the last Rtp: columns Wr and the terms.
    for _ in range(6):
        W = R / p[0]
        X = np.array([Wr] + [f(W) for f in terms]).T
        q, *_ = np.linalg.lstsq(np.linalg.solve(L, X), np.linalg.solve(L, R), rcond=None)
        p = np.concatenate([[q[0]], q[1:] / q[0]])
    return p, residuals(p)


def slope(terms, p, t, h=1e-3):
    return p[0] * (ratio(terms, p[1:], t + h) - ratio(terms, p[1:], t - h)) / (2 * h)


def case(sub_range, nominal, own, U, drift, readout, uR, stability, seed, at):
    global LOWER
    LOWER = sub_range == "4"
    rng = np.random.default_rng(seed)
    terms = TERMS[sub_range]
    n = len(nominal)
    reading = [round(t + float(0.004 * rng.standard_normal()), 4) for t in nominal]
    correction = round(float(0.002 * rng.standard_normal()), 4)
    t0 = np.array(reading) + correction
    R0 = np.array([round(own[0] * ratio(terms, own[1:], x) + float(uR * rng.standard_normal()), 7) for x in t0])
    # Inputs: certificate (one), drift (one), readout in ohm (one), stability (each), own resistance (each).
    u = np.concatenate([[U / 2, drift / np.sqrt(3), readout / np.sqrt(3)], np.array(stability) / np.sqrt(3), np.full(n, uR)])

    def at_inputs(x):
        t = t0 + x[0] + x[1] + x[3 : 3 + n]
        R = R0 + x[2] + x[3 + n :]
        return t, R

    ols, _ = fit(terms, t0, R0, np.eye(n))
    g = np.array([slope(terms, ols, x) for x in t0])
    to_residual = np.hstack([-g[:, None], -g[:, None], np.ones((n, 1)), -np.diag(g), np.eye(n)])
    V = to_residual @ np.diag(u**2) @ to_residual.T
    p, r = fit(terms, t0, R0, V)

    def outcome(x):
        t, R = at_inputs(x)
        q, _ = fit(terms, t, R, V)
        errors = [inverse(R[i] / own[0]) - t[i] for i in range(n)]
        curve = [inverse(q[0] * ratio(terms, q[1:], a) / own[0]) - a for a in at]
        return np.concatenate([errors, q, curve])

    zero = np.zeros(len(u))
    J = np.array([(outcome(zero + h * e) - outcome(zero - h * e)) / (2 * h) for h, e in zip(np.maximum(u, 1e-6), np.eye(len(u)))]).T
    cov = J @ np.diag(u**2) @ J.T
    k = len(p)
    return {
        "subRange": sub_range, "nominal": nominal, "reading": reading, "correction": correction, "U": U, "drift": drift,
        "readout": readout, "uR": uR, "stability": stability, "resistance": [float(x) for x in R0], "nominalResistance": own[0],
        "made": own,
        "errors": [float(x) for x in outcome(zero)[:n]],
        "errorUncertainties": [float(x) for x in np.sqrt(np.diag(cov)[:n])],
        "slopes": [float(x) for x in g],
        "covarianceOfPoints": V.tolist(),
        "coefficients": [float(x) for x in p],
        "covariance": cov[n : n + k, n : n + k].tolist(),
        "chiSquare": float(r @ np.linalg.solve(V, r)),
        "degreesOfFreedom": n - k,
        "band": [{"t": a, "error": float(e), "u": float(s)} for a, e, s in
                 zip(at, outcome(zero)[n + k :], np.sqrt(np.diag(cov)[n + k :]))],
    }


cases = [
    case("8", [0.01, 60.0, 120.0, 160.0, 200.0], [25.4987, -2.1e-4, -1.5e-5], 0.004, 0.001, 2e-5, 8e-6,
         [0.001, 0.001, 0.0015, 0.002, 0.003], 20261129, [0.01, 30.0, 90.0, 180.0]),
    case("7", [0.01, 60.0, 120.0, 180.0, 240.0, 300.0], [25.4987, -2.1e-4, -1.5e-5, 3e-6], 0.004, 0.001, 2e-5, 8e-6,
         [0.001, 0.001, 0.0015, 0.002, 0.003, 0.004], 7, [0.01, 90.0, 270.0]),
    case("4", [-80.0, -60.0, -38.8, -20.0, 0.01], [100.0123, -3.2e-4, 2.4e-5], 0.006, 0.002, 8e-5, 3e-5,
         [0.003, 0.002, 0.002, 0.0015, 0.001], 4, [-80.0, -50.0, -10.0]),
]
print(json.dumps(cases, indent=1))
