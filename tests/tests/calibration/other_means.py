"""Holds the engine's ensembles to the same answers by other means.

Usage: other_means.py CHECK QUESTION.json

QUESTION.json holds the question and what the engine answers; the checks are the functions in CHECKS.
"""

import json
import sys

import emcee
import numpy as np
from scipy import special, stats

from written_again import Likelihood, values

SHARES = np.array([0.05, 0.25, 0.5, 0.75, 0.95])
# The chance that a posterior check fails although both samplers are right, over all that it compares.
FAMILY = 1e-3


def check(true, *words):
    if not true:
        sys.exit("other_means: " + " ".join(str(word) for word in words))


def numbers(told):
    """A list of lists in which what is no number stands as null."""
    return np.array(told, dtype=object).astype(float)


def same(what, found, wanted, most):
    """Both have numbers at the same places, and no two differ by more."""
    check(found.shape == wanted.shape, what, found.shape, wanted.shape)
    odd = np.argwhere(np.isfinite(found) != np.isfinite(wanted))
    check(not len(odd), what, "only one of both is a number at", odd[:5].tolist(), len(odd))
    known = np.isfinite(wanted)
    check(known.any(), what, "has no numbers")
    differs = np.where(known, np.abs(found - wanted), 0.0)
    worst = np.unravel_index(differs.argmax(), differs.shape)
    check(differs.max() <= most, what, "differs by", differs.max(), "at", worst, found[worst], wanted[worst])
    print(f"{what}: {known.sum()} of {known.size} are numbers, they differ by at most {differs.max():.1e}")


def landings_and_logs(question):
    likelihood = Likelihood(question)
    places = np.array(question["members"])
    landings = likelihood.table.landings(values(likelihood.spreads, places), likelihood.banks, True)
    for name in landings:
        same(name, landings[name].astype(float), numbers(question[name]).T, 1e-9)
    return likelihood.logs(places), numbers(question["log_likelihoods"])


def likelihoods(question):
    found, wanted = landings_and_logs(question)
    same("log-likelihood", found, wanted, 1e-6)
    check(np.ptp(wanted) > 5.0, "the likelihoods hardly differ")


def tails(question):
    """Without results that are wrong altogether, so that words and numbers show the tails of the normal law."""
    found, wanted = landings_and_logs(question)
    repeats = np.array([bank["repeats"] for bank in question["banks"]])
    # Smaller numbers than exp(-700) lack digits, and what is no chance at all stands as null.
    found, wanted = found / repeats, np.where(np.isnan(wanted), -np.inf, wanted) / repeats
    kept = found > -700.0
    check((wanted[~kept] < -700.0).all(), "a tail is too heavy")
    check((found[kept] < -100.0).any(), "there are no tails")
    same("log-likelihood in the tails", np.where(kept, found, np.nan), np.where(kept, wanted, np.nan), 1e-6)


def sampled(log_of, dimensions, walkers, steps, seed):
    """A chain by emcee in a unit cube, evenly likely before: steps × walkers × dimensions, its beginning left out.

    It walks in the logarithms of odds, which have no walls, and counts how the cube is stretched there.
    """
    def log_there(odds):
        places = special.expit(odds)
        logs = np.full(len(odds), -np.inf)
        inside = ((places > 0.0) & (places < 1.0)).all(1)
        if inside.any():
            stretched = -np.logaddexp(0.0, odds[inside]) - np.logaddexp(0.0, -odds[inside])
            logs[inside] = log_of(places[inside]) + stretched.sum(1)
        return logs

    dice = np.random.default_rng(seed)
    # It begins at places drawn by their likelihood, made flatter, from many of the cube.
    tries = dice.random((40 * walkers, dimensions))
    logs = log_of(tries)
    weights = np.exp(0.3 * (logs - logs.max()))
    begin = tries[dice.choice(len(tries), walkers, p=weights / weights.sum())]
    begin = special.logit(np.clip(begin, 1e-6, 1.0 - 1e-6)) + 1e-3 * dice.standard_normal(begin.shape)
    # Somewhat shorter steps than the usual 2.38/√(2d). Snooker moves, as emcee 3.1 makes them, have no balance: they
    # draw the chain together, which the grid over two numbers shows.
    step = 1.7 / np.sqrt(2.0 * dimensions)
    moves = [(emcee.moves.DEMove(gamma0=step), 0.95), (emcee.moves.DEMove(gamma0=1.0), 0.05)]
    sampler = emcee.EnsembleSampler(walkers, dimensions, log_there, vectorize=True, moves=moves)
    sampler.random_state = np.random.RandomState(seed).get_state()
    sampler.run_mcmc(begin, steps)
    print(f"emcee: {sampler.acceptance_fraction.mean():.2f} of the proposals taken")
    return special.expit(sampler.get_chain(discard=steps // 4))


def correlated_steps(series):
    """The integrated autocorrelation time of walkers' series, a column each; A. Sokal's window, five times as long."""
    series = series - series.mean()
    steps = len(series)
    power = np.abs(np.fft.rfft(series, 2 * steps, axis=0)) ** 2
    covariances = np.fft.irfft(power, axis=0)[:steps].mean(1)
    times = 2.0 * np.cumsum(covariances / covariances[0]) - 1.0
    return times[np.argmax(np.arange(steps) >= 5.0 * times)]


def shares_below(chain, marks):
    """The share of a chain below each mark of each coordinate, and its standard error by its own autocorrelation."""
    shares, errors = np.empty(marks.shape), np.empty(marks.shape)
    for place in np.ndindex(marks.shape):
        below = (chain[:, :, place[0]] < marks[place]).astype(float)
        steps = correlated_steps(below)
        check(20.0 * steps < len(below), "the chain is short: its steps are correlated over", steps)
        shares[place] = below.mean()
        errors[place] = below.std() * np.sqrt(steps / below.size)
    return shares, errors


def agreed(what, differences, errors, freedom):
    """No share differs by more than chance allows, at one level for all together."""
    z = differences / errors
    chances = 2.0 * stats.t.sf(np.abs(z), freedom)
    worst = np.unravel_index(chances.argmin(), chances.shape)
    print(f"{what}: {z.size} shares, rms of z {np.sqrt((z * z).mean()):.2f}, least chance {chances.min():.1e}")
    check(chances.min() > FAMILY / z.size, what, "differ at", worst, "by", differences[worst], "which is",
          z[worst], "standard errors")


def two_free(question):
    """Two numbers free and the others held: the engine's likelihood over a grid against emcee."""
    likelihood = Likelihood(question)
    held, free, count = np.array(question["held"]), question["free"], question["grid"]

    def log_of(places):
        whole = np.tile(held, (len(places), 1))
        whole[:, free] = places
        return likelihood.logs(whole).sum(1)

    edges = np.linspace(0.0, 1.0, count + 1)
    middles = 0.5 * (edges[1:] + edges[:-1])
    grid = np.array(np.meshgrid(middles, middles, indexing="ij")).reshape(2, -1).T
    of_grid = numbers(question["log_likelihoods"])
    own = np.concatenate([log_of(part) for part in np.array_split(grid, 100)])
    same("log-likelihood over the grid", own, of_grid, 1e-6)
    weights = np.exp(of_grid - of_grid.max()).reshape(count, count)
    marks = np.empty((2, len(SHARES)))
    for axis in 0, 1:
        below = np.concatenate([[0.0], np.cumsum(weights.sum(1 - axis)) / weights.sum()])
        marks[axis] = np.interp(SHARES, below, edges)
    print("quantiles over the grid", np.round(marks, 4).tolist())
    shares, errors = shares_below(sampled(log_of, 2, 256, 1200, 2), marks)
    print("shares of emcee below", np.round(shares, 4).tolist(), "errors", np.round(errors, 4).tolist())
    agreed("shares of two free numbers", shares - SHARES, errors, 1e6)


def all_free(question):
    """Every number free: the members of the engine's own sampler, in several runs, against emcee."""
    likelihood = Likelihood(question)
    marks, runs = np.array(question["marks"]), np.array(question["runs"])
    chain = sampled(lambda places: likelihood.logs(places).sum(1), len(marks), 256, question["steps"], 3)
    shares, errors = shares_below(chain, marks)
    between = runs.std(0, ddof=1) / np.sqrt(len(runs))
    print("errors of emcee at most", errors.max().round(4), "of the runs", between.max().round(4))
    agreed("shares of all numbers", runs.mean(0) - shares, np.hypot(errors, between), len(runs) - 1)


def intervals(question):
    for told in question["sets"]:
        told_values, weights = np.array(told["values"]), np.array(told["weights"])
        hazen = np.quantile(told_values, SHARES, method="hazen")
        differs = np.abs(hazen - np.array(told["even"])).max()
        # A value at the middle of its weight, and straight lines between.
        order = np.argsort(told_values, kind="stable")
        sums = np.cumsum(weights[order])
        line = np.interp(SHARES * sums[-1], sums - 0.5 * weights[order], told_values[order])
        differs = max(differs, np.abs(line - np.array(told["weighted"])).max())
        check(differs < 1e-9, "an interval of", len(told_values), "values differs by", differs)
    print(f"intervals: {len(question['sets'])} sets agree")


CHECKS = {
    "likelihoods": likelihoods,
    "tails": tails,
    "two-free": two_free,
    "all-free": all_free,
    "intervals": intervals,
}

if __name__ == "__main__":
    with open(sys.argv[2], encoding="utf-8") as file:
        CHECKS[sys.argv[1]](json.load(file))
