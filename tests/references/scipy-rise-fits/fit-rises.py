"""Draws the curves and fits p(t) = p0 + k t + A (1 - exp(-t / tau)) with k, A >= 0 to them; see README.md."""

import csv
import pathlib

import numpy as np
import scipy
from scipy.optimize import brentq, lsq_linear, minimize_scalar

NOISE = 0.005
DROP = 3.84
# name, p0 [Pa], k [Pa/s], A [Pa], tau [s], length [s], interval [s]
CURVES = [
    ("mixed", 40, 0.1, 60, 120, 1800, 15),
    ("moisture", 40, 0, 30, 200, 900, 8),
    ("leak-and-quick", 40, 0.2, 30, 60, 900, 8),
    ("leak-and-slow", 60, 0.3, 300, 450, 3600, 30),
    ("early-part", 30, 0, 200, 1200, 900, 8),
    ("late-leak", 25, 0.02, 90, 150, 2400, 20),
]


FIELDS = "curve,p0_pa,leak_pa_per_s,amplitude_pa,time_constant_s,chi_squared,plateau_low_pa,plateau_high_pa"
# key, residual standard deviation as certified
DATA_SETS = [("nist-misra1a", 1.0187876330e-1), ("nist-boxbod", 1.7088072423e1)]


class Rise:
    def __init__(self, t, p, sigma):
        self.t, self.p, self.w = t, p, 1 / sigma

    def linear(self, columns, target):
        solved = lsq_linear(columns * self.w[:, None], target * self.w, bounds=(0, np.inf), method="bvls", tol=1e-14)
        return 2 * solved.cost, solved.x

    def at(self, tau, leaks=True):
        """Chi-squared and p0, k (where it may leak), A at a time constant."""
        t = self.t
        columns = [np.ones_like(t), t, -np.expm1(-t / tau)] if leaks else [np.ones_like(t), -np.expm1(-t / tau)]
        return self.linear(np.column_stack(columns), self.p)

    def levelling_at(self, level, tau, leaks):
        """Chi-squared at a time constant where the saturating part is to level at that pressure."""
        t = self.t
        columns = [-np.exp(-t / tau), t] if leaks else [-np.exp(-t / tau)]
        return self.linear(np.column_stack(columns), self.p - level)[0]

    def least(self, misfit):
        """Least of a function of the time constant, and where."""
        grid = np.geomspace(self.t[-1] / 300, 1e5 * self.t[-1], 400)
        values = [misfit(tau) for tau in grid]
        i = min(max(int(np.argmin(values)), 1), len(grid) - 2)
        bounds = np.log([grid[i - 1], grid[i + 1]])
        found = minimize_scalar(lambda x: misfit(np.exp(x)), bounds=bounds, method="bounded", options={"xatol": 1e-10})
        return found.fun, float(np.exp(found.x))


def plateau_end(rise, level, leaks, chi2, factor):
    """Where the profile of the plateau has risen by DROP; infinite where it never does."""
    def above(at):
        return rise.least(lambda tau: rise.levelling_at(at, tau, leaks))[0] - chi2 - DROP
    far = level
    while above(far * factor) < 0:
        far *= factor
        if far > 1000 * level:
            return np.inf
    return brentq(above, *sorted((far, far * factor)), rtol=1e-7)


def nist(here, rows):
    """Where the data sets level off: with a constant that is free, and with 0 at 0 as the certified model has it."""
    for key, sigma in DATA_SETS:
        data = np.genfromtxt(here.parent / key / "values.csv", delimiter=",", skip_header=1)
        for constant in ("free", "zero"):
            x, y = data.T
            sigmas = np.full(x.size, sigma)
            if constant == "zero":
                x, y, sigmas = np.r_[0, x], np.r_[0, y], np.r_[sigma / 1000, sigmas]
            rise = Rise(x, y, sigmas)
            chi2, best = rise.least(lambda tau: rise.at(tau, False)[0])
            level = sum(rise.at(best, False)[1])
            ends = [plateau_end(rise, level, False, chi2, factor) for factor in (1 / 1.005, 1.005)]
            rows.writerow([key, constant, *(f"{v:.8g}" if np.isfinite(v) else "" for v in (level, *ends, best, chi2))])


def main():
    here = pathlib.Path(__file__).parent
    with open(here / "nist.csv", "w", newline="") as file:
        rows = csv.writer(file, lineterminator="\n")
        rows.writerow("data_set,constant,level,level_low,level_high,time_constant,chi_squared".split(","))
        nist(here, rows)
    random = np.random.default_rng(20260305)
    print("SciPy", scipy.__version__, "NumPy", np.__version__)
    with (here / "curves.csv").open("w", newline="") as curves, (here / "values.csv").open("w", newline="") as values:
        points, rows = csv.writer(curves, lineterminator="\n"), csv.writer(values, lineterminator="\n")
        points.writerow(["curve", "since_s", "vacuum_pa"])
        rows.writerow(FIELDS.split(","))
        for name, p0, k, a, tau, length, interval in CURVES:
            t = np.arange(0, length + interval / 2, interval, dtype=float)
            p = np.round((p0 + k * t - a * np.expm1(-t / tau)) * random.normal(1, NOISE, t.size), 4)
            points.writerows([name, f"{x:g}", f"{y:.4f}"] for x, y in zip(t, p))
            rise = Rise(t[1:], p[1:], NOISE * p[1:])
            chi2, best = rise.least(lambda x: rise.at(x)[0])
            sizes = rise.at(best)[1]
            ends = [plateau_end(rise, sizes[0] + sizes[2], sizes[1] > 0, chi2, factor) for factor in (1 / 1.02, 1.02)]
            rows.writerow([name, *(f"{x:.7g}" for x in (*sizes, best, chi2, *ends))])


main()
