"""The workloads as a careful numerical programmer writes them with NumPy.

Trials are drawn in chunks that stay in a core's cache, with every operation in place. The argument says how order
statistics are found: "sort" sorts each measurand once, as most scripts do; "partition" sorts its two tails alone. Reads
lines "W1 1000000 7" (workload, trials, seed) and answers each with one line of JSON. Constants are those of ../workloads.
"""

import json
import math
import resource
import sys
import time
import zlib

import numpy as np

PROBABILITY = 0.95
BINS = 200
CHUNK = 16384

# IEC 60751, clause 4, and for the start below 0 degrees the polynomial of ASTM E1137.
A, B, C = 3.9083e-3, -5.775e-7, -4.183e-12
LOWEST_RATIO = 1 - 200 * (A - 200 * B) + C * (-300) * -8e6
HIGHEST_RATIO = 1 + 850 * (A + 850 * B)

# ITS-90 (Metrologia 27 (1990) 3-10), equations (10a) and (10b).
ITS_C = (2.78157254, 1.64650916, -0.1371439, -0.00649767, -0.00234444, 0.00511868, 0.00187982, -0.00204472, -0.00046122, 0.00045724)
ITS_D = (439.932854, 472.41802, 37.684494, 7.472018, 2.920828, 0.005184, -0.963864, -0.188732, 0.191203, 0.049025)
ITS_C_SLOPE = tuple(i * c for i, c in enumerate(ITS_C))[1:]


def buffers(count):
    return [np.empty(CHUNK) for _ in range(count)]


def horner(coefficients, x, out):
    np.multiply(x, coefficients[-1], out=out)
    for c in coefficients[-2:0:-1]:
        out += c
        out *= x
    out += coefficients[0]


def below_zero(ratio):
    """Newton from the starting polynomial, for ratios below 1."""
    x = ratio - 1
    t = x * (255.819 + x * (9.1455 + x * (-2.92363 + x * 1.7909)))
    for _ in range(2):
        t2 = t * t
        value = 1 + t * (A + t * B) + C * (t - 100) * t2 * t
        t -= (value - ratio) / (A + 2 * B * t + C * t2 * (4 * t - 300))
    return t


def iec_temperature(ratio, work):
    """Temperatures of IEC 60751 in place of the ratios."""
    least = ratio.min()
    if least < LOWEST_RATIO or ratio.max() > HIGHEST_RATIO:
        raise ValueError("a ratio outside IEC 60751")
    cold = None
    if least < 1:
        cold = ratio < 1
        cold_temperature = below_zero(ratio[cold])
        ratio[cold] = 1
    ratio -= 1
    np.multiply(ratio, 4 * B, out=work)
    work += A * A
    np.sqrt(work, out=work)
    work += A
    ratio *= 2
    ratio /= work
    if cold is not None:
        ratio[cold] = cold_temperature


def its90_temperature(ratio, a, b, work, start):
    """t90 in degrees Celsius in place of W, above the triple point of water: deviation, (10b), one step on (10a)."""
    if ratio.min() < 1 or ratio.max() > 4.2:
        raise ValueError("a ratio outside the sub-range")
    ratio -= 1
    np.multiply(ratio, b, out=work)
    work += a
    work *= ratio
    ratio -= work
    ratio += 1  # W_r
    np.subtract(ratio, 2.64, out=work)
    work /= 1.64
    horner(ITS_D, work, start)
    start += 273.15 - 754.15
    start /= 481
    horner(ITS_C, start, work)
    ratio -= work  # W_r - W_r(start)
    horner(ITS_C_SLOPE, start, work)
    ratio /= work
    ratio += start
    ratio *= 481
    ratio += 754.15 - 273.15


def normal(rng, estimate, u, out):
    rng.standard_normal(out=out)
    out *= u
    out += estimate


def subtract_rectangulars(rng, half_widths, work, out):
    """Subtracts centred rectangulars from `out`; their middles are taken together."""
    for half_width in half_widths:
        rng.random(out=work)
        work *= 2 * half_width
        out -= work
    out += sum(half_widths)


def add_rectangular(rng, half_width, work, out):
    rng.random(out=work)
    work *= 2 * half_width
    out += work
    out -= half_width


def draw_w1(rng, outs, r, work, start):
    (y,) = outs
    normal(rng, 151.3155, 0.0006, y)
    add_rectangular(rng, 0.0012, work, y)
    y /= 100
    iec_temperature(y, work)
    normal(rng, 151.33, 0.0003, r)
    add_rectangular(rng, 0.0008, work, r)
    r /= 100.012
    iec_temperature(r, work)
    y -= r
    normal(rng, -0.006, 0.005, work)
    y -= work
    normal(rng, 0, 0.003, work)
    y += work
    subtract_rectangulars(rng, (0.003, 0.004, 0.007, 0.02, 0.006, 0.008), work, y)


def draw_w2(rng, outs, r, work, start):
    (y,) = outs
    normal(rng, 151.3155, 0.0006, y)
    add_rectangular(rng, 0.0012, work, y)
    y /= 100
    iec_temperature(y, work)
    normal(rng, 38.8451, 0.0001, r)
    add_rectangular(rng, 0.0002, work, r)
    r /= 25.5
    its90_temperature(r, -2.1e-4, -1.2e-5, work, start)
    y -= r
    normal(rng, -0.006, 0.005, work)
    y -= work
    normal(rng, 0, 0.003, work)
    y += work
    subtract_rectangulars(rng, (0.003, 0.004, 0.007, 0.02, 0.006, 0.008), work, y)


def draw_w3(rng, outs, r, work, start):
    (y,) = outs
    count = len(y)
    rng.standard_normal(out=start)
    rng.standard_normal(out=r)
    # Both normals from one pair: correlation 0.6.
    r *= math.sqrt(1 - 0.6 * 0.6)
    np.multiply(start, 0.6, out=work)
    r += work
    np.multiply(start, 0.0006, out=y)
    y += 151.3155
    add_rectangular(rng, 0.0012, work, y)
    y /= 100
    iec_temperature(y, work)
    r *= 0.0003
    r += 151.33
    add_rectangular(rng, 0.0008, work, r)
    r /= 100.012
    iec_temperature(r, work)
    y -= r
    normal(rng, -0.006, 0.005, work)
    y -= work
    # A t is a normal over the root of a mean square, here drawn whole by the library.
    t = rng.standard_t(9, count)
    t *= 0.003
    y += t
    rng.standard_gamma(4, out=work)
    work *= 0.001
    y -= work
    # The triangular is the sum of two rectangulars of half its half-width.
    subtract_rectangulars(rng, (0.0035, 0.0035, 0.003, 0.02, 0.006), work, y)
    rng.random(out=work)
    work *= 2 * math.pi
    np.sin(work, out=work)
    work *= 0.008
    y -= work


def draw_w6(rng, outs, r, work, start):
    first, second, bath = outs
    normal(rng, 151.33, 0.0003, bath)
    add_rectangular(rng, 0.0008, work, bath)
    bath /= 100.012
    iec_temperature(bath, work)
    normal(rng, -0.006, 0.005, work)
    bath += work
    add_rectangular(rng, 0.008, work, bath)
    for out, estimate, u, half_width, own in ((first, 151.3155, 0.0006, 0.0012, (0.007, 0.02)), (second, 151.309, 0.0007, 0.0012, (0.005, 0.015))):
        normal(rng, estimate, u, out)
        add_rectangular(rng, half_width, work, out)
        out /= 100
        iec_temperature(out, work)
        out -= bath
        subtract_rectangulars(rng, own, work, out)


WORKLOADS = {"W1": (draw_w1, 1), "W2": (draw_w2, 1), "W3": (draw_w3, 1), "W6": (draw_w6, 3)}


def spanned_ranks(trials):
    """JCGM 101, 7.7.2."""
    exact = PROBABILITY * trials
    whole = round(exact)
    return whole if abs(exact - whole) < 1e-9 * max(1, whole) else math.floor(exact + 0.5)


def summary(y, mean, u, select):
    """Reorders y in place: sorts it, or sorts the tails alone, which hold every rank that an interval can end on."""
    trials = len(y)
    q = spanned_ranks(trials)
    starts = trials - q
    if select == "sort":
        y.sort()
    else:
        y.partition((starts - 1, q))
        y[:starts].sort()
        y[q:].sort()
    r = max(1, (starts + 1) // 2)
    best = int(np.argmin(y[q:] - y[:starts]))
    rank = max(1, round(trials * 1e-4))
    low, high = y[rank - 1], y[trials - rank]
    counts = sorted_counts(y, low, high) if select == "sort" else binned_counts(y, low, high)
    return {
        "estimate": mean,
        "standardUncertainty": u,
        "symmetric": [float(y[r - 1]), float(y[r + q - 1])],
        "shortest": [float(y[best]), float(y[best + q])],
        "histogram": {"low": float(low), "width": float((high - low) / BINS), "below": int(counts[0]), "above": int(counts[-1]), "counts": counts[1:-1].tolist()},
    }


def sorted_counts(y, low, high):
    edges = np.linspace(low, high, BINS + 1)
    below = np.searchsorted(y, low)
    up_to = np.searchsorted(y, edges[1:], side="right")
    return np.diff(up_to, prepend=(0, below), append=len(y))


def binned_counts(y, low, high):
    scale = BINS / (high - low)
    totals = np.zeros(BINS + 2, dtype=np.int64)
    work = np.empty(CHUNK)
    for first in range(0, len(y), CHUNK):
        part = y[first : first + CHUNK]
        place = work[: len(part)]
        np.subtract(part, low, out=place)
        place *= scale
        place += 1
        np.clip(place, 0, BINS + 1, out=place)
        totals += np.bincount(place.astype(np.int64), minlength=BINS + 2)
    return totals


def ellipsoid_factor(columns, means, covariance):
    """k_p: the root of the squared distance that a share p of the trials does not exceed (JCGM 102, 7.7.2)."""
    m, trials = columns.shape
    inverse = np.linalg.inv(np.linalg.cholesky(covariance))
    offset = (inverse @ means)[:, None]
    distances = np.empty(trials)
    z = np.empty((m, CHUNK))
    for first in range(0, trials, CHUNK):
        last = min(first + CHUNK, trials)
        part = z if last - first == CHUNK else np.empty((m, last - first))
        np.matmul(inverse, columns[:, first:last], out=part)
        part -= offset
        part *= part
        np.sum(part, axis=0, out=distances[first:last])
    q = spanned_ranks(trials)
    distances.partition(q - 1)
    return math.sqrt(distances[q - 1])


def run(name, trials, seed, select):
    draw, m = WORKLOADS[name]
    rng = np.random.default_rng(seed)
    columns = np.empty((m, trials))
    r, work, start = buffers(3)
    shift = None
    sums = np.zeros(m)
    products = np.zeros((m, m))
    centred = np.empty((m, CHUNK))
    for first in range(0, trials, CHUNK):
        size = min(CHUNK, trials - first)
        part = columns[:, first : first + size]
        draw(rng, part, r[:size], work[:size], start[:size])
        if shift is None:
            # Sums about a value near the mean keep their digits.
            shift = part[:, :1].copy()
        c = centred if size == CHUNK else np.empty((m, size))
        np.subtract(part, shift, out=c)
        sums += c.sum(axis=1)
        products += c @ c.T
    means = shift[:, 0] + sums / trials
    covariance = (products - np.outer(sums, sums) / trials) / (trials - 1)
    factor = ellipsoid_factor(columns, means, covariance) if m > 1 else None
    outputs = [summary(columns[i], float(means[i]), math.sqrt(covariance[i, i]), select) for i in range(m)]
    return outputs, factor


def checksum(outputs, factor):
    """CRC-32 over the figures as doubles, in the order that every contestant keeps."""
    figures = []
    for o in outputs:
        h = o["histogram"]
        figures += [o["estimate"], o["standardUncertainty"], *o["symmetric"], *o["shortest"], h["low"], h["width"], h["below"], *h["counts"], h["above"]]
    figures.append(0 if factor is None else factor)
    return format(zlib.crc32(np.asarray(figures, dtype="<f8").tobytes()), "08x")


def main():
    select = sys.argv[1] if len(sys.argv) > 1 else "sort"
    if select not in ("sort", "partition"):
        sys.exit(f"argument: {select!r}; accepted are sort and partition")
    print(json.dumps({"name": f"NumPy {np.__version__}, Python {sys.version.split()[0]}"}), flush=True)
    for line in sys.stdin:
        words = line.split()
        if not words:
            continue
        name, trials, seed = words[0], int(words[1]), int(words[2])
        clock = time.perf_counter()
        outputs, factor = run(name, trials, seed, select)
        milliseconds = (time.perf_counter() - clock) * 1000
        answer = {
            "workload": name,
            "trials": trials,
            "seed": seed,
            "milliseconds": milliseconds,
            "checksum": checksum(outputs, factor),
            "outputs": outputs,
            "ellipsoid": factor,
            "residentKb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss,
        }
        print(json.dumps(answer), flush=True)


if __name__ == "__main__":
    main()
