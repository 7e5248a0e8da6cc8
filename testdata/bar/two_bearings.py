"""How two-bearings.json was made: python3 two_bearings.py > two-bearings.json

Another method than the program's. The program uses unit-load integrals for statics and
consistent-mass finite elements for vibration. Here the bar is followed from its free near
end piece by piece (transfer matrices; of vibration with lumped masses, after Myklestad 1944
and Prohl 1945, from memory): deflection w, slope p, moment M, shear V, with
M = -EI p', V = M' = kGA (w' - p). Bearings, masses and loads are jumps between pieces, and
the far end is free. Pure Python 3. mm, N, MPa, rad, Hz. The bars are invented.
"""
import json
import math

G0 = 9.80665
PIECE = 2.0  # mm


def props(s):
    d, h, _, e, nu, rho = s
    a = math.pi / 4 * (d**2 - h**2)
    i = math.pi / 64 * (d**4 - h**4)
    m = h / d
    q = (1 + m * m) ** 2
    ks = 6 * (1 + nu) * q / ((7 + 6 * nu) * q + (20 + 12 * nu) * m * m)  # Cowper 1966
    return a, i, e * i, ks * e / (2 * (1 + nu)) * a, rho * 1e-12


def pieces(case):
    stops = {case["cutter"], case["near"][0], case["far"][0]}
    x = 0.0
    for s in case["sections"]:
        end = x + s[2]
        for stop in sorted({c for c in stops if x < c < end} | {end}):
            n = max(1, round((stop - x) / PIECE))
            for k in range(n):
                yield x + (stop - x) * k / n, x + (stop - x) * (k + 1) / n, s
            x = stop


def march(case, start, w2=0.0, force=0.0, couple=0.0, weight=False):
    """The state at the far end and the deflection and slope at the cutter."""
    w, p, m, v = start[0], start[1], 0.0, 0.0
    at = None
    for x0, x1, s in pieces(case):
        a, i, ei, kga, rho = props(s)
        l = x1 - x0
        mass, turn = rho * a * l / 2, rho * i * l / 2

        def node(w, p, m, v):
            v -= mass * w2 * w
            m += turn * w2 * p
            if weight:
                v -= mass * G0 * 1e3
            return m, v

        m, v = node(w, p, m, v)
        # a piece without load on it: V constant, M straight, p a square, w a cube
        w, p, m = (w + p * l - m * l * l / (2 * ei) - v * l**3 / (6 * ei) + v * l / kga,
                   p - m * l / ei - v * l * l / (2 * ei), m + v * l)
        m, v = node(w, p, m, v)
        for b in ("near", "far"):
            if abs(x1 - case[b][0]) < 1e-9:
                v += case[b][1] * w
        if abs(x1 - case["cutter"]) < 1e-9:
            v -= force
            m += couple
            at = (w, p)
    return m, v, at


def solve(case, **load):
    """Deflection and slope at the cutter: the two unknowns are those at the near end."""
    scale = 1e-3
    c, a, b = march(case, (0, 0), **load), march(case, (1, 0), **load), march(case, (0, scale), **load)
    a11, a12, a21, a22 = a[0] - c[0], b[0] - c[0], a[1] - c[1], b[1] - c[1]
    det = a11 * a22 - a12 * a21
    u = (-c[0] * a22 + c[1] * a12) / det
    t = (-a11 * c[1] + a21 * c[0]) / det
    w, p = march(case, (u, t * scale), **load)[2]
    return w, p


def det(case, hz):
    w2 = (2 * math.pi * hz) ** 2
    a, b = march(case, (1, 0), w2), march(case, (0, 1e-3), w2)
    return a[0] * b[1] - a[1] * b[0]


def first(case):
    lo, step = 5.0, 5.0
    was = det(case, lo)
    while True:
        now = det(case, lo + step)
        if (now > 0) != (was > 0):
            break
        lo, was = lo + step, now
    hi = lo + step
    for _ in range(40):
        mid = (lo + hi) / 2
        if (det(case, mid) > 0) == (was > 0):
            lo = mid
        else:
            hi = mid
    return lo


STEEL = (207000.0, 0.29, 7850.0)
CASES = [
    {"why": "plain bar, cutter beside the near bearing", "sections": [(80, 0, 1800, *STEEL)], "near": (800, 1.2e5), "far": (1600, 1.2e5), "cutter": 840},
    {"why": "plain bar, cutter in the middle", "sections": [(80, 0, 1800, *STEEL)], "near": (800, 1.2e5), "far": (1600, 1.2e5), "cutter": 1200},
    {"why": "plain bar, soft near bearing, cutter far out", "sections": [(80, 0, 1800, *STEEL)], "near": (300, 2e4), "far": (1600, 2e5), "cutter": 1300},
    {"why": "hollow bar, long overhang at both ends", "sections": [(100, 40, 2200, *STEEL)], "near": (500, 1e5), "far": (1500, 1e5), "cutter": 900},
]


def main():
    for c in CASES:
        radial, _ = solve(c, force=1.0)
        turn, _ = solve(c, couple=1.0)
        drop, _ = solve(c, weight=True)
        c["compliance"], c["arm"], c["sag"], c["hz"] = radial, turn, drop, first(c)
    print(json.dumps(CASES, indent=1))


main()
