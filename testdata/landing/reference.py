# Points of the Sobol sequence from SciPy (scipy.stats.qmc.Sobol, not scrambled; run
# with SciPy 1.10.1), the first 256 in 32 dimensions, as whole numbers of 2^-8: with
# 256 points no place has finer digits. Each line is one point.
from scipy.stats import qmc

points = qmc.Sobol(d=32, scramble=False).random(256) * 256
with open("sobol.csv", "w") as f:
    for p in points:
        f.write(",".join(str(int(x)) for x in p) + "\n")
