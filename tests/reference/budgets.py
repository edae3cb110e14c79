"""Linear results of the ten budgets in tests/server/intake/budgets, worked out from what each states.

u(y) by JCGM 100, 5.1.2 (equation 10), effective degrees of freedom by G.4.1 (equation G.2b). Divisors by 4.3.7
(rectangular), 4.3.9 (triangular) and EA-4/02, 3.3; the U-shaped distribution's is the square root of 2.

    python3 tests/reference/budgets.py > tests/reference/budgets.json
"""

import json

import numpy as np

INF = np.inf
R3, R6, R2 = np.sqrt(3), np.sqrt(6), np.sqrt(2)

# name: (unit of the result, [(estimate, figure, divisor, coefficient, degrees of freedom)])
BUDGETS = {
    "brackenholt.csv": (
        "°C",
        [(25.0132, 1.2e-3, 1, 1, INF), (25.0104, 2.5e-3, 1, -1, INF), (0, 1.7e-3, 1, -1, INF), (0, 2.9e-3, 1, 1, INF)],
    ),
    "eschenried.csv": (
        "mK",
        [(2.0, 5.0, 2, 1, INF), (0, 3, R3, 1, INF), (0, 2.5, R3, 1, INF), (0, 1.2, 1, 1, 11)],
    ),
    "valmorin.xlsx": (
        "°C",
        [(0.004, 0.01, 2, 1, INF), (0, 0.006, R3, 1, INF), (0, 0.002, R6, -1, INF), (0.0012, 0.0015, 1, 1, 9)],
    ),
    "robledal.xlsx": ("mK", [(0, 12, 2, 1, INF), (0, 6, R3, 1, INF), (0, 9, R3, -1, INF), (-4, 2, 1, 1, 9)]),
    "poggiolo.txt": (
        "mK",
        [(0, 8, 2, -1, INF), (0, 4, R3, -1, INF), (0, 0.5, R3, 1, INF), (1.5, 1.1, 1, 1, 7)],
    ),
    "quillmere.txt": (
        "mK",
        [(0, 10, 2, 1, INF), (0, 6, R3, 1, INF), (0, 7, R2, 0.7, INF), (-1.25, 2.25, 1, 1, 5)],
    ),
    "weidenhag.xlsx": ("mK", [(0, 9, 2, 1, INF), (0, 5, R3, 1, INF), (0, 1, R6, 1, INF), (0, 4, R3, 1, INF)]),
    # 2.6 K/Ω is 2.6 mK/mΩ.
    "tarnwick.csv": ("mK", [(0, 0.6, 2, 2.6, INF), (0, 8, 2, 1, INF), (0, 5, R3, 1, INF)]),
    "sablonnet.csv": ("mK", [(0.5, 7, 2, 1, INF), (0, 4, R3, 1, INF), (1.5, 1.5, R3, -1, INF)]),
    "farrowby.xlsx": ("mK", [(0, 6, R3, 1, INF), (0, 9, R6, 1, INF), (0, 4, R2, -0.5, INF)]),
}


def linear(rows):
    estimate, figure, divisor, coefficient, freedom = (np.array(column, dtype=float) for column in zip(*rows))
    parts = coefficient * figure / divisor
    u = np.sqrt(np.sum(parts**2))
    inverse = np.sum(parts**4 / freedom) / u**4
    return {
        "estimate": float(coefficient @ estimate),
        "standardUncertainty": float(u),
        "degreesOfFreedom": None if inverse == 0 else float(1 / inverse),
        "contributions": [float(abs(part)) for part in parts],
    }


print(json.dumps({name: {"unit": unit, **linear(rows)} for name, (unit, rows) in BUDGETS.items()}, indent=2, ensure_ascii=False))
