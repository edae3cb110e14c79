#!/usr/bin/python3
"""Computes platinum-computed.json: figures no document prints, by another route than the code under test.

Plain 50-digit decimal arithmetic; derivatives by central differences, inverses by bisection and secant, least squares
by normal equations. Only the coefficients are shared with the code: they are those of the documents.

Run: /usr/bin/python3 platinum.py > platinum-computed.json
"""
import json
from decimal import Decimal as D, getcontext

getcontext().prec = 50

# ITS-90, Metrologia 27 (1990) 3-10, table 4.
A = [D(s) for s in "-2.13534729 3.18324720 -1.80143597 0.71727204 0.50344027 -0.61899395 -0.05332322 0.28021362 0.10715224 -0.29302865 0.04459872 0.11868632 -0.05248134".split()]
C = [D(s) for s in "2.78157254 1.64650916 -0.13714390 -0.00649767 -0.00234444 0.00511868 0.00187982 -0.00204472 -0.00046122 0.00045724".split()]
POINTS = {"Ar": "83.8058", "Hg": "234.3156", "Ga": "302.9146", "In": "429.7485", "Sn": "505.078", "Zn": "692.677",
          "Al": "933.473", "Ag": "1234.93", "O2": "54.3584", "Ne": "24.5561", "H2": "13.8033"}
POINTS = {k: D(v) for k, v in POINTS.items()}
TPW = D("273.16")


def poly(c, x):
    total = D(0)
    for a in reversed(c):
        total = total * x + a
    return total


def wr(T):
    if T < TPW:
        return poly(A, ((T / TPW).ln() + D("1.5")) / D("1.5")).exp()
    return poly(C, (T - D("754.15")) / D(481))


def wr_inverse(w, guess):
    lo, hi = guess - D("0.5"), guess + D("0.5")
    f = lambda T: wr(T) - w
    a, b = lo, hi
    fa, fb = f(a), f(b)
    for _ in range(60):
        if fb == fa:
            break
        a, fa, b = b, fb, b - fb * (b - a) / (fb - fa)
        fb = f(b)
        if abs(a - b) < D("1e-42"):
            break
    return b


# Deviation functions as lists of terms; table 5.
FORMS = {
    "2": (["Ne", "O2", "Ar", "Hg", "H2"], [lambda w: w - 1, lambda w: (w - 1) ** 2, lambda w: w.ln(), lambda w: w.ln() ** 2, lambda w: w.ln() ** 3]),
    "3": (["O2", "Ar", "Hg"], [lambda w: w - 1, lambda w: (w - 1) ** 2, lambda w: w.ln() ** 2]),
    "4": (["Ar", "Hg"], [lambda w: w - 1, lambda w: (w - 1) * w.ln()]),
    "5": (["Hg", "Ga"], [lambda w: w - 1, lambda w: (w - 1) ** 2]),
    "7": (["Sn", "Zn", "Al"], [lambda w: w - 1, lambda w: (w - 1) ** 2, lambda w: (w - 1) ** 3]),
    "8": (["Sn", "Zn"], [lambda w: w - 1, lambda w: (w - 1) ** 2]),
    "9": (["In", "Sn"], [lambda w: w - 1, lambda w: (w - 1) ** 2]),
    "11": (["Ga"], [lambda w: w - 1]),
}


def solve(m, y):
    n = len(y)
    rows = [list(r) + [v] for r, v in zip(m, y)]
    for i in range(n):
        p = max(range(i, n), key=lambda r: abs(rows[r][i]))
        rows[i], rows[p] = rows[p], rows[i]
        for r in range(n):
            if r != i:
                k = rows[r][i] / rows[i][i]
                rows[r] = [x - k * z for x, z in zip(rows[r], rows[i])]
    return [rows[i][n] / rows[i][i] for i in range(n)]


def deviation(form, c, w):
    return sum(k * f(w) for k, f in zip(c, form))


def w_at(form, c, T):
    w = wr(T)
    for _ in range(60):
        w = wr(T) + deviation(form, c, w)
    return w


def coefficients(points, form, ws):
    return solve([[f(w) for f in form] for w in ws], [w - wr(POINTS[p]) for p, w in zip(points, ws)])


def propagation():
    """K of t in use for an error of 1 K in the realisation of each fixed point, and of the water triple point."""
    cases = [("4", ["-2.5e-4", "-1.2e-5"], ["-189.3442", "-150", "-100", "-40", "-10"]),
             ("5", ["-2.4e-4", "-1.0e-5"], ["-38.8344", "-20", "10", "25", "29.7646"]),
             ("7", ["-2.4e-4", "-1.5e-5", "3e-6"], ["20", "150", "300", "500", "660.323"]),
             ("8", ["-2.3e-4", "-1.0e-5"], ["10", "72", "134", "231.928", "350", "419.527"]),
             ("9", ["-2.3e-4", "-1.0e-5"], ["10", "72", "134", "231.928"]),
             ("11", ["-2.3e-4"], ["10", "20", "29.7646"])]
    out = []
    h = D("1e-14")
    for number, c, temperatures in cases:
        c = [D(x) for x in c]
        points, form = FORMS[number]
        ws = [w_at(form, c, POINTS[p]) for p in points]
        back = coefficients(points, form, ws)
        assert all(abs(x - y) < D("1e-38") for x, y in zip(back, c))
        # Slope of W for this thermometer: an error of dT at a point is an error W'(T) dT of its resistance.
        slope = lambda T: (w_at(form, c, T + h) - w_at(form, c, T - h)) / (2 * h)
        slope_tpw = (w_at(form, c, TPW + h) - w_at(form, c, TPW)) / h
        for t in temperatures:
            T = D(t) + D("273.15")
            w = w_at(form, c, T)

            def use(ws2, w2):
                c2 = coefficients(points, form, ws2)
                return wr_inverse(w2 - deviation(form, c2, w2), T)

            row = {"subRange": number, "t": float(t), "coefficients": [float(x) for x in c], "W": float(w), "points": {}}
            for i, p in enumerate(points):
                d = slope(POINTS[p]) * h
                up = [x + (d if j == i else 0) for j, x in enumerate(ws)]
                down = [x - (d if j == i else 0) for j, x in enumerate(ws)]
                row["points"][p] = float((use(up, w) - use(down, w)) / (2 * h))
            d = slope_tpw * h
            # One R(TPW) in every ratio, that in use too; or one for the calibration alone.
            row["tripleCommon"] = float((use([x / (1 + d) for x in ws], w / (1 + d)) - use([x / (1 - d) for x in ws], w / (1 - d))) / (2 * h))
            row["tripleCalibration"] = float((use([x / (1 + d) for x in ws], w) - use([x / (1 - d) for x in ws], w)) / (2 * h))
            row["tripleInUse"] = float((use(ws, w / (1 + d)) - use(ws, w / (1 - d))) / (2 * h))
            out.append(row)
    return out


def fit():
    """R0, A, B, C from five points with common and independent errors: generalised least squares by normal equations."""
    t = [D(x) for x in "-39.9873 0.0118 4.0206 72.0064 134.0127".split()]
    R = [D(x) for x in "84.2931 100.0213 101.5866 127.8558 151.3472".split()]
    u_common_t = [D(x) for x in "0.004 0.003 0.003 0.004 0.006".split()]  # reference: one error, this many C at each point
    u_own_t = [D(x) for x in "0.003 0.001 0.001 0.002 0.004".split()]  # bath, each its own
    u_gain = D("5e-6")  # bridge: relative, common
    u_own_R = D("0.0004")  # bridge: each its own, ohm
    slope = [D("0.3957") + D("-0.00015") * (x + 40) for x in t]  # stated, so that both sides take the same weights
    n = len(t)
    V = [[slope[i] * slope[j] * u_common_t[i] * u_common_t[j] + R[i] * R[j] * u_gain * u_gain for j in range(n)] for i in range(n)]
    for i in range(n):
        V[i][i] += (slope[i] * u_own_t[i]) ** 2 + u_own_R ** 2
    X = [[D(1), x, x * x, (x - 100) * x ** 3 if x < 0 else D(0)] for x in t]
    result = {"t": [float(x) for x in t], "R": [float(x) for x in R], "slope": [float(x) for x in slope], "V": [[float(x) for x in r] for r in V]}
    Vi = inverse(V)
    for name, p in (("R0,A,B,C", 4), ("R0,A,B", 3)):
        # Without C of its own the term is held at that of IEC 60751: it multiplies R0.
        Xp = [[r[0] + (D("-4.183e-12") * r[3] if p == 3 else 0)] + r[1:p] for r in X]
        N = [[sum(Xp[i][a] * Vi[i][j] * Xp[j][b] for i in range(n) for j in range(n)) for b in range(p)] for a in range(p)]
        g = [sum(Xp[i][a] * Vi[i][j] * R[j] for i in range(n) for j in range(n)) for a in range(p)]
        q = solve(N, g)
        Q = inverse(N)
        residual = [R[i] - sum(Xp[i][a] * q[a] for a in range(p)) for i in range(n)]
        chi = sum(residual[i] * Vi[i][j] * residual[j] for i in range(n) for j in range(n))
        J = [[D(1) if a == b == 0 else D(0) for b in range(p)] for a in range(p)]
        for a in range(1, p):
            J[a][0] = -q[a] / q[0] ** 2
            J[a][a] = 1 / q[0]
        cov = [[sum(J[a][i] * Q[i][j] * J[b][j] for i in range(p) for j in range(p)) for b in range(p)] for a in range(p)]
        result[name] = {"coefficients": [float(q[0])] + [float(x / q[0]) for x in q[1:]], "covariance": [[float(x) for x in r] for r in cov],
                        "residuals": [float(x) for x in residual], "chiSquare": float(chi)}
    return result


def inverse(m):
    n = len(m)
    columns = [solve(m, [D(1) if i == j else D(0) for i in range(n)]) for j in range(n)]
    return [[columns[j][i] for j in range(n)] for i in range(n)]


def exact_inverse():
    """T of W_r at temperatures off the grid of the table, with W_r in full."""
    ts = "-259.3 -255 -248.6 -233.21 -195.798 -183.5 -78.477 -0.5 -0.0001 0.02 1 36.6 121.1 250 444.6 555.5 777.7 961.7".split()
    return [[float(t), float(wr(D(t) + D("273.15")))] for t in ts]


print(json.dumps({
    "source": "computed by platinum.py in 50-digit decimal arithmetic from the coefficients of ITS-90 (Metrologia 27 (1990) 3-10, tables 4 and 5) and IEC 60751, clause 4; thermometers and readings are invented",
    "referenceFunction": exact_inverse(),
    "propagation": propagation(),
    "fit": fit(),
}, indent=1))
