"""Writes elementary.json: the elementary functions at some thousand points, to about 70 bits.

Each row is [arguments..., high, low]: the value is high + low, high the nearest double and low the rest, from mpmath at
60 digits at the exact binary value of the arguments. Arguments are drawn with a fixed seed over the ranges in which
models use the functions, and beside their edges.

Run:  /usr/bin/python3 tests/reference/elementary.py > tests/reference/elementary.json
"""

import json
import platform
import random

import mpmath as mp

mp.mp.dps = 60
rng = random.Random(20)


def uniform(low, high, count=120):
    return [rng.uniform(low, high) for _ in range(count)]


def magnitudes(low, high, count=120, signs=(1,)):
    return [rng.choice(signs) * 10 ** rng.uniform(low, high) for _ in range(count)]


both = (1, -1)
near_one = [1 + s * 2.0**-k for k in range(1, 53, 3) for s in both]
POINTS = {
    "exp": uniform(-50, 50) + uniform(-700, 700) + magnitudes(-18, 0, 60, both),
    "expm1": uniform(-40, 40) + magnitudes(-18, 0, 120, both),
    "ln": magnitudes(-300, 300) + uniform(0, 4) + near_one,
    "log10": magnitudes(-300, 300) + uniform(0, 4) + near_one,
    "log1p": magnitudes(-18, 10) + uniform(-0.999, 3) + magnitudes(-18, -1, 60, both),
    "sin": uniform(-10, 10) + uniform(-1e5, 1e5) + magnitudes(-12, 0, 60, both),
    "cos": uniform(-10, 10) + uniform(-1e5, 1e5) + magnitudes(-12, 0, 60, both),
    "tan": uniform(-10, 10) + uniform(-1e5, 1e5) + magnitudes(-12, 0, 60, both),
    "asin": uniform(-1, 1, 240) + magnitudes(-12, 0, 60, both),
    "acos": uniform(-1, 1, 240) + magnitudes(-12, 0, 60, both),
    "atan": uniform(-5, 5) + magnitudes(-12, 12, 120, both),
    "sinh": uniform(-20, 20) + magnitudes(-12, 2, 120, both),
    "cosh": uniform(-20, 20) + magnitudes(-12, 2, 120, both),
    "tanh": uniform(-10, 10) + magnitudes(-12, 1, 120, both),
    "cbrt": magnitudes(-300, 300, 240, both) + uniform(-10, 10),
    "pow": list(zip(magnitudes(-5, 5, 200), uniform(-40, 40, 200))) + list(zip(uniform(0.5, 2, 200), uniform(-300, 300, 200)))
    + [(x, float(n)) for x, n in zip(uniform(-20, 20, 100), [rng.randint(-12, 12) for _ in range(100)])],
    "atan2": list(zip(uniform(-5, 5, 150), uniform(-5, 5, 150))) + list(zip(magnitudes(-9, 9, 100, both), magnitudes(-9, 9, 100, both))),
    "hypot": list(zip(uniform(-5, 5, 150), uniform(-5, 5, 150))) + list(zip(magnitudes(-150, 150, 100, both), magnitudes(-150, 150, 100, both))),
}
FUNCTIONS = {
    "ln": mp.log, "log10": mp.log10, "log1p": mp.log1p, "pow": mp.power,
    "cbrt": lambda x: mp.sign(x) * mp.cbrt(abs(x)), "hypot": mp.hypot, "atan2": mp.atan2,
}


def row(name, arguments):
    value = FUNCTIONS.get(name, getattr(mp, name, None))(*[mp.mpf(a) for a in arguments])
    high = float(value)
    return [*arguments, high, float(f"{float(value - mp.mpf(high)):.3g}")]


values = {
    name: [row(name, point if isinstance(point, tuple) else (point,)) for point in points] for name, points in POINTS.items()
}
text = json.dumps({
    "how": "mpmath, 60 digits; value = high + low",
    "script": "tests/reference/elementary.py",
    "libraries": {"python": platform.python_version(), "mpmath": mp.__version__},
    "values": values,
}, separators=(",", ":"))
for name in POINTS:
    text = text.replace(f'"{name}":[', f'\n"{name}":[')
print(text)
