"""The statistics of a holes.csv by NumPy and SciPy, written from the definitions in the help of `driftbench stats`."""
import csv
import math

import numpy as np
from scipy import integrate, optimize, stats

LEVEL = 0.95


def read(path, measure=None):
    """Rows as (operator, approach, md, bl, measure); a missing number is None."""
    def number(row, name):
        text = (row.get(name) or '').strip()
        return float(text) if text else None

    rows = []
    with open(path, newline='', encoding='utf-8') as file:
        for row in csv.DictReader(file):
            md, bl = number(row, 'entry_md_mm'), number(row, 'entry_bl_mm')
            distance = math.hypot(md, bl) if md is not None and bl is not None else None
            rows.append((row['operator'], row['approach'], md, bl, number(row, measure) if measure else distance))
    return rows


def containing_radius(mean, covariance, share):
    """By polar integration of the density: another way than the program's."""
    inverse = np.linalg.inv(covariance)
    scale = 1 / (2 * math.pi * math.sqrt(np.linalg.det(covariance)))
    angles = np.linspace(0, 2 * math.pi, 721)[:-1]
    directions = np.stack([np.cos(angles), np.sin(angles)], axis=1)

    def ring(radius):
        difference = radius * directions - mean
        density = np.exp(-0.5 * np.einsum('ij,jk,ik->i', difference, inverse, difference))
        return radius * scale * density.mean() * 2 * math.pi

    def inside(radius):
        return integrate.quad(ring, 0, radius, epsabs=1e-11, epsrel=1e-11, limit=400)[0]

    top = np.linalg.norm(mean) + 9 * math.sqrt(np.trace(covariance))
    return optimize.brentq(lambda radius: inside(radius) - share, 0, top, xtol=1e-12)


def ellipse(covariance, k):
    values, vectors = np.linalg.eigh(covariance)
    return {'semi_major_mm': k * math.sqrt(values[1]), 'semi_minor_mm': k * math.sqrt(values[0]),
            'angle_deg': math.degrees(math.atan2(vectors[1, 1], vectors[0, 1])) % 180, 'k': k}


def one_way(groups):
    """s_r, s_L, s_R from scipy's F where there is one, by the components of variance."""
    groups = [np.array(group) for group in groups if len(group)]
    n = sum(len(group) for group in groups)
    within = sum(((group - group.mean()) ** 2).sum() for group in groups) / (n - len(groups))
    f = stats.f_oneway(*groups).statistic
    n_bar = (n - sum(len(group) ** 2 for group in groups) / n) / (len(groups) - 1)
    between = max(0.0, (f * within - within) / n_bar)
    return {'repeatability_sd_mm': math.sqrt(within), 'between_operator_sd_mm': math.sqrt(between),
            'reproducibility_sd_mm': math.sqrt(within + between)}


def group(rows, approach):
    holes = [row for row in rows if row[1] == approach and row[2] is not None and row[3] is not None]
    points = np.array([row[2:4] for row in holes])
    n = len(points)
    mean, covariance = points.mean(axis=0), np.cov(points.T)
    sd = np.sqrt(np.diag(covariance))
    t2 = n * mean @ np.linalg.solve(covariance, mean)
    f = (n - 2) / (2 * (n - 1)) * t2
    quantile = stats.f.ppf(LEVEL, 2, n - 2)
    measures = {}
    for row in rows:
        if row[1] == approach and row[4] is not None:
            measures.setdefault(row[0], []).append(row[4])
    enough = n >= 6
    return {
        'n': n, 'operators': len({row[0] for row in holes}),
        'bias_md_mm': mean[0], 'bias_bl_mm': mean[1], 'sd_md_mm': sd[0], 'sd_bl_mm': sd[1],
        'spread_mm': math.sqrt((sd ** 2).mean()),
        'r50_mm': containing_radius(mean, covariance, 0.5), 'r95_mm': containing_radius(mean, covariance, 0.95),
        'prediction_ellipse': ellipse(covariance, math.sqrt(2 * (n * n - 1) / (n * (n - 2)) * quantile)) if enough else None,
        'mean_ellipse': ellipse(covariance, math.sqrt(2 * (n - 1) / (n * (n - 2)) * quantile)) if enough else None,
        'hotelling': {'t2': t2, 'f': f, 'df1': 2, 'df2': n - 2, 'p': stats.f.sf(f, 2, n - 2)},
        'iso5725': one_way(measures.values()),
    }


def signed_ranks(differences):
    """W and its two-sided probability by going through all signs; zeros are ranked and count for neither side."""
    ranks = stats.rankdata(np.abs(np.round(differences, 12)))
    nonzero = np.round(differences, 12) != 0
    w = ranks[differences > 1e-12].sum()
    if len(differences) > 20:
        return w, None
    sums = np.zeros(1)
    for rank in ranks[nonzero]:
        sums = np.concatenate([sums, sums + rank])
    middle = ranks[nonzero].sum() / 2
    return w, float(np.mean(np.abs(sums - middle) >= abs(w - middle) - 1e-9))


def paired(rows, is_column, rounds=10000, seed=1):
    """Free-hand against sleeve; the interval of the ratio by numpy's own random numbers."""
    by = {}
    for name, approach, md, bl, measure in rows:
        if measure is not None:
            by.setdefault(name, {}).setdefault(approach, []).append((md, bl, measure))
    both = [one for one in by.values() if 'freehand' in one and 'sleeve' in one]
    means = [[np.mean([hole[2] for hole in one[approach]]) for approach in ('freehand', 'sleeve')] for one in both]
    first, second = np.array(means).T
    test = stats.ttest_rel(first, second)
    difference = first - second
    reach = stats.t.ppf(0.5 + LEVEL / 2, len(both) - 1) * stats.sem(difference)
    w, p_exact = signed_ranks(difference)

    columns = (2, 3) if is_column else (0, 2)  # slice of (md, bl, measure)

    def total(one, approach):
        values = np.array([hole[columns[0]:columns[1]] for hole in one[approach]])
        return np.array([len(values), *values.sum(axis=0), (values ** 2).sum()])

    sums = np.array([[total(one, approach) for approach in ('freehand', 'sleeve')] for one in both])

    def ratio(drawn):
        n, squares, linear = drawn[..., 0], drawn[..., -1], (drawn[..., 1:-1] ** 2).sum(axis=-1)
        variance = (squares - linear / n) / (n - 1)
        with np.errstate(all='ignore'):
            return np.sqrt(variance[..., 0] / variance[..., 1])

    choice = np.random.default_rng(seed).integers(0, len(both), size=(rounds, len(both)))
    resampled = ratio(sums[choice].sum(axis=1))
    resampled = resampled[np.isfinite(resampled)]  # one operator with single holes, drawn alone
    return {
        'operators': len(both), 'mean_difference_mm': difference.mean(),
        'ci95_mm': [difference.mean() - reach, difference.mean() + reach],
        't': test.statistic, 'df': len(both) - 1, 'p': test.pvalue,
        'wilcoxon': {'w': w, 'p_exact': p_exact}, 'spread_ratio': ratio(sums.sum(axis=0)),
        'spread_ratio_ci95': list(np.quantile(resampled, [(1 - LEVEL) / 2, (1 + LEVEL) / 2])),
    }
