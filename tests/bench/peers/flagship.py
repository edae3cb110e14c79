"""The flagship study as a NumPy script would have it: a whole process that draws 10^6 trials once.

Takes the path of examples/harrowfen/steriliser-134.json, draws each input as the study states it, evaluates the
comparison, and prints y, u(y) and the probabilistically symmetric interval as JSON.
"""

import json
import math
import sys
from statistics import NormalDist

import numpy as np

TRIALS = 1_000_000
A, B = 3.9083e-3, -5.775e-7

with open(sys.argv[1], encoding="utf-8") as file:
    study = json.load(file)
generator = np.random.default_rng(1)


def student(location, scale, degrees):
    draws = generator.standard_t(degrees, TRIALS)
    draws *= scale
    draws += location
    return draws


def draw(stated):
    kind = stated["distribution"]
    if kind == "constant":
        return stated["value"]
    if kind == "rectangular":
        return generator.uniform(stated["estimate"] - stated["halfWidth"], stated["estimate"] + stated["halfWidth"], TRIALS)
    if kind == "readings":
        values = np.asarray(stated["values"])
        return student(values.mean(), values.std(ddof=1) / math.sqrt(values.size), values.size - 1)
    uncertainty = stated.get("standardUncertainty") or stated["expandedUncertainty"] / stated["coverageFactor"]
    if kind == "t":
        return student(stated["estimate"], uncertainty, stated["degreesOfFreedom"])
    if kind == "normal":
        return generator.normal(stated["estimate"], uncertainty, TRIALS)
    raise ValueError(f"no draws for {kind}")


x = {name: draw(stated) for name, stated in study["inputs"].items()}
ratio = x["probeResistance"]
ratio += x["probeReadout"]
ratio += x["probeResolution"]
ratio /= x["nominalResistance"]
ratio -= 1
error = 2 * ratio / (A + np.sqrt(A * A + 4 * B * ratio))
error += x["repeatability"]
for name in ("selfHeating", "immersion", "hysteresis", "referenceReading", "referenceCertificate", "referenceDrift", "referenceReadout",
             "bathAxial", "bathRadial", "bathStability"):
    error -= x[name]

estimate, uncertainty = error.mean(), error.std(ddof=1)
error.sort()
coverage = study["coverage"]
probability = coverage.get("probability") or 2 * NormalDist().cdf(coverage["factor"]) - 1
spanned = math.floor(probability * TRIALS + 0.5)
low = (TRIALS - spanned) // 2
print(json.dumps({"estimate": estimate, "standardUncertainty": uncertainty, "symmetric": [error[low - 1], error[low + spanned - 1]]}))
