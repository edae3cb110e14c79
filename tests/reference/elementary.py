"""Writes elementary.json: the elementary functions at some thousand points, to a thousandth of the last place.

Each row is [arguments..., value, fraction]: the value is the nearest double, the fraction what the true value has beyond
it in units of its last place (at most a half either way), from mpmath at 60 digits (420 for angles, whose reduction needs
them) at the exact binary value of the arguments. Arguments are drawn with a fixed seed over the ranges in which models
use the functions; beside them stand the hard ones: hard by zeros and poles, by the limits of the range, beyond them where
doubles thin out, at the borders of common tables, and where the value is itself a double or nearly so.

Run:  /usr/bin/python3 tests/reference/elementary.py > tests/reference/elementary.json
"""

import json
import math
import platform
import random

import mpmath as mp

rng = random.Random(20)


def uniform(low, high, count=120):
    return [rng.uniform(low, high) for _ in range(count)]


def magnitudes(low, high, count=120, signs=(1,)):
    return [rng.choice(signs) * 10 ** rng.uniform(low, high) for _ in range(count)]


def beside(points, last=40, step=3):
    """x·(1 ± 2^-k) for each x, down to neighbours."""
    return [x * (1 + s * 2.0**-k) for x in points for k in range(last // 4, last + 1, step) for s in both]


both = (1, -1)
near_one = [1 + s * 2.0**-k for k in range(1, 53, 3) for s in both]
# 1 ± some 2^-k: where the high and low parts of a logarithm are alike in size.
about_one = [1 + s * 2 ** rng.uniform(-52, -3) for s in both for _ in range(120)]
below_normal = [5e-324, 1e-320, 2.0**-1074 * 3, 2.0**-1050, 1.5e-310, 2.2250738585072009e-308, 2.2250738585072014e-308]
largest = [1.7976931348623157e308, 2.0**1023, 1e308]
multiples = [n * math.pi / 2 for n in (1, 2, 3, 4, 5, 11, 100, 1001, 20000, 166886)]
# 6381956970095103·2^797 is the double nearest to a multiple of π/2 (W. Kahan; K. C. Ng, Argument reduction for huge arguments).
huge = [6381956970095103 * 2.0**797, 1e22, 1e300, 2.0**18, 2.0**18 - 2.0**-34, 262145.5, 2.0**1023, 1e9, 2.5e15]
angles = (
    uniform(-10, 10) + uniform(-1e5, 1e5) + magnitudes(-12, 0, 60, both) + beside(multiples, 52, 6) + multiples + huge
    + [n * math.pi / 256 * (1 + 2.0**-52) for n in range(-130, 130, 7)] + magnitudes(5, 300, 40, both) + [2.0**-27, 2.0**-30, -1e-300]
)
POINTS = {
    "exp": uniform(-50, 50) + uniform(-700, 700) + magnitudes(-18, 0, 60, both) + uniform(-745.1, -707, 60) + uniform(708, 709.78, 40)
    + [k * math.log(2) / 256 for k in range(-301, 300, 14)] + [709.782712893384, -745.1332191019411, -708.3964185322641, 1.0, -1.0],
    "expm1": uniform(-40, 40) + magnitudes(-18, 0, 120, both) + magnitudes(-300, -18, 20, both) + uniform(-0.07, 0.07, 60) + uniform(700, 709.78, 20)
    + beside([1 / 16, -1 / 16, math.log(2), -math.log(2)], 52, 9),
    "ln": magnitudes(-300, 300) + uniform(0, 4) + near_one + about_one + below_normal + largest + [1 + k / 128 for k in range(-40, 60, 3)]
    + [1 + (k + 0.5) / 128 for k in range(-40, 60, 3)] + [2.0**k for k in range(-1074, 1024, 91)],
    "log10": magnitudes(-300, 300) + uniform(0, 4) + near_one + about_one + below_normal + largest + [float(f"1e{k}") for k in range(-307, 309, 15)],
    "log1p": magnitudes(-18, 10) + uniform(-0.999, 3) + magnitudes(-18, -1, 60, both) + [s * 2 ** rng.uniform(-60, -3) for s in both for _ in range(60)]
    + [-1 + 2.0**-k for k in (1, 2, 10, 30, 52, 53)] + [1e-300, -1e-300, 5e-324] + largest,
    "sin": angles,
    "cos": angles,
    "tan": angles,
    "asin": uniform(-1, 1, 240) + magnitudes(-12, 0, 60, both) + [s * (1 - 2.0**-k) for k in range(1, 54, 3) for s in both] + [1.0, -1.0, 57 / 64, 1 / 16, 1e-300],
    "acos": uniform(-1, 1, 240) + magnitudes(-12, 0, 60, both) + [s * (1 - 2.0**-k) for k in range(1, 54, 3) for s in both] + [-1.0, 57 / 64, 1 / 16, 1e-300],
    "atan": uniform(-5, 5) + magnitudes(-12, 12, 120, both) + magnitudes(12, 300, 20, both) + beside([1 / 16, 64.0, 1.0], 52, 9) + [1.0, -1.0, 1e-300]
    + [2.0**e * (1 + k / 32) for e in range(-4, 6, 2) for k in range(0, 32, 5)],
    "sinh": uniform(-20, 20) + magnitudes(-12, 2, 120, both) + uniform(700, 710.4, 30) + uniform(-0.3, 0.3, 60) + [710.4758600739439, 1e-300],
    "cosh": uniform(-20, 20) + magnitudes(-12, 2, 120, both) + uniform(700, 710.4, 30) + [710.4758600739439],
    "tanh": uniform(-10, 10) + magnitudes(-12, 1, 120, both) + uniform(-0.2, 0.2, 60) + uniform(15, 25, 30) + [1e-300],
    "cbrt": magnitudes(-300, 300, 240, both) + uniform(-10, 10) + below_normal + largest + [float(n**3) for n in range(1, 2000, 97)],
    "pow": list(zip(magnitudes(-5, 5, 200), uniform(-40, 40, 200))) + list(zip(uniform(0.5, 2, 200), uniform(-300, 300, 200)))
    + [(x, float(n)) for x, n in zip(uniform(-20, 20, 100), [rng.randint(-12, 12) for _ in range(100)])]
    # Near 1 to great powers, and over the whole range down to where doubles thin out.
    + [(x, rng.uniform(-744, 709) / math.log(x)) for x in about_one] + [(x, rng.uniform(-744, 709) / math.log(x)) for x in magnitudes(-300, 300)]
    + [(x, rng.uniform(-744, -707) / math.log(x)) for x in magnitudes(-30, 30, 60)] + [(x, 0.5) for x in below_normal] + [(x, -0.75) for x in below_normal]
    + [(float(b), float(n)) for b in (2, 3, 5, 7, 10, 12, 15) for n in range(1, 15)] + [(float(n * n), 0.5) for n in range(1, 99999, 9973)]
    + [(x, 2.0) for x in uniform(-100, 100, 40)] + [(x, -1.0) for x in uniform(-100, 100, 40)],
    "atan2": list(zip(uniform(-5, 5, 150), uniform(-5, 5, 150))) + list(zip(magnitudes(-9, 9, 100, both), magnitudes(-9, 9, 100, both)))
    + list(zip(magnitudes(-150, 150, 60, both), magnitudes(-150, 150, 60, both))) + [(x, -y) for x in below_normal[::2] for y in below_normal[1::2]]
    + [(y * r, y) for y, r in zip(magnitudes(-290, 290, 60, both), magnitudes(-3, 3, 60))],
    "hypot": list(zip(uniform(-5, 5, 150), uniform(-5, 5, 150))) + list(zip(magnitudes(-150, 150, 100, both), magnitudes(-150, 150, 100, both)))
    + [(x, x * r) for x, r in zip(magnitudes(-306, 307, 100, both), magnitudes(-12, -0.5, 100))] + [(x, y) for x in below_normal for y in below_normal[:3]]
    + [(3.0 * 2.0**e, 4.0 * 2.0**e) for e in range(-1070, 1021, 110)] + [(5.0, 12.0), (8.0, 15.0), (20.0, 21.0), (7.0, 0.0)],
}
FUNCTIONS = {
    "ln": mp.log, "log10": mp.log10, "log1p": mp.log1p, "pow": mp.power,
    "cbrt": lambda x: mp.sign(x) * mp.cbrt(abs(x)), "hypot": mp.hypot, "atan2": mp.atan2,
}


def row(name, arguments):
    mp.mp.dps = 420 if name in ("sin", "cos", "tan") else 60
    value = FUNCTIONS.get(name, getattr(mp, name, None))(*[mp.mpf(a) for a in arguments])
    high = float(value)
    if mp.isinf(value) or math.isinf(high) or high == 0:
        raise ValueError(f"{name}{arguments} is out of range: special values are not for this file")
    # mpmath's conversion is not the nearest double below 2^-1022.
    high += math.ulp(high) * round(float((value - mp.mpf(high)) / mp.mpf(math.ulp(high))))
    fraction = (value - mp.mpf(high)) / mp.mpf(math.ulp(high))
    assert abs(fraction) <= 0.5, (name, arguments)
    return [*arguments, high, float(f"{float(fraction):.3g}")]


values = {
    name: [row(name, point if isinstance(point, tuple) else (point,)) for point in points] for name, points in POINTS.items()
}
text = json.dumps({
    "how": "mpmath; value = high + fraction units of the last place of high",
    "script": "tests/reference/elementary.py",
    "libraries": {"python": platform.python_version(), "mpmath": mp.__version__},
    "values": values,
}, separators=(",", ":"))
for name in POINTS:
    text = text.replace(f'"{name}":[', f'\n"{name}":[')
print(text)
