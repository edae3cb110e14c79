"""Makes figures.json: what each figure of a workload is at 20 000 trials, and its spread from run to run.

The benchmarks compare contestants within five of these standard errors. The figures come from runs of the NumPy script,
which shares no code with the engine:

    /usr/bin/python3 tests/bench/workloads/figures.py
"""

import json
import pathlib
import sys

import numpy as np

here = pathlib.Path(__file__).parent
sys.dont_write_bytecode = True
sys.path.insert(0, str(here.parent / "peers"))

import numpy_peer  # noqa: E402

TRIALS = 20_000
RUNS = 1000
# Far from the seeds of the benchmarks' rounds.
FIRST_SEED = 1_000_000


def figures(output):
    return {
        "estimate": output["estimate"],
        "standardUncertainty": output["standardUncertainty"],
        "symmetricLow": output["symmetric"][0],
        "symmetricHigh": output["symmetric"][1],
        "shortestLow": output["shortest"][0],
        "shortestHigh": output["shortest"][1],
    }


def spread(values):
    return {"mean": float(np.mean(values)), "standardDeviation": float(np.std(values, ddof=1))}


workloads = {}
for name, (_, m) in numpy_peer.WORKLOADS.items():
    runs = [numpy_peer.run(name, TRIALS, FIRST_SEED + i, "partition") for i in range(RUNS)]
    outputs = []
    for j in range(m):
        found = [figures(outputs_of_run[j]) for outputs_of_run, _ in runs]
        outputs.append({key: spread([f[key] for f in found]) for key in found[0]})
    workloads[name] = {"outputs": outputs, "ellipsoid": spread([factor for _, factor in runs]) if m > 1 else None}

made = {"madeBy": f"figures.py, NumPy {np.__version__}", "trials": TRIALS, "runs": RUNS, "workloads": workloads}
(here / "figures.json").write_text(json.dumps(made, indent=1) + "\n")
