"""Reference values for tests/nights.rs, worked out by general-purpose libraries.

Makes nights.json beside this file:

    python nights.py

Made with Python 3.11, numpy 2.4.6, scipy 1.17.1, scikit-learn 1.9.1, statsmodels 0.15.0.

Chances that all of several nights stay above a limit come from scipy's integral of the multivariate
normal; those of one memory and no offset also from a recursion over the nights by Simpson's rule.
Means and covariances given a log come from scikit-learn's Gaussian process, whose Matern kernel of
order 1/2 is the first-order autoregression on whole days; those of one memory and no offset also
from statsmodels' Kalman filter.
"""

import json
import pathlib

import numpy as np
from scipy import stats
from scipy.integrate import simpson
from sklearn.gaussian_process import GaussianProcessRegressor
from sklearn.gaussian_process.kernels import ConstantKernel, Matern
from statsmodels.tsa.statespace.sarimax import SARIMAX

HERE = pathlib.Path(__file__).parent
LOG = [6.1, 7.4, 5.2, 8.8, 9.3, 7.9, 6.0, 4.8, 7.1, 8.6, 9.9, 10.2, 8.4, 7.7]


def text(value):
    return repr(float(value))


def texts(values):
    return [text(value) for value in np.ravel(values)]


def orthant(mean, covariance, limit):
    """The chance that all are above the limit."""
    mean = np.atleast_1d(mean)
    if len(mean) == 1:
        return stats.norm.sf(limit, mean[0], np.sqrt(covariance[0][0]))
    chances = []
    for seed in range(4):
        chances.append(stats.multivariate_normal.cdf(
            -limit * np.ones(len(mean)), mean=-mean, cov=covariance, maxpts=200_000, abseps=1e-5, releps=0,
            rng=np.random.default_rng(seed)))
    assert np.std(chances) < 5e-5, chances
    return np.mean(chances)


def recursion(mu, sigma, phi, last, limit, nights, points=1601):
    """One memory, no offset: the density of the nights that have stayed above the limit."""
    x = np.linspace(limit, mu + 8 * sigma, points)
    u = sigma * np.sqrt(1 - phi * phi)
    if last is None:
        f = stats.norm.pdf(x, mu, sigma)
    else:
        f = stats.norm.pdf(x, mu + phi * (last - mu), u)
    for _ in range(nights - 1):
        step = stats.norm.pdf(x[:, None], mu + phi * (x[None, :] - mu), u)
        f = simpson(step * f[None, :], x=x, axis=1)
    return simpson(f, x=x)


def one_memory(mu, sigma, phi, last, nights):
    ahead = np.arange(1, nights + 1)
    apart = np.abs(np.subtract.outer(ahead, ahead))
    if last is None:
        return np.full(nights, mu), sigma**2 * phi**apart
    mean = mu + phi**ahead * (last - mu)
    return mean, sigma**2 * (phi**apart - np.multiply.outer(phi**ahead, phi**ahead))


ONE = [(7, 3.0, 0.6, 7, 2, 1), (7, 3.0, 0.6, 7, 2, 7), (7, 3.0, 0.6, 10, 2, 7), (7, 3.0, 0.6, 4, 2, 7),
       (7, 3.0, 0.0, None, 2, 7), (10, 3.0, 0.6, 10, 5, 14), (10, 3.0, 0.6, 12, 8, 7), (12, 2.5, 0.6, 12, 8, 7),
       (12, 2.5, 0.6, 12, 8, 14), (12, 2.5, 0.6, 12, 10, 7), (12, 2.5, 0.8, None, 8, 21), (9, 2.0, 0.9, 6, 5, 21)]
one = []
for mu, sigma, phi, last, limit, nights in ONE:
    exact = recursion(mu, sigma, phi, last, limit, nights)
    if phi > 0:
        mean, covariance = one_memory(mu, sigma, phi, last, nights)
        assert abs(exact - orthant(mean, covariance, limit)) < 1e-4
    one.append([text(mu), text(sigma), text(phi), None if last is None else text(last), text(limit), nights, text(exact)])


def process(days, values, ahead, seasonal_past, seasonal_ahead, sigma, tau, fast, slow, share, b0):
    """Mean and covariance ahead, by a Gaussian process on the days."""
    kernel = ConstantKernel(sigma**2 * (1 - share), "fixed") * Matern(-1 / np.log(fast), "fixed", nu=0.5)
    if share > 0:
        kernel = kernel + ConstantKernel(sigma**2 * share, "fixed") * Matern(-1 / np.log(slow), "fixed", nu=0.5)
    if tau > 0:
        kernel = kernel + ConstantKernel(tau**2, "fixed")
    fitted = GaussianProcessRegressor(kernel, alpha=1e-12, optimizer=None)
    past = np.asarray(days, float)[:, None]
    future = np.asarray(ahead, float)[:, None]
    if len(days) == 0:
        return np.full(len(future), seasonal_ahead + b0), kernel(future)
    fitted.fit(past, np.asarray(values) - seasonal_past - b0)
    mean, covariance = fitted.predict(future, return_cov=True)
    return mean + seasonal_ahead + b0, covariance


CASES = [
    # days and values of the log, first day ahead, nights, season's mean behind and ahead, sigma, tau, fast, slow,
    # share, b0, limits
    (range(14), LOG, 14, 7, 7.0, 7.6, 3.3, 0.0, 0.6, 0.9, 0.0, 0.0, [2, 4, 5]),
    (range(14), LOG, 14, 7, 7.0, 7.6, 3.3, 1.5, 0.6, 0.9, 0.0, 0.0, [2, 4, 5]),
    (range(14), LOG, 14, 7, 7.0, 7.6, 3.3, 3.0, 0.6, 0.9, 0.0, 0.0, [2, 4, 5]),
    (range(14), LOG, 14, 21, 7.0, 7.6, 3.3, 1.5, 0.55, 0.95, 0.10, 0.0, [2, 4, 5]),
    ([0, 1, 4, 9, 10], LOG[:5], 14, 21, 6.0, 8.0, 2.5, 1.5, 0.55, 0.95, 0.18, 2.0, [3, 5, 7]),
    ([], [], 3, 14, 0.0, 9.0, 3.0, 1.5, 0.5, 0.95, 0.10, 0.0, [3, 5, 8]),
]
given_log = []
for days, values, first, nights, behind, before, sigma, tau, fast, slow, share, b0, limits in CASES:
    days = list(days)
    ahead = np.arange(first, first + nights)
    mean, covariance = process(days, values, ahead, behind, before, sigma, tau, fast, slow, share, b0)
    if tau == 0 and share == 0:
        model = SARIMAX(np.asarray(values) - behind, order=(1, 0, 0))
        told = model.smooth([fast, sigma**2 * (1 - fast**2)]).get_forecast(nights)
        assert np.allclose(told.predicted_mean + before, mean, atol=1e-8)
        assert np.allclose(told.se_mean, np.sqrt(np.diag(covariance)), atol=1e-8)
    chances = [[n, text(limit), text(orthant(mean[:n], covariance[:n, :n], limit))]
               for limit in limits for n in (1, 7, 14, 21) if n <= nights]
    given_log.append({
        "days": days, "log": texts(values), "first": first, "nights": nights, "behind": text(behind),
        "ahead": text(before), "sigma": text(sigma), "tau": text(tau), "fast": text(fast), "slow": text(slow),
        "share": text(share), "b0": text(b0), "mean": texts(mean), "spread": texts(np.sqrt(np.diag(covariance))),
        "covariance_of_first": texts(covariance[0]), "all_above": chances})


def last_cold(mean, sigma, phi, limit):
    """Share of springs with no night at or below the limit from each day on, one memory: backwards."""
    reach = 7 * sigma
    days = len(mean)
    x = np.linspace(-reach, reach, 1401)
    u = sigma * np.sqrt(1 - phi * phi)
    width = x[1] - x[0]
    step = stats.norm.pdf(x[:, None], phi * x[None, :], u) * width
    step /= step.sum(axis=0)
    stay = np.ones(len(x))
    shares = np.empty(days + 1)
    shares[days] = 1.0
    whole = stats.norm.pdf(x, 0, sigma)
    whole /= whole.sum()
    edge = stats.norm.cdf
    for day in reversed(range(days)):
        # A point of the lattice counts by the part of its cell above the limit.
        part = np.clip((x + width / 2 - (limit - mean[day])) / width, 0, 1)
        stay = part * stay
        shares[day] = whole @ stay
        stay = stay @ step
    return shares


MEANS = [1.96, 1.92, 3.15, 4.84, 7.63, 10.58, 12.63, 12.60, 10.41, 7.76, 4.50, 2.24]
d = np.arange(1, 194)
w = 2 * np.pi / 365.25
season = (6.709 - 4.928 * np.cos(w * d) - 2.544 * np.sin(w * d) + 0.192 * np.cos(2 * w * d)
          + 0.599 * np.sin(2 * w * d))
last = []
for limit, phi in ((0.0, 0.5), (2.0, 0.5), (0.0, 0.6), (0.0, 0.7)):
    shares = last_cold(season, 3.3, phi, limit)
    for share in (0.1, 0.5, 0.9):
        # By this day the last cold night is over in the share of years: first day with none from the next on.
        day = int(np.argmax(shares[1:] >= share))
        last.append([text(limit), text(phi), text(share), day, text(shares[day + 1])])

student = []
TEN = [9.1, 10.4, 8.2, 11.0, 9.7, 10.1, 7.9, 9.5, 10.8, 9.3]
for values, phi, limit in ((TEN, 0.0, 8.0), (TEN, 0.0, 5.0), (TEN, 0.6, 8.0), (LOG, 0.6, 4.0), (LOG, 0.6, 9.0)):
    n = len(values)
    apart = np.abs(np.subtract.outer(np.arange(n), np.arange(n)))
    count = n * n / (float(phi)**apart if phi else np.eye(n)).sum()
    c = np.sqrt((n - 1) / (n - n / count))
    m, s = np.mean(values), np.std(values, ddof=1)
    chance = stats.t.cdf((m - limit) / (s * c * np.sqrt(1 + 1 / count)), n - 1)
    student.append([texts(values), text(phi), text(limit), text(count), text(c), text(chance)])

reference = {
    "one_memory": one,
    "given_log": given_log,
    "last_cold": last,
    "student": student,
    "student_share": [[text(t), text(nu), text(stats.t.cdf(t, nu))]
                      for nu in (1, 2.5, 9, 40) for t in (-6, -1.3, 0, 0.4, 1.1711, 3, 12)],
    "season": texts(season),
}
rows = ",\n".join(
    f'  "{name}": [\n' + ",\n".join(f"    {json.dumps(row)}" for row in values) + "\n  ]"
    for name, values in reference.items())
(HERE / "nights.json").write_text("{\n" + rows + "\n}\n")
