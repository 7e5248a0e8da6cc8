"""How reference.json was made: python3 reference.py > reference.json

Another method than the program's. The program uses unit-load integrals for
statics and consistent-mass finite elements for vibration. Here each section is
solved exactly as a Timoshenko beam by the matrix exponential of its state
(deflection, slope, moment, shear), springs, masses and loads are jumps between
sections, and natural frequencies are roots of the end condition's determinant.
numpy 1.24, scipy 1.10 from Debian packages python3-numpy, python3-scipy.
mm, N, MPa, rad, kg, Hz. The bars are invented.
"""
import json
import numpy as np
from scipy.linalg import expm
from scipy.optimize import brentq

G0 = 9.80665


def props(s):
    d, h, l, e, nu, rho = s
    a = np.pi / 4 * (d**2 - h**2)
    i = np.pi / 64 * (d**4 - h**4)
    m = h / d
    q = (1 + m * m) ** 2
    ks = 6 * (1 + nu) * q / ((7 + 6 * nu) * q + (20 + 12 * nu) * m * m)  # Cowper 1966
    return a, i, e * i, ks * e / (2 * (1 + nu)) * a, rho * 1e-12  # tonne/mm^3


def march(case, w2, load, weight):
    """Returns (free-end moment and shear, states at stops) as affine functions
    of the two unknowns at the nose: matrices 4x3 (two unknowns, constant)."""
    kr, kt = case["root"]
    y = np.zeros((4, 3))
    if kr == "rigid":
        y[3, 0] = 1
    else:
        y[0, 0], y[3, 0] = 1 / kr, 1  # shear = kr * w
    if kt == "rigid":
        y[2, 1] = 1
    else:
        y[1, 1], y[2, 1] = 1 / kt, 1
    stops = {case["cutter"]}
    if case["support"]:
        stops.add(case["support"][0])
    x, seen, peak = 0.0, {}, []
    for s in case["sections"]:
        a, i, ei, kga, rho = props(s)
        end = x + s[2]
        cuts = sorted({c for c in stops if x < c < end} | {end})
        for c in cuts:
            q = rho * a * G0 * 1e3 if weight else 0.0  # N/mm: tonne/mm * m/s^2 * 1e3
            m = np.zeros((5, 5))  # w, psi, M, V, 1
            m[0, 1], m[0, 3] = 1, 1 / kga
            m[1, 2] = 1 / ei
            m[2, 3], m[2, 1] = -1, -rho * i * w2
            m[3, 0], m[3, 4] = -rho * a * w2, -q
            peak.append((s[0] / 2 / i, y.copy()))
            t = expm(m * (c - x))
            z = t[:4, :4] @ y
            z[:, 2] += t[:4, 4]
            y = z
            peak.append((s[0] / 2 / i, y.copy()))
            x = c
            seen[c] = y.copy()
            if c == case["cutter"]:
                y[3, 2] -= load
                y[3] -= case["tip"] / 1e3 * w2 * y[0]
                if weight:
                    y[3, 2] -= case["tip"] * G0
            if case["support"] and c == case["support"][0]:
                y[3] += case["support"][1] * y[0]
    return y[2:], seen, peak


def solve(case, w2, load, weight):
    end, seen, peak = march(case, w2, load, weight)
    u = np.linalg.solve(end[:, :2], -end[:, 2])
    at = seen[case["cutter"]]
    val = at[:, :2] @ u + at[:, 2]
    stress = max(abs(c * (y[2, :2] @ u + y[2, 2])) for c, y in peak)
    return val, stress


def freqs(case, n):
    def det(hz):
        end, _, _ = march(case, (2 * np.pi * hz) ** 2, 0, False)
        return np.linalg.det(end[:, :2])

    out, hz, step = [], 1.0, 2.0
    last = det(hz)
    while len(out) < n:
        now = det(hz + step)
        if last * now < 0:
            out.append(brentq(det, hz, hz + step, xtol=1e-9))
        hz, last = hz + step, now
    return out


STEEL = [207000.0, 0.29, 7850.0]
CARBIDE = [560000.0, 0.22, 14300.0]
cases = [
    dict(name="plain bar, rigid nose", sections=[[50, 0, 250, 210000.0, 0.3, 7850.0]], root=["rigid", "rigid"], cutter=250.0, support=None, tip=0.0),
    dict(name="bar of 57 in a quill of 127, yielding nose, head 0.6 kg", sections=[[127, 0, 64] + STEEL, [57.15, 0, 444.5] + STEEL], root=[3e5, 4e9], cutter=495.0, support=None, tip=0.6),
    dict(name="steel shank, hollow carbide bar, steel end", sections=[[80, 20, 150] + STEEL, [50, 10, 250] + CARBIDE, [44, 0, 40] + STEEL], root=[5e5, 2e9], cutter=430.0, support=None, tip=0.8),
    dict(name="line bar on an outboard bearing, cutter within", sections=[[100, 0, 120] + STEEL, [60, 0, 1000] + STEEL, [50, 0, 180] + STEEL], root=[3e5, 3e9], cutter=640.0, support=[1250.0, 2e5], tip=0.4),
    dict(name="bush before the cutter", sections=[[80, 0, 500] + STEEL, [60, 0, 200] + STEEL], root=[4e5, 4e9], cutter=690.0, support=[450.0, 1.5e5], tip=0.5),
    dict(name="quill far out", sections=[[127, 38, 500] + STEEL, [63.5, 0, 300] + STEEL, [75, 0, 60] + STEEL], root=[3e5, 4e9], cutter=840.0, support=None, tip=1.2),
]
for c in cases:
    val, stress = solve(c, 0.0, 1.0, False)
    sag, _ = solve(c, 0.0, 0.0, True)
    c["compliance"], c["stress"] = val[0], stress
    c["drop"], c["slope"] = sag[0], sag[1]
    c["hz"] = freqs(c, 4)
    at = [0.5 * c["hz"][0], 1.1 * c["hz"][0], 0.5 * (c["hz"][0] + c["hz"][1]), 0.9 * c["hz"][1]]
    c["at"] = at
    c["receptance"] = [solve(c, (2 * np.pi * f) ** 2, 1.0, False)[0][0] for f in at]
print(json.dumps(cases, indent=1, ensure_ascii=False))
