#!/usr/bin/python3
"""Drift, worst window and criterion of an invented log of a bath that settles, from numpy, written to following.json.

    /usr/bin/python3 tests/reference/following.py
"""
import json
import pathlib

import numpy

HERE = pathlib.Path(__file__).parent
WINDOW = 1800.0
LIMIT = 0.004
INTERVAL = 10.0

generator = numpy.random.default_rng(20260302)
times = INTERVAL * numpy.arange(1080)
# An approach of 20 min, a controller that cycles, a slow drift, white noise; a silence of 5 min after an hour and a half.
values = 72.0 - 0.3 * numpy.exp(-times / 600) + 0.0015 * numpy.sin(2 * numpy.pi * times / 700) + 2e-7 * times
values = numpy.round(values + 0.0003 * generator.standard_normal(times.size), 5)
there = (times <= 5400) | (times > 5700)
times, values = times[there], values[there]


def windows(last):
    """Every window that ends at a reading up to the last: its start, its end and half its span, by brute force."""
    found = []
    for end in range(last + 1):
        inside = (times[: end + 1] >= times[end] - WINDOW) & (times[: end + 1] > (5550 if times[end] > 5550 else -1))
        first = int(numpy.argmax(inside))
        if times[end] - times[first] >= WINDOW - INTERVAL:
            found.append((times[first], times[end], float(numpy.ptp(values[first : end + 1])) / 2))
    return found


def steady(last):
    """Start of the longest stretch up to the last reading, within a window and without the silence, that stays within."""
    first = last
    while first > 0 and times[first] - times[first - 1] <= 2.5 * INTERVAL and times[last] - times[first - 1] <= WINDOW:
        if numpy.ptp(values[first - 1 : last + 1]) / 2 > LIMIT:
            break
        first -= 1
    return float(times[first])


def state(last):
    every = windows(last)
    worst = max(every, key=lambda one: one[2]) if every else None
    since = None
    for first, end, half in every:
        if half > LIMIT or (since is not None and end > 5550 > since):
            since = None if half > LIMIT else end
        elif since is None:
            since = end
    if not every or every[-1][1] != times[last]:
        since = None
    start = max(times[last] - WINDOW, 5710 if times[last] > 5550 else 0)
    latest = (times >= start) & (times <= times[last])
    return {
        "readings": last + 1,
        "worst": None if worst is None else {"from": worst[0], "to": worst[1], "halfRange": worst[2]},
        "drift": float(numpy.polyfit(times[latest] - times[last], values[latest], 1)[0]),
        "latest": float(numpy.ptp(values[latest])) / 2,
        "since": since,
        "steadyFrom": steady(last),
    }


moments = [60, 180, 260, 400, 545, 600, 720, 800, times.size - 1]
(HERE / "following.json").write_text(
    json.dumps(
        {
            "numpy": numpy.__version__,
            "window": WINDOW,
            "limit": LIMIT,
            "times": times.tolist(),
            "values": values.tolist(),
            "states": [state(moment) for moment in moments],
        },
    )
    + "\n",
    encoding="utf8",
)
