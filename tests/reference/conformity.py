#!/usr/bin/python3
"""Writes conformity.json: probabilities of conformity and risks of JCGM 106:2012, by SciPy.

Run: /usr/bin/python3 conformity.py > conformity.json     (made with SciPy 1.10, NumPy 1.24)

Figures that had been
computed before, by another program with 13 digits, are held in `carried`; the script stops where it disagrees with them.
"""
import json
from scipy import stats
from scipy.integrate import quad

INF = float("inf")


def conformity(y, u, low, high, dof=None):
    d = stats.norm(y, u) if dof is None else stats.t(dof, y, u)
    below = 0.0 if low is None else d.cdf(low)
    above = 0.0 if high is None else d.sf(high)
    return {"pc": 1 - below - above if below + above < 0.5 else d.cdf(INF if high is None else high) - below, "below": below, "above": above}


def risks(prior, um, low, high, a_low, a_high):
    low, high, a_low, a_high = [s if v is None else v for v, s in ((low, -INF), (high, INF), (a_low, -INF), (a_high, INF))]
    # From the tails, so that neither probability is a difference of nearly equal numbers.
    rejected = lambda x: stats.norm.cdf((a_low - x) / um) + stats.norm.sf((a_high - x) / um)
    def accepted(x):
        if x > a_high:
            return stats.norm.sf((x - a_high) / um) - stats.norm.sf((x - a_low) / um)
        return stats.norm.cdf((a_high - x) / um) - stats.norm.cdf((a_low - x) / um)
    ends = [prior.ppf(1e-17) if prior.ppf(1e-17) > -INF else prior.ppf(1e-15), prior.isf(1e-17)]
    knots = sorted({*ends, *[e + k * um for e in (a_low, a_high) if abs(e) < INF for k in range(-10, 11)],
                    *[prior.mean() + k * prior.std() for k in range(-10, 11)], low, high})
    def over(f, start, stop):
        start, stop = max(start, ends[0]), min(stop, ends[1])
        at = [start] + [k for k in knots if start < k < stop] + [stop]
        return sum(quad(f, a, b, epsabs=1e-16, epsrel=1e-12, limit=400)[0] for a, b in zip(at, at[1:]) if b > a)
    c = lambda x: prior.pdf(x) * accepted(x)
    p = lambda x: prior.pdf(x) * rejected(x)
    return {"consumer": over(c, -INF, low) + over(c, high, INF), "producer": over(p, low, high)}


def check(name, got, carried, tolerance):
    if carried is not None and abs(got - carried) > tolerance:
        raise SystemExit(f"{name}: {got} here, {carried} before")
    return got


DOC = "JCGM 106:2012"
out = {}

out["one limit"] = []
for y, u, high, printed, carried in [(-5.47, 0.05, -5.40, 0.92, 0.919243340766)]:
    c = conformity(y, u, None, high)
    check("breakdown voltage", c["pc"], carried, 1e-12)
    out["one limit"].append({"source": f"{DOC}, 7.3.3, example 1: breakdown voltage of a Zener diode with an upper limit",
                             "y": y, "u": u, "lower": None, "upper": high, "printed": printed, **c})

c = conformity(13.6, 1.8, 12.5, 16.3)
check("oil", c["pc"], 0.662629786495, 1e-12)
out["two limits"] = [{"source": f"{DOC}, 7.4, example: kinematic viscosity of a motor oil, p_c printed 0.66",
                      "y": 13.6, "u": 1.8, "lower": 12.5, "upper": 16.3, **c}]

# p_c on the grid of C_m = (T_U - T_L)/(4u) and y~ = (y - T_L)/(T_U - T_L): 7.7.2 and its figure.
carried = {(1, 0): 0.499968328758, (1, 0.05): 0.579187361395, (1, 0.1): 0.65526263302, (1, 0.25): 0.839994848037, (1, 0.5): 0.954499736104,
           (2, 0): 0.5, (2, 0.05): 0.65542174161, (2, 0.1): 0.788144601416, (2, 0.25): 0.977249867065, (2, 0.5): 0.999936657516,
           (4, 0): 0.5, (4, 0.05): 0.788144601417, (4, 0.1): 0.9452007083, (4, 0.25): 0.999968328758, (4, 0.5): 1.0}
out["capability grid"] = {"source": f"{DOC}, 7.7.2, equation (14): p_c = Phi(4 C_m (1 - y~)) - Phi(-4 C_m y~)",
                          "rows": [{"cm": cm, "at": at, "pc": check("grid", stats.norm.cdf(4 * cm * (1 - at)) - stats.norm.cdf(-4 * cm * at), value, 1e-12)}
                                   for (cm, at), value in carried.items()]}

out["t budget"] = {"source": "SciPy, stats.t", "rows": [
    {"y": y, "u": u, "dof": dof, "lower": low, "upper": high, **conformity(y, u, low, high, dof)}
    for y, u, dof, low, high in [(0.12, 0.04, 4.7, -0.294, 0.294), (0.25, 0.03, 9, None, 0.294), (-0.31, 0.02, 3, -0.294, None), (0.4, 0.02, 16.7, -0.294, 0.294),
                                 (-0.4, 0.05, 2, -0.294, 0.294)]]}

carried = {0: 0.5, 0.5: 0.158655253931, 0.83: 0.0484572262667, 1.0: 0.0227501319482, 1.5: 0.00134989803163}
out["risk at an acceptance limit"] = {"source": f"{DOC}, 8.3.2: y on the acceptance limit, w = r*U, U = 2u, other limit far away",
                                      "rows": [{"r": r, "risk": check("guard", stats.norm.sf(2 * r), value, 1e-12)} for r, value in carried.items()]}

# Posterior of a normal prior and a normal measurement: Bayes by quadrature, not by the closed form.
rows = []
for y0, u0, ym, um in [(1500, 0.12, 1500.15, 0.04), (0, 1, 3, 1), (10, 0.1, 9, 5)]:
    ratio = lambda x: stats.norm.pdf(x, y0, u0) * stats.norm.pdf(ym, x, um)
    centre = min(y0, ym), max(y0, ym)
    lo, hi = centre[0] - 12 * min(u0, um), centre[1] + 12 * min(u0, um)
    n = quad(ratio, lo, hi, epsabs=0, epsrel=1e-13, limit=800)[0]
    m = quad(lambda x: x * ratio(x), lo, hi, epsabs=0, epsrel=1e-13, limit=800)[0] / n
    v = quad(lambda x: (x - m) ** 2 * ratio(x), lo, hi, epsabs=0, epsrel=1e-13, limit=800)[0] / n
    rows.append({"mean": y0, "sd": u0, "measured": ym, "u": um, "estimate": m, "posteriorU": v ** 0.5})
out["posterior"] = {"source": f"{DOC}, 7.2 and annex A; Bayes' theorem by quadrature", "rows": rows}

carried = {-0.08: (0.069404610012, 0.000680600973973), 0.0: (0.018942206717, 0.037207800178), 0.04: (0.00433407222182, 0.114656578408),
           0.08: (0.000468633598872, 0.247669640201)}
rows = []
for w, (rc, rp) in carried.items():
    r = risks(stats.norm(1500, 0.12), 0.04, 1499.8, 1500.2, 1499.8 + w, 1500.2 - w)
    rows.append({"w": w, "consumer": check("resistors", r["consumer"], rc, 1e-12), "producer": check("resistors", r["producer"], rp, 1e-12)})
out["normal prior"] = {"source": f"{DOC}, 9.5; inputs resemble its production of resistors, no printed risk claimed",
                       "mean": 1500, "sd": 0.12, "u": 0.04, "lower": 1499.8, "upper": 1500.2,
                       "priorPc": check("prior", conformity(1500, 0.12, 1499.8, 1500.2)["pc"], 0.904419295454, 1e-12), "rows": rows}

carried = {2.0: (0.00801911188429, 0.0174445692298), 1.8: (0.0026118857387, 0.0460772110553), 1.75: (0.00183902508958, 0.056430741045),
           1.5: (0.000199327882342, 0.130825873453)}
rows = []
for a, (rc, rp) in carried.items():
    r = risks(stats.gamma(4, scale=0.25), 0.25, None, 2, None, a)
    rows.append({"acceptanceUpper": a, "consumer": check("bearings", r["consumer"], rc, 1e-12), "producer": check("bearings", r["producer"], rp, 1e-12)})
out["gamma prior"] = {"source": f"{DOC}, 9.5.4: error motion of bearings, upper limit 2 um; prior gamma(4, 4), equation (22), u_m = 0.25 um; printed at r = 0.65: consumer 0.1 %, producer 7.5 %",
                      "shape": 4, "scale": 0.25, "u": 0.25, "upper": 2, "nonconforming": check("bearings", stats.gamma(4, scale=0.25).sf(2), 0.0423801119917, 1e-12), "rows": rows}

# Shapes that are hard for a quadrature: sharp and blunt measurement, narrow and wide prior, prior off the tolerance.
cases = [(0, 1, 1e-4, -1, 1, 0), (0, 1, 1e-4, -1, 1, 1e-4), (0, 0.01, 1, -1, 1, 0.5), (3, 0.5, 0.2, -1, 1, 0.1), (0, 1, 0.3, -1, None, 0.3), (0, 1, 0.3, None, 0.5, -0.4),
         (0, 0.05, 0.02, -0.294, 0.294, 0.04), (72, 0.15, 0.02, 71.706, 72.294, 0.04), (0, 5, 0.01, 0.1, 0.2, 0.01)]
out["other priors"] = {"source": f"{DOC}, 9.5, by SciPy quadrature", "rows": [
    {"mean": m, "sd": s, "u": u, "lower": low, "upper": high, "w": w,
     **risks(stats.norm(m, s), u, low, high, None if low is None else low + w, None if high is None else high - w)}
    for m, s, u, low, high, w in cases]}

print(json.dumps(out, indent=1))
