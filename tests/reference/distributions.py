"""Writes distributions.json: quantiles, distribution functions and densities of the statements a study can make.

Every figure is computed from the definition of the distribution with mpmath at 60 digits, at the exact binary value of
the argument, and rounded to a double once. Where SciPy has the distribution its figures are compared with these, and
the greatest relative difference found is recorded beside the case: two libraries that share no code agree.

Run:  /usr/bin/python3 tests/reference/distributions.py > tests/reference/distributions.json
"""

import json
import platform
import sys

import mpmath as mp
import numpy as np
import scipy
import scipy.stats as st

mp.mp.dps = 60
ONE = mp.mpf(1)
INF = mp.inf

TAILS = [1e-12, 1e-11, 1e-10, 1e-9, 1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 5e-4, 1e-3, 2.5e-3, 5e-3]
MIDDLE = [0.01, 0.02, 0.025, 0.05, 0.075, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.48, 0.499]
PROBABILITIES = TAILS + MIDDLE + [0.5] + [1 - p for p in reversed(MIDDLE)] + [1 - p for p in reversed(TAILS)]


class Law:
    """A distribution by its lower and upper tail probability, density and support, all at 60 digits."""

    def __init__(self, lower_tail, upper_tail, density, support):
        self.lower_tail, self.upper_tail, self.density, self.support = lower_tail, upper_tail, density, support

    def quantile(self, p, start=None):
        """From a start, or by bisection, then Newton in a bracket; checked to 1e-25 of the smaller tail."""
        p = mp.mpf(p)
        lower, upper = self.support
        small = min(p, 1 - p)
        gap = (lambda x: self.lower_tail(x) - p) if p <= 0.5 else (lambda x: (1 - p) - self.upper_tail(x))
        if start is not None and lower < start < upper:
            x = mp.mpf(float(start))
            for _ in range(8):
                residual = gap(x)
                if abs(residual) <= small * mp.mpf(10) ** -30:
                    return x
                x -= residual / self.density(x)
                if not lower < x < upper:
                    break
        if lower > -INF and upper < INF:
            low, high = mp.mpf(lower), mp.mpf(upper)
        elif lower > -INF:
            low, high = mp.mpf(lower), mp.mpf(lower) + 1
            while gap(high) < 0:
                high = lower + (high - lower) * 4
        elif upper < INF:
            low, high = mp.mpf(upper) - 1, mp.mpf(upper)
            while gap(low) > 0:
                low = upper - (upper - low) * 4
        else:
            low, high = mp.mpf(-1), mp.mpf(1)
            while gap(low) > 0:
                low *= 4
            while gap(high) < 0:
                high *= 4
        for _ in range(60):
            if lower > -INF and low == lower:
                # Halve the exponent beside a limit.
                middle = lower + (high - lower) / 1024
                if gap(middle) >= 0:
                    high = middle
                    continue
                low = middle
            middle = (low + high) / 2
            if gap(middle) >= 0:
                high = middle
            else:
                low = middle
        x = (low + high) / 2
        for _ in range(60):
            residual = gap(x)
            if abs(residual) <= small * mp.mpf(10) ** -30:
                return x
            if residual > 0:
                high = x
            else:
                low = x
            f = self.density(x)
            step = x - residual / f if f > 0 else None
            x = step if step is not None and low < step < high else (low + high) / 2
        if abs(gap(x)) > small * mp.mpf(10) ** -25:
            raise ArithmeticError(f"no quantile at {p}")
        return x


def shift(law, location, scale):
    location, scale = mp.mpf(location), mp.mpf(scale)
    z = lambda x: (x - location) / scale
    return Law(
        lambda x: law.lower_tail(z(x)),
        lambda x: law.upper_tail(z(x)),
        lambda x: law.density(z(x)) / scale,
        tuple(location + scale * mp.mpf(s) if abs(s) < INF else s for s in law.support),
    )


def normal():
    tail = lambda z: mp.erfc(z / mp.sqrt(2)) / 2
    return Law(lambda z: tail(-z), tail, lambda z: mp.npdf(z), (-INF, INF))


def rectangular():
    clip = lambda t: min(ONE, max(mp.mpf(0), t))
    return Law(lambda z: clip((1 + z) / 2), lambda z: clip((1 - z) / 2), lambda z: mp.mpf(1) / 2 if abs(z) <= 1 else mp.mpf(0), (-1, 1))


def symmetric(outer, density):
    """On −1 to 1, from the probability of the outermost part of length s at either end, 0 <= s <= 1."""
    lower = lambda z: mp.mpf(0) if z <= -1 else ONE if z >= 1 else outer(1 + z) if z <= 0 else 1 - outer(1 - z)
    return Law(lower, lambda z: lower(-z), density, (-1, 1))


def triangular():
    return symmetric(lambda s: s * s / 2, lambda z: 1 - abs(z))


def trapezoidal(beta):
    b = mp.mpf(beta)
    corner = 1 - b

    def outer(s):
        return s * s / (2 * (1 - b * b)) if s <= corner else corner / (2 * (1 + b)) + (s - corner) / (1 + b)

    return symmetric(outer, lambda z: 1 / (1 + b) if abs(z) <= b else (1 - abs(z)) / (1 - b * b))


def curvilinear(a, b, d):
    """JCGM 101, 6.4.3.2: its density, integrated in closed form."""
    a, b, d = mp.mpf(a), mp.mpf(b), mp.mpf(d)
    middle, w = (a + b) / 2, (b - a) / 2

    def within(z):
        if z <= w - d:
            return z / (2 * d) * mp.log((w + d) / (w - d))
        if z >= w + d:
            return ONE
        return (z - w + d) / (2 * d) + z / (2 * d) * mp.log((w + d) / z)

    def density(x):
        z = abs(x - middle)
        return mp.log((w + d) / max(z, w - d)) / (4 * d) if z < w + d else mp.mpf(0)

    lower = lambda x: (1 - within(middle - x)) / 2 if x <= middle else (1 + within(x - middle)) / 2
    return Law(lower, lambda x: lower(2 * middle - x), density, (a - d, b + d))


def arcsine():
    def outer(s):
        return 2 / mp.pi * mp.asin(mp.sqrt(s / 2))

    return symmetric(outer, lambda z: 1 / (mp.pi * mp.sqrt(1 - z * z)))


def student(v):
    v = mp.mpf(v)

    def upper(x):
        if x < 0:
            return 1 - upper(-x)
        return mp.betainc(v / 2, ONE / 2, 0, v / (v + x * x), regularized=True) / 2

    constant = mp.gamma((v + 1) / 2) / mp.gamma(v / 2) / mp.sqrt(mp.pi * v)
    return Law(lambda x: upper(-x), upper, lambda x: constant * (1 + x * x / v) ** (-(v + 1) / 2), (-INF, INF))


def exponential():
    return Law(lambda x: -mp.expm1(-x), lambda x: mp.exp(-x), lambda x: mp.exp(-x), (0, INF))


def gamma(shape):
    a = mp.mpf(shape)

    def lower(x):
        """Abramowitz and Stegun 6.5.29, summed to the last of the 60 digits."""
        term = total = ONE
        n = 0
        while term > total * mp.mpf(10) ** -62:
            n += 1
            term *= x / (a + n)
            total += term
        return total * mp.exp(a * mp.log(x) - x - mp.loggamma(a + 1)) if x > 0 else mp.mpf(0)

    upper = lambda x: 1 - lower(x)
    return Law(lower, upper, lambda x: mp.exp((a - 1) * mp.log(x) - x - mp.loggamma(a)), (0, INF))


def beta(a, b):
    a, b = mp.mpf(a), mp.mpf(b)
    lower = lambda x: mp.betainc(a, b, 0, x, regularized=True)
    upper = lambda x: mp.betainc(b, a, 0, 1 - x, regularized=True)
    return Law(lower, upper, lambda x: x ** (a - 1) * (1 - x) ** (b - 1) / mp.beta(a, b), (0, 1))


def log_normal(m, s):
    m, s, n = mp.mpf(m), mp.mpf(s), normal()
    z = lambda x: (mp.log(x) - m) / s
    return Law(lambda x: n.lower_tail(z(x)), lambda x: n.upper_tail(z(x)), lambda x: n.density(z(x)) / s / x, (0, INF))


def truncated(law, lower, upper):
    between = lambda x, y: (
        law.upper_tail(x) - law.upper_tail(y) if law.upper_tail(x) < 0.5 else law.lower_tail(y) - law.lower_tail(x)
    )
    lower_end = mp.mpf(lower) if lower is not None else -INF
    upper_end = mp.mpf(upper) if upper is not None else INF
    below = lambda x: law.lower_tail(x) if lower is None else between(lower_end, x)
    above = lambda x: law.upper_tail(x) if upper is None else between(x, upper_end)
    enclosed = law.lower_tail(upper_end) if lower is None else law.upper_tail(lower_end) if upper is None else between(lower_end, upper_end)
    return Law(lambda x: below(x) / enclosed, lambda x: above(x) / enclosed, lambda x: law.density(x) / enclosed, (lower_end, upper_end))


def asymmetric_triangular(a, c, b):
    a, c, b = mp.mpf(a), mp.mpf(c), mp.mpf(b)
    lower = lambda x: (x - a) ** 2 / ((b - a) * (c - a)) if x <= c and c > a else 1 - (b - x) ** 2 / ((b - a) * (b - c))
    density = lambda x: 2 * (x - a) / ((b - a) * (c - a)) if x < c else 2 * (b - x) / ((b - a) * (b - c)) if x > c else 2 / (b - a)
    return Law(lower, lambda x: 1 - lower(x), density, (a, b))


def piecewise(xs, areas, inside, density):
    """From points, the probability of each stretch, and the probability inside a stretch up to x."""
    xs = [mp.mpf(x) for x in xs]
    total = sum(areas)

    def lower(x):
        if x <= xs[0]:
            return mp.mpf(0)
        reached = mp.mpf(0)
        for i, area in enumerate(areas):
            if x < xs[i + 1]:
                return (reached + inside(i, x)) / total
            reached += area
        return ONE

    def f(x):
        i = next(i for i in range(len(areas)) if x <= xs[i + 1])
        return density(i, x) / total

    return Law(lower, lambda x: 1 - lower(x), f, (xs[0], xs[-1]))


def tabulated_density(xs, fs):
    x = [mp.mpf(v) for v in xs]
    f = [mp.mpf(v) for v in fs]
    slope = lambda i: (f[i + 1] - f[i]) / (x[i + 1] - x[i])
    areas = [(x[i + 1] - x[i]) * (f[i] + f[i + 1]) / 2 for i in range(len(x) - 1)]
    return piecewise(xs, areas, lambda i, t: f[i] * (t - x[i]) + slope(i) * (t - x[i]) ** 2 / 2, lambda i, t: f[i] + slope(i) * (t - x[i]))


def tabulated_distribution(xs, ps):
    x = [mp.mpf(v) for v in xs]
    p = [mp.mpf(v) for v in ps]
    areas = [p[i + 1] - p[i] for i in range(len(p) - 1)]
    rate = lambda i: areas[i] / (x[i + 1] - x[i])
    return piecewise(xs, areas, lambda i, t: rate(i) * (t - x[i]), lambda i, t: rate(i))


def mixture(parts):
    total = sum(mp.mpf(w) for w, _ in parts)
    add = lambda of: lambda x: sum(mp.mpf(w) * of(law)(x) for w, law in parts) / total
    return Law(
        add(lambda law: law.lower_tail), add(lambda law: law.upper_tail), add(lambda law: law.density),
        (min(law.support[0] for _, law in parts), max(law.support[1] for _, law in parts)),
    )


class Poisson:
    def __init__(self, mean):
        self.mean = mp.mpf(mean)

    def lower_tail(self, k):
        return mp.mpf(0) if k < 0 else gamma(mp.floor(k) + 1).upper_tail(self.mean)

    def density(self, k):
        return mp.exp(k * mp.log(self.mean) - self.mean - mp.loggamma(k + 1))

    def quantile(self, p, start=None):
        k = max(0, int(st.poisson.ppf(p, float(self.mean))) - 2)
        while self.lower_tail(k) >= p and k >= 0:
            k -= 1
        while self.lower_tail(k) < p:
            k += 1
        return mp.mpf(k)


class Discrete:
    def __init__(self, values, weights):
        total = sum(mp.mpf(w) for w in weights)
        merged = {}
        for v, w in zip(values, weights):
            merged[v] = merged.get(v, 0) + mp.mpf(w) / total
        self.atoms = sorted(merged.items())

    def lower_tail(self, x):
        return sum((w for v, w in self.atoms if v <= x), mp.mpf(0))

    def density(self, x):
        return dict(self.atoms).get(float(x), mp.mpf(0))

    def quantile(self, p, start=None):
        reached = mp.mpf(0)
        for v, w in self.atoms:
            reached += w
            if reached >= p:
                return mp.mpf(v)
        return mp.mpf(self.atoms[-1][0])


def case(statement, law, against=None, extra=(), probabilities=PROBABILITIES):
    probabilities = list(extra) + probabilities
    starts = against.ppf(probabilities) if against is not None else [None] * len(probabilities)
    exact = [law.quantile(p, None if start is None or not np.isfinite(start) or start == 0 else start) for p, start in zip(probabilities, starts)]
    # A middle that is exactly 0 comes out as some 1e-50.
    quantiles = [(p, float(x) if abs(x) > mp.mpf(10) ** -40 else 0.0) for p, x in zip(probabilities, exact)]
    places = sorted({x for _, x in quantiles})
    functions = [(x, float(law.lower_tail(mp.mpf(x)))) for x in places if x != 0 or law.lower_tail(mp.mpf(0)) > 0]
    lower, upper = getattr(law, "support", (-INF, INF))
    densities = [(x, float(law.density(mp.mpf(x)))) for x in places if lower < x < upper]
    differences = {}
    if against is not None:
        relative = lambda got, want: max((abs(g - w) / abs(w) for g, w in zip(got, want) if w != 0), default=0.0)
        with np.errstate(all="ignore"):
            differences = {
                "quantile": float(relative(against.ppf([p for p, _ in quantiles]), [x for _, x in quantiles])),
                "distributionFunction": float(relative(against.cdf([x for x, _ in functions]), [F for _, F in functions])),
            }
    print(statement["distribution"], differences, file=sys.stderr)
    return {
        "statement": statement,
        "quantiles": quantiles,
        "distributionFunction": functions,
        "density": densities,
        "greatestRelativeDifferenceOfSciPy": differences,
    }


def cases():
    n = normal()
    far = [1e-300, 1e-200, 1e-100, 1e-50, 1e-30, 1e-20, 1e-15]
    yield case({"distribution": "normal", "estimate": 0, "standardUncertainty": 1}, n, st.norm(), extra=far)
    yield case({"distribution": "normal", "estimate": 20, "standardUncertainty": 0.5}, shift(n, 20, 0.5), st.norm(20, 0.5))
    yield case({"distribution": "rectangular", "lower": 0, "upper": 0.375}, shift(rectangular(), 0.1875, 0.1875), st.uniform(0, 0.375))
    yield case({"distribution": "rectangular", "estimate": 3, "halfWidth": 1}, shift(rectangular(), 3, 1), st.uniform(2, 2))
    yield case({"distribution": "triangular", "lower": 0, "upper": 0.375}, shift(triangular(), 0.1875, 0.1875), st.triang(0.5, 0, 0.375))
    yield case({"distribution": "triangular", "estimate": -2, "halfWidth": 1}, shift(triangular(), -2, 1), st.triang(0.5, -3, 2))
    for b in [0, 0.5, 0.9]:
        yield case({"distribution": "trapezoidal", "lower": 0, "upper": 2, "topRatio": b}, shift(trapezoidal(b), 1, 1), st.trapezoid((1 - mp.mpf(b)).__float__() / 2, (1 + b) / 2, 0, 2))
    for a, b, d in [(-1, 1, 0.5), (0.5, 2.5, 0.5), (-1, 1, 0.0009765625), (10, 12, 0.9990234375)]:
        yield case({"distribution": "curvilinear-trapezoid", "lower": a, "upper": b, "limitHalfWidth": d}, curvilinear(a, b, d))
    yield case({"distribution": "arcsine", "lower": 0, "upper": 1}, shift(arcsine(), 0.5, 0.5), st.arcsine())
    yield case({"distribution": "arcsine", "estimate": 72, "halfWidth": 0.25}, shift(arcsine(), 72, 0.25), st.arcsine(71.75, 0.5))
    for v in [0.5, 1, 2, 3, 4.5, 9, 16.66, 50, 1000, 1e6]:
        yield case({"distribution": "t", "estimate": 0, "standardUncertainty": 1, "degreesOfFreedom": v}, student(v), st.t(v))
    yield case({"distribution": "readings", "values": [8, 9, 10, 11, 12]}, shift(student(4), 10, mp.sqrt(mp.mpf(1) / 2)), st.t(4, 10, 0.5**0.5))
    yield case({"distribution": "exponential", "estimate": 0.25}, shift(exponential(), 0, 0.25), st.expon(0, 0.25))
    yield case({"distribution": "exponential", "estimate": 3, "lower": 1}, shift(exponential(), 1, 2), st.expon(1, 2))
    for q in [0, 4, 100, 20000]:
        yield case({"distribution": "gamma", "count": q}, gamma(q + 1), st.gamma(q + 1))
    for a, s in [(0.05, 1), (0.3, 2), (0.5, 1), (7.25, 0.125), (3000.5, 1)]:
        yield case({"distribution": "gamma", "shape": a, "scale": s}, shift(gamma(a), 0, s), st.gamma(a, 0, s))
    for a, b in [(0.5, 0.5), (0.25, 4), (2, 5), (5, 1.5), (1, 3), (50, 80), (4000, 1000)]:
        yield case({"distribution": "beta", "lowerShape": a, "upperShape": b}, beta(a, b), st.beta(a, b))
    yield case({"distribution": "beta", "lower": 2, "upper": 4, "lowerShape": 2, "upperShape": 3}, shift(beta(2, 3), 2, 2), st.beta(2, 3, 2, 2))
    # Mean 1/4 and standard deviation 1/8 on 0 to 1: shapes 11/4 and 33/4 by the formulas for the two moments.
    yield case({"distribution": "beta", "lower": 0, "upper": 1, "estimate": 0.25, "standardUncertainty": 0.125}, beta(2.75, 8.25), st.beta(2.75, 8.25))
    for m, s in [(0, 1), (-3, 0.0625), (2, 2.5)]:
        yield case({"distribution": "log-normal", "logarithmMean": m, "logarithmStandardDeviation": s}, log_normal(m, s), st.lognorm(s, 0, np.exp(m)))
    variance = mp.log(1 + mp.mpf(1) / 16)
    yield case({"distribution": "log-normal", "estimate": 2, "standardUncertainty": 0.5}, log_normal(mp.log(2) - variance / 2, mp.sqrt(variance)))
    for x, u, a, b in [(1, 0.5, 0, None), (0, 1, None, 0.5), (0, 1, 10, None), (0, 1, 30, 31), (0, 1, -31, -30), (0, 1, -1, 4), (0, 1, 0.25, 0.2501220703125), (5, 0.5, 0, 6)]:
        statement = {"distribution": "truncated-normal", "estimate": x, "standardUncertainty": u}
        if a is not None:
            statement["lower"] = a
        if b is not None:
            statement["upper"] = b
        yield case(statement, truncated(shift(n, x, u), a, b))
    for a, c, b in [(0, 0.25, 1), (0, 0, 1), (0, 1, 1), (-4, 2, 3)]:
        yield case({"distribution": "asymmetric-triangular", "lower": a, "mode": c, "upper": b}, asymmetric_triangular(a, c, b), st.triang((c - a) / (b - a), a, b - a))
    yield case({"distribution": "asymmetric-rectangular", "lower": 0, "estimate": 0.25, "upper": 2}, shift(rectangular(), 1, 1), st.uniform(0, 2))
    for m in [0.5, 7.25, 400, 20000.5]:
        yield case({"distribution": "poisson", "estimate": m}, Poisson(m), st.poisson(m))
    yield case({"distribution": "discrete", "values": [3, 1, 2, 7], "probabilities": [0.25, 0.5, 0.125, 0.125]}, Discrete([3, 1, 2, 7], [0.25, 0.5, 0.125, 0.125]))
    yield case({"distribution": "sample", "values": [4, 1, 4, 2.5, 8, 9, 3]}, Discrete([4, 1, 4, 2.5, 8, 9, 3], [1] * 7))
    xs, fs = [0, 1, 2, 4, 5], [0, 0.25, 0.375, 0.125, 0]
    yield case({"distribution": "tabulated-density", "values": xs, "densities": fs}, tabulated_density(xs, fs))
    xs, ps = [-2, -1, 0, 1, 3], [0, 0.125, 0.5, 0.5, 1]
    yield case({"distribution": "tabulated-distribution", "values": xs, "probabilities": ps}, tabulated_distribution(xs, ps), probabilities=[p for p in PROBABILITIES if p != 0.5])
    good = {"distribution": "normal", "estimate": 0, "standardUncertainty": 1}
    poor = {"distribution": "normal", "estimate": 5, "standardUncertainty": 0.25}
    yield case({"distribution": "mixture", "components": [{"weight": 3, "statement": good}, {"weight": 1, "statement": poor}]}, mixture([(3, n), (1, shift(n, 5, 0.25))]))
    one = {"distribution": "t", "estimate": 1, "standardUncertainty": 0.5, "degreesOfFreedom": 5}
    two = {"distribution": "rectangular", "lower": -8, "upper": 0}
    yield case({"distribution": "mixture", "components": [{"weight": 0.5, "statement": one}, {"weight": 0.5, "statement": two}]}, mixture([(1, shift(student(5), 1, 0.5)), (1, shift(rectangular(), -4, 4))]))


print(json.dumps({
    "how": "mpmath, 60 digits, from the definitions; each figure rounded once to a double",
    "script": "tests/reference/distributions.py",
    "libraries": {"python": platform.python_version(), "mpmath": mp.__version__, "numpy": np.__version__, "scipy": scipy.__version__},
    "cases": list(cases()),
}, separators=(",", ":")).replace('{"statement"', '\n{"statement"'))
