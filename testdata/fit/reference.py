#!/usr/bin/env python3
"""Makes press_radial.csv and ring_lobes.csv with numpy and scipy alone.

press_radial: two rings pressed together, plane stress, solved two ways that
know nothing of Lame's closed form:
  bvp  the radial equation  (r s_r)' = s_t  with Hooke's law, as a boundary
       value problem over both rings at once (scipy.integrate.solve_bvp)
  fem  axisymmetric quadratic elements, 200 a ring, interference as a jump of
       displacement, stresses recovered from the nodal forces
ring_lobes: a ring under n equal radial loads as a frame of straight beam
elements (bending and axial, axial made 1e8 times too stiff, so that bending
alone is left as in the thin-ring formulas).

Run: python3 reference.py   (python3-numpy 1.24.2, python3-scipy 1.10.1)
"""
import csv
import numpy as np
from scipy.integrate import solve_bvp

# name, d, d_i, d_o (mm), E_i, nu_i, E_o, nu_o (MPa), interference on diameter (mm)
CASES = [
    ("steel sleeve in grey iron, thin wall", 85.725, 80.0, 130.0, 207e3, 0.29, 110e3, 0.26, 0.040),
    ("bronze sleeve in grey iron", 100.0, 88.0, 180.0, 100e3, 0.34, 110e3, 0.26, 0.060),
    ("brass ring in steel ring", 101.60, 50.8, 127.0, 103.4e3, 0.32, 206.7e3, 0.29, 0.051),
    ("thick on thick, one material", 50.0, 20.0, 100.0, 200e3, 0.29, 200e3, 0.29, 0.072),
    ("iron liner in a thin iron wall", 120.0, 112.0, 140.0, 120e3, 0.26, 110e3, 0.26, 0.050),
    ("aluminium hub, steel sleeve", 60.0, 50.0, 90.0, 207e3, 0.29, 70e3, 0.33, 0.060),
]


def bvp(d, di, do, ei, ni, eo, no, delta):
    """u in both rings over t in 0..1; returns p, u at bore, hoops."""
    a, b, c = di / 2, d / 2, do / 2

    def stress(u, du, r, e, n):
        k = e / (1 - n * n)
        return k * (du + n * u / r), k * (u / r + n * du)

    def rhs(t, y):
        r1, r2 = a + (b - a) * t, b + (c - b) * t
        return np.vstack([
            y[1] * (b - a), (-y[1] / r1 + y[0] / r1**2) * (b - a),
            y[3] * (c - b), (-y[3] / r2 + y[2] / r2**2) * (c - b)])

    def bc(l, r):
        return np.array([
            stress(l[0], l[1], a, ei, ni)[0] / 1e3,
            stress(r[2], r[3], c, eo, no)[0] / 1e3,
            (stress(r[0], r[1], b, ei, ni)[0] - stress(l[2], l[3], b, eo, no)[0]) / 1e3,
            l[2] - r[0] - delta / 2])

    s = solve_bvp(rhs, bc, np.linspace(0, 1, 200), np.zeros((4, 200)), tol=1e-10, max_nodes=100000)
    assert s.success
    l, r = s.y[:, 0], s.y[:, -1]
    p = -stress(r[0], r[1], b, ei, ni)[0]
    return (p, stress(l[2], l[3], b, eo, no)[1], stress(r[0], r[1], b, ei, ni)[1],
            stress(l[0], l[1], a, ei, ni)[1], -2 * l[0], 2 * r[2])


def stiffness(r0, r1, e, n):
    """Quadratic element of an axisymmetric disk a unit thick, per radian."""
    rn = np.array([r0, (r0 + r1) / 2, r1])
    D = e / (1 - n * n) * np.array([[1, n], [n, 1]])
    K = np.zeros((3, 3))
    for x, w in zip(*np.polynomial.legendre.leggauss(4)):
        N = np.array([x * (x - 1) / 2, 1 - x * x, x * (x + 1) / 2])
        dN = np.array([x - 0.5, -2 * x, x + 0.5])
        J, r = dN @ rn, N @ rn
        B = np.vstack([dN / J, N / r])
        K += B.T @ D @ B * r * J * w
    return K


def fem(d, di, do, ei, ni, eo, no, delta, m=200):
    def ring(r0, r1, e, n):
        edges = np.linspace(r0, r1, m + 1)
        K = np.zeros((2 * m + 1, 2 * m + 1))
        for i in range(m):
            K[2 * i:2 * i + 3, 2 * i:2 * i + 3] += stiffness(edges[i], edges[i + 1], e, n)
        return K
    b = d / 2
    Ki, Ko = ring(di / 2, b, ei, ni), ring(b, do / 2, eo, no)
    # unit pressure on each ring, then p from the gap to be closed
    fi = np.zeros(len(Ki)); fi[-1] = -b
    fo = np.zeros(len(Ko)); fo[0] = b
    ui, uo = np.linalg.solve(Ki, fi), np.linalg.solve(Ko, fo)
    p = delta / 2 / (uo[0] - ui[-1])
    ui, uo = ui * p, uo * p
    # hoop from the hoop strain and the known radial stress
    return (p, eo * uo[0] / b + no * -p, ei * ui[-1] / b + ni * -p, ei * ui[0] / (di / 2), -2 * ui[0], 2 * uo[-1])


with open("press_radial.csv", "w", newline="") as f:
    w = csv.writer(f)
    w.writerow("case method d_mm di_mm do_mm Ei_MPa nui Eo_MPa nuo delta_mm p_MPa hub_hoop_MPa sleeve_out_hoop_MPa sleeve_bore_hoop_MPa closure_mm growth_mm".split())
    for name, *v in CASES:
        for how in (bvp, fem):
            w.writerow([name, how.__name__] + v + ["%.7g" % x for x in how(*v)])


def frame(n, per=60):
    """Unit W, R, EI. Half a sector by symmetry: no rotation, no tangential move at either end."""
    th = np.pi / n
    ang = np.linspace(0, th, per * 4 + 1)
    P = np.column_stack([np.cos(ang), np.sin(ang)])
    N = len(P)
    K = np.zeros((3 * N, 3 * N))
    EA, EI = 1e8, 1.0
    for i in range(N - 1):
        v = P[i + 1] - P[i]
        L = np.hypot(*v)
        c, s = v / L
        k = np.zeros((6, 6))
        k[0, 0] = k[3, 3] = EA / L
        k[0, 3] = k[3, 0] = -EA / L
        kb = EI / L**3 * np.array([[12, 6*L, -12, 6*L], [6*L, 4*L*L, -6*L, 2*L*L], [-12, -6*L, 12, -6*L], [6*L, 2*L*L, -6*L, 4*L*L]])
        q = [1, 2, 4, 5]
        k[np.ix_(q, q)] += kb
        T = np.zeros((6, 6))
        for o in (0, 3):
            T[o:o+3, o:o+3] = [[c, s, 0], [-s, c, 0], [0, 0, 1]]
        ix = list(range(3 * i, 3 * i + 6))
        K[np.ix_(ix, ix)] += T.T @ k @ T
    # end rotations fixed; ends slide along their own radius only
    f = np.zeros(3 * N)
    free = []
    C = np.zeros((3 * N, 3 * N - 4))
    col = 0
    for i in range(N):
        if i in (0, N - 1):
            C[3*i, col], C[3*i+1, col] = P[i]
            col += 1
        else:
            for j in range(3):
                C[3*i+j, col] = 1
                col += 1
    f[0] = -0.5  # half the load belongs to this half sector
    u = C @ np.linalg.solve(C.T @ K @ C, C.T @ f)
    M = (K @ u - f)
    return -(u[0]*P[0][0] + u[1]*P[0][1]), u[-3]*P[-1][0] + u[-2]*P[-1][1], abs(M[2]), abs(M[-1])


with open("ring_lobes.csv", "w", newline="") as f:
    w = csv.writer(f)
    w.writerow("loads in_at_load_WR3_EI out_midway_WR3_EI moment_at_load_WR moment_midway_WR".split())
    for n in (2, 3, 4, 6, 8):
        w.writerow([n] + ["%.5g" % x for x in frame(n)])
