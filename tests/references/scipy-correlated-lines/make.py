# Prints the three tables of this folder: python3 make.py. NumPy 2.4, SciPy 1.17.
import numpy as np
from scipy.optimize import brentq
from scipy.stats import norm

here = __file__.rsplit('/', 1)[0]

with open(f'{here}/normal.csv', 'w') as out:
    out.write('z,share\n')
    for z in (-6, -3, -1.959964, -1, -0.3, 0, 0.5, 1, 1.644854, 1.959964, 2.575829, 4):
        out.write(f'{z},{norm.cdf(z):.12g}\n')

mixtures = [((1, 2, 3), (0, 0, 1)), ((0.5, 0, 1), (0.5, 0, 4)), ((3, -1, 0.2), (1, 5, 2)), ((0.9, 10, 0.1), (0.1, 10, 30))]
with open(f'{here}/mixtures.csv', 'w') as out:
    out.write('weight_a,mean_a,deviation_a,weight_b,mean_b,deviation_b,share,quantile\n')
    for a, b in mixtures:
        for share in (0.002, 0.025, 0.5, 0.8, 0.975):
            total = a[0] + b[0]
            def off(x):
                return (a[0] * norm.cdf((x - a[1]) / a[2]) + b[0] * norm.cdf((x - b[1]) / b[2])) / total - share
            out.write(','.join(map(str, (*a, *b, share))) + f',{brentq(off, -500, 500, xtol=1e-12):.10g}\n')

rng = np.random.default_rng(7)
with open(f'{here}/data.csv', 'w') as data, open(f'{here}/lines.csv', 'w') as lines:
    data.write('case,t,y\n')
    lines.write('case,time_constant,noise_variance,slope,variance,log_likelihood\n')
    for case, n in enumerate((2, 5, 12, 28)):
        t = np.sort(rng.uniform(0, 100, n)).round(3)
        y = (3 + 0.02 * t + rng.normal(0, 0.5, n)).round(4)
        for row in zip(t, y):
            data.write(f'{case},{row[0]},{row[1]}\n')
        for tau, noise in ((10, 0.05), (60, 0.01), (1000, 0.2)):
            c = np.exp(-np.abs(t[:, None] - t[None, :]) / tau) + noise * np.eye(n)
            x = np.stack([np.ones(n), t - t.mean()], 1)
            inverse = np.linalg.inv(c)
            a = x.T @ inverse @ x
            b = np.linalg.solve(a, x.T @ inverse @ y)
            r = y - x @ b
            ll = -0.5 * (np.linalg.slogdet(c)[1] + np.linalg.slogdet(a)[1] + r @ inverse @ r)
            lines.write(f'{case},{tau},{noise},{b[1]:.12g},{np.linalg.inv(a)[1, 1]:.12g},{ll:.12g}\n')
