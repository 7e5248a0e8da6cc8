"""Independent reference for the circle fits: writes circles.json.

Run with Debian 12's python3 and packages python3-numpy 1.24.2 and
python3-scipy 1.10.1:  /usr/bin/python3 circles.py > circles.json

LSC: scipy.optimize.least_squares on the true distances (method lm), then
fsolve on the gradient.
MZC, MCC, MIC: the minimax problem on the true distances, solved as a sequence
of linear programs (scipy.optimize.linprog, HiGHS) within a shrinking step
bound, from 37 starts; the best of them is kept. No code or method in common with
the package under test. The invented readings come from numpy's PCG64, seed 12181.
"""
import json
import numpy as np
from scipy.optimize import fsolve, least_squares, linprog

rng = np.random.Generator(np.random.PCG64(12181))


def xy(clock, radius):
    t = np.radians(clock)
    return np.column_stack([radius * np.sin(t), radius * np.cos(t)])


def lsc(p):
    s = least_squares(lambda v: np.hypot(p[:, 0] - v[0], p[:, 1] - v[1]) - v[2],
                      [*p.mean(axis=0), np.hypot(*(p - p.mean(axis=0)).T).mean()],
                      method="lm", xtol=1e-15, ftol=1e-15, gtol=1e-15)
    # least_squares stops where the sum is flat, about 1e-8; the place where the
    # gradient is nought is found sharper as a root
    def gradient(v):
        w = p - v[:2]
        d = np.hypot(*w.T)
        return [*(((d - v[2]) / d) @ w), (d - v[2]).sum()]
    r = fsolve(gradient, s.x, xtol=1e-14)
    assert np.abs(r - s.x).max() < 1e-5
    return r


def value(p, c, kind):
    d = np.hypot(*(p - c).T)
    return {"MZ": d.max() - d.min(), "MC": d.max(), "MI": -d.min()}[kind]


def among(p, c):
    a = np.sort(np.arctan2(*(p - c).T))
    return np.max(np.diff(np.append(a, a[0] + 2 * np.pi))) <= np.pi + 1e-9


def descend(p, c, kind, step):
    best = value(p, c, kind)
    while step > 1e-12:
        d = np.hypot(*(p - c).T)
        u = (p - c) / d[:, None]
        n = len(p)
        one, zero = np.ones((n, 1)), np.zeros((n, 1))
        rows, rhs = [], []  # unknowns: dx, dy, outer, inner, about the present values
        if kind != "MI":
            rows.append(np.hstack([-u, -one, zero])), rhs.append(d.max() - d)
        if kind != "MC":
            rows.append(np.hstack([u, zero, one])), rhs.append(d - d.min())
        cost = {"MZ": [0, 0, 1, -1], "MC": [0, 0, 1, 0], "MI": [0, 0, 0, -1]}[kind]
        scale = step
        r = linprog(cost, A_ub=np.vstack(rows), b_ub=np.concatenate(rhs) / scale,
                    bounds=[(-1, 1), (-1, 1), (None, None), (None, None)], method="highs")
        if r.status != 0:
            step /= 4
            continue
        m = c + scale * r.x[:2]
        v = value(p, m, kind)
        if v < best - 1e-15:
            c, best = m, v
        else:
            step /= 4
    return c, best


def minimax(p, kind):
    base = lsc(p)[:2]
    size = np.hypot(*(p - base).T)
    span = size.max() - size.min()
    starts = [base]
    for f in (0.3, 1.0, 2.0):
        for a in range(12):
            starts.append(base + f * span * np.array([np.sin(a * np.pi / 6), np.cos(a * np.pi / 6)]))
    found = []
    for s in starts:
        if among(p, s):
            c, v = descend(p, s, kind, span / 2)
            if among(p, c):
                found.append((v, c))
    found.sort(key=lambda f: f[0])
    v, c = found[0]
    # another centre that does as well makes the centre no ground for a check
    alone = all(np.hypot(*(c - d)) < 1e-6 or w - v > 1e-6 for w, d in found)
    return c, v, alone


sets = [("formulas.md 10, 8 points", np.arange(8) * -45.0 + 90, 50 + np.array([0, 2, 2, 4, 1, 3, 4, -2]) / 1000)]
for k, (n, ecc, oval, lobe, noise, R) in enumerate([
        (3, .1, .0, .0, .1, 40), (4, .2, .1, .0, .05, 40), (5, .3, .1, .05, .05, 40), (6, .5, .2, .0, .02, 60),
        (8, .05, .02, .01, .005, 50), (8, 3.0, .4, .1, .05, 30), (12, 1.0, .5, .2, .05, 25),
        (16, 8.0, 1.0, .5, .2, 30), (24, .02, .01, .004, .002, 110), (36, .2, .05, .03, .01, 80),
        (72, .5, .2, .1, .03, 60), (180, .01, .005, .003, .001, 45)]):
    clock = np.sort((np.arange(n) + rng.uniform(-.35, .35, n)) * 360 / n) % 360
    t = np.radians(clock)
    e, a = ecc, rng.uniform(0, 2 * np.pi)
    true = R + oval * np.cos(2 * t + 1) + lobe * np.cos(3 * t + 2) + rng.normal(0, noise, n)
    # readings from an axis e off the bore's own
    radius = e * np.cos(t - a) + np.sqrt(true ** 2 - (e * np.sin(t - a)) ** 2)
    sets.append((f"invented {k + 1}: n {n}, offset {ecc}, oval {oval}, three lobes {lobe}, scatter {noise}",
                 np.round(clock, 3), np.round(radius, 5)))

out = []
for name, clock, radius in sets:
    p = xy(clock, radius)
    row = {"name": name, "clock": list(map(float, clock)), "radius": list(map(float, radius))}
    x, y, r = lsc(p)
    d = np.hypot(p[:, 0] - x, p[:, 1] - y) - r
    row["LS"] = dict(x=x, y=y, r=r, ront=d.max() - d.min(), ronp=d.max(), ronv=-d.min(), ronq=float(np.sqrt((d ** 2).mean())))
    for kind in ("MZ", "MC", "MI"):
        c, v, alone = minimax(p, kind)
        d = np.hypot(*(p - c).T)
        row[kind] = dict(x=c[0], y=c[1], outer=d.max(), inner=d.min(), alone=bool(alone))
    out.append(row)
print("[\n" + ",\n".join(json.dumps(r) for r in out) + "\n]")
