#!/usr/bin/python3
"""Writes sensitivity.json: variance-based indices of test functions, by quadrature, beside their closed forms.

Run: /usr/bin/python3 sensitivity.py > sensitivity.json     (made with SciPy 1.10, NumPy 1.24)

Closed forms are those of the papers named; the quadrature, which uses only the definitions S_i = V(E(Y|X_i))/V(Y)
and T_i = 1 - V(E(Y|X_~i))/V(Y), confirms them: the script stops where the two differ by more than 1e-10.
"""
import json
import numpy as np
from scipy.special import roots_hermitenorm, roots_legendre

PI = np.pi


def indices(f, grids):
    """Sums of f over a product of quadrature rules; each grid is (nodes, weights summing to 1)."""
    mesh = np.meshgrid(*[g[0] for g in grids], indexing="ij")
    y = f(*mesh)
    n = len(grids)

    def mean_over(values, axes):
        for axis in sorted(axes, reverse=True):
            values = np.tensordot(values, grids[axis][1], axes=([axis], [0]))
        return values

    everything = set(range(n))
    mean = float(mean_over(y, everything))
    variance = float(mean_over((y - mean) ** 2, everything))

    def closed(subset):
        """V(E(Y | X_subset))"""
        e = mean_over(y, everything - set(subset)) - mean
        out = e ** 2
        for axis in reversed(range(len(subset))):
            out = np.tensordot(out, grids[sorted(subset)[axis]][1], axes=([axis], [0]))
        return float(out)

    first = [closed([i]) / variance for i in range(n)]
    total = [1 - closed(sorted(everything - {i})) / variance for i in range(n)]
    return {"mean": mean, "variance": variance, "firstOrder": first, "total": total}


def legendre(n, low, high):
    x, w = roots_legendre(n)
    return low + (high - low) * (x + 1) / 2, w / 2


def halves(n):
    """[0, 1] in two halves, for |4x - 2|, whose kink is at 1/2."""
    a, b = legendre(n, 0, 0.5), legendre(n, 0.5, 1)
    return np.concatenate([a[0], b[0]]), np.concatenate([a[1], b[1]]) / 2


def hermite(n, mean, sd):
    x, w = roots_hermitenorm(n)
    return mean + sd * x, w / w.sum()


def agree(name, found, closed):
    for key, values in closed.items():
        for got, wanted in zip(np.atleast_1d(found[key]), np.atleast_1d(values)):
            if abs(got - wanted) > 1e-10 * max(1, abs(wanted)):
                raise SystemExit(f"{name} {key}: {got} by quadrature, {wanted} in closed form")


out = {}

a, b = 7, 0.1
found = indices(lambda x, y, z: np.sin(x) + a * np.sin(y) ** 2 + b * z ** 4 * np.sin(x), [legendre(40, -PI, PI)] * 3)
V1, V2, V13 = (1 + b * PI ** 4 / 5) ** 2 / 2, a ** 2 / 8, 8 * b ** 2 * PI ** 8 / 225
V = V1 + V2 + V13
closed = {"mean": a / 2, "variance": V, "firstOrder": [V1 / V, V2 / V, 0], "total": [(V1 + V13) / V, V2 / V, V13 / V]}
agree("Ishigami", found, closed)
out["ishigami"] = {"source": "T. Ishigami, T. Homma, ISUMA '90 (1990) 398-403: y = sin x1 + a sin^2 x2 + b x3^4 sin x1, x rectangular on (-pi, pi), a = 7, b = 0.1; closed form",
                   "a": a, "b": b, **closed}

g = [0, 0.5, 3, 9, 99]
found = indices(lambda *x: np.prod([(np.abs(4 * v - 2) + c) / (1 + c) for v, c in zip(x, g)], axis=0), [halves(3)] * len(g))
Vi = [1 / (3 * (1 + c) ** 2) for c in g]
V = np.prod([1 + v for v in Vi]) - 1
closed = {"mean": 1, "variance": V, "firstOrder": [v / V for v in Vi],
          "total": [v * np.prod([1 + w for j, w in enumerate(Vi) if j != i]) / V for i, v in enumerate(Vi)]}
agree("g", found, closed)
out["g"] = {"source": "I. M. Sobol', Math. Comput. Simul. 55 (2001) 271-280, and earlier: product of (|4x - 2| + a)/(1 + a), x rectangular on (0, 1); closed form",
            "a": g, **closed}

# JCGM 101:2008, 9.3: a model whose first-order sensitivities to the densities vanish. Deviation in mg of a 100 g weight.
out["mass calibration"] = {
    "source": "JCGM 101:2008, 9.3.2, table 5; indices by quadrature",
    **indices(lambda mr, dm, ra, rw, rr: (mr + dm) * (1 + (ra - 1.2) * (1 / rw - 1 / rr)) - 1e5,
              [hermite(12, 1e5, 0.05), hermite(12, 1.234, 0.02), legendre(12, 1.1, 1.3), legendre(12, 7000, 9000), legendre(12, 7950, 8050)]),
}

# One input at a time in the first function, the others at their estimates 0 (JCGM 101:2008, B.1).
x, w = legendre(60, -PI, PI)
alone = []
for f in (np.sin(x), a * np.sin(x) ** 2, 0 * x):
    m = float(f @ w)
    alone.append({"shift": m, "u": float(((f - m) ** 2 @ w) ** 0.5)})
out["ishigami"]["alone"] = alone

print(json.dumps(out, indent=1))
