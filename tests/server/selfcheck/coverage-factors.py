"""Coverage factors k_p and k_q of the examples of JCGM 102:2011, 6.5.2.3, 7.7.2 and 9.3, and their standard errors times the root
of the number of trials: what server/selfcheck/groups/jcgm-102.ts holds its own trials against.

    /usr/bin/python3 coverage-factors.py

numpy, PCG64, 10 million trials a case; some two minutes. The scale of a factor is sqrt(p(1 - p)) over the density of the
distances there, counted within 0.02 of it; that of r comes from its influence function.
"""

import numpy as np

TRIALS = 10_000_000
P = 0.95


def report(name, y1, y2):
    deviations = np.stack([y1, y2])
    deviations -= deviations.mean(axis=1, keepdims=True)
    covariance = deviations @ deviations.T / (TRIALS - 1)
    u = np.sqrt(np.diag(covariance))
    r = covariance[0, 1] / (u[0] * u[1])
    z = deviations / u[:, None]
    whitened = np.linalg.inv(np.linalg.cholesky(covariance)) @ deviations
    influence = z[0] * z[1] - r / 2 * (z[0] ** 2 + z[1] ** 2)
    print(f"{name}: r {r:.6f}, scale {influence.std():.4f}")
    for factor, distance in (("k_p", np.sqrt((whitened**2).sum(axis=0))), ("k_q", np.abs(z).max(axis=0))):
        k = np.quantile(distance, P)
        density = (np.abs(distance - k) < 0.02).mean() / 0.04
        print(f"  {factor} {k:.6f}, scale {np.sqrt(P * (1 - P)) / density:.3f}")


for third in ("normal", "rectangular"):
    draw = np.random.default_rng(1)
    x1, x2 = draw.normal(0, 0.1**0.5, (2, TRIALS))
    x3 = draw.normal(0, 1.9**0.5, TRIALS) if third == "normal" else draw.uniform(-(5.7**0.5), 5.7**0.5, TRIALS)
    report(f"common term, {third}", x1 + x3, x2 + x3)

for x in (0.001, 0.010, 0.100):
    for correlation in (0, 0.9):
        a, b = np.random.default_rng(2).normal(size=(2, TRIALS))
        x1 = x + 0.010 * a
        x2 = 0.010 * (correlation * a + np.sqrt(1 - correlation**2) * b)
        report(f"9.3, x1 = {x}, r = {correlation}", np.hypot(x1, x2), np.arctan2(x2, x1))
