"""Random tables and NIST data through driftbench, through SciPy and through R: compare.py DRIFTBENCH PROBE [--rounds N]

Last line: "N passed, N failed". Tolerances are relative unless they say otherwise.
"""
import argparse
import glob
import json
import math
import os
import shutil
import subprocess
import sys
import tempfile

import numpy as np
import scipy
from scipy import integrate, optimize, stats

import reference

arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
arguments.add_argument('driftbench')
arguments.add_argument('probe')
arguments.add_argument('--rounds', type=int, default=40)
options = arguments.parse_args()
rng = np.random.default_rng(20260501)
passed = failed = 0


def expect(good, sentence):
    global passed, failed
    if good:
        passed += 1
    else:
        failed += 1
        print(f'failed: {sentence}')


def near(found, expected, tolerance, what):
    good = found is not None and math.isfinite(found) and abs(found - expected) <= tolerance * max(abs(expected), 1e-6)
    expect(good, f'{what}: found {found}, expected {expected}')


def compare(found, expected, what):
    """All values of a document that the reference has."""
    for name, value in expected.items():
        there, label = found.get(name, 'nothing'), f'{what}.{name}'
        if value is None:
            expect(there is None, f'{label}: found {there}, expected null')
        elif isinstance(value, dict):
            expect(isinstance(there, dict), f'{label}: found {there}, expected an object')
            if isinstance(there, dict):
                compare(there, value, label)
        elif name == 'angle_deg':
            turn = (there - value + 90) % 180 - 90
            expect(abs(turn) < 1e-5, f'{label}: found {there}, expected {value}')
        elif name == 'spread_ratio_ci95':
            # Two different streams of 10,000 resamples: ends agree to the error of a quantile.
            for end, (one, other) in enumerate(zip(there, value)):
                near(one, other, 0.06, f'{label}[{end}]')
        elif isinstance(value, list):
            for index, (one, other) in enumerate(zip(there, value)):
                near(one, other, 1e-8, f'{label}[{index}]')
        elif name == 'between_operator_sd_mm':
            # The square root of a small difference.
            expect(abs(there ** 2 - value ** 2) < 1e-11, f'{label}: found {there}, expected {value}')
        else:
            near(there, value, 1e-8, label)


def run(*words):
    done = subprocess.run([options.driftbench, *words, '--json'], capture_output=True, text=True, check=False)
    expect(done.returncode == 0, f'{words}: found exit code {done.returncode}: {done.stderr[:200]}')
    return json.loads(done.stdout)


def probe(lines):
    done = subprocess.run([options.probe], input='\n'.join(lines) + '\n', capture_output=True, text=True, check=True)
    return [[float(word) for word in line.split()] for line in done.stdout.splitlines()]


def words(values):
    return f'{len(values)} ' + ' '.join(repr(float(value)) for value in values)


def random_table(path, digits=None):
    """Operators of different number, bias and steadiness; some cells and some approaches are missing."""
    operators = int(rng.integers(4, 30))
    digits = digits or int(rng.choice([1, 3, 9]))
    with open(path, 'w', encoding='utf-8', newline='') as file:
        file.write('operator,approach,entry_md_mm,entry_bl_mm,depth_mm\r\n')
        for number in range(operators):
            own = rng.normal(0, 0.4, size=2)
            for approach, bias, sd in (('freehand', 0.9, 0.6), ('sleeve', 0.1, 0.25), ('pilot', 0.4, 0.4)):
                if number > 2 and rng.random() < 0.15:
                    continue
                for _ in range(int(rng.integers(2, 6))):
                    md, bl = own * sd + rng.normal([bias, 0], sd)
                    depth = rng.normal(0.2, sd)
                    cells = [f'{value:.{digits}f}' if rng.random() > 0.04 else '' for value in (md, bl, depth)]
                    file.write(f'"operator {number}",{approach},{",".join(cells)}\r\n')


def tables(folder):
    for index in range(options.rounds):
        path = os.path.join(folder, f'table-{index}.csv')
        random_table(path)
        measure = 'depth_mm' if index % 3 == 2 else None
        found = run('stats', path, *(['--measure', measure] if measure else []))
        rows = reference.read(path, measure)
        for one in found['groups']:
            compare(one, reference.group(rows, one['approach']), f'table {index}.{one["approach"]}')
        compare(found['paired'], reference.paired(rows, measure is not None), f'table {index}.paired')


def nist_one_way():
    folder = os.path.join(os.path.dirname(scipy.__file__), 'stats/tests/data/nist_anova')
    files = sorted(glob.glob(os.path.join(folder, '*.dat')))
    if not files:
        print('the NIST files of SciPy are not installed: left out')
    for path in files:
        with open(path, encoding='ascii') as file:
            lines = file.read().splitlines()
        certified = next(line.split() for line in lines[40:47] if line.startswith('Between'))
        rows = np.array([[float(word) for word in line.split()] for line in lines[60:] if line.strip()])
        groups = [rows[rows[:, 0] == which, 1] for which in np.unique(rows[:, 0])]
        found = probe([f'one_way {len(groups)} ' + ' '.join(words(group) for group in groups)])[0]
        # With 13 constant digits a double keeps three of the varying ones.
        name = os.path.basename(path)
        tolerance = 5e-3 if name[:6] in ('SmLs07', 'SmLs08', 'SmLs09') else 1e-7
        near(found[2], float(certified[-1]), tolerance, f'{name}: F')


def noncentral_t(t, df, shift):
    """By its definition as a normal over the root of a chi-squared; scipy's own is the same Boost as the program's."""
    def part(s):
        return stats.norm.cdf(t * math.sqrt(s / df) - shift) * stats.chi2.pdf(s, df)

    middle = max(df - 1, 0.5)
    return sum(integrate.quad(part, low, high, epsabs=1e-11, limit=400)[0]
               for low, high in ((0, middle), (middle, middle + 6 * math.sqrt(2 * df)), (middle + 6 * math.sqrt(2 * df), math.inf)))


def distributions():
    lines, expected = [], []
    for _ in range(200):
        p, df, df2 = rng.uniform(1e-6, 1 - 1e-6), rng.uniform(1, 200), rng.uniform(1, 200)
        t, shift = rng.normal(0, 3), rng.uniform(0, 6)
        for line, value in ((f't_quantile {p!r} {df!r} 0 0', stats.t.ppf(p, df)), (f't_p {t!r} {df!r} 0 0', 2 * stats.t.sf(abs(t), df)),
                            (f'f_quantile {p!r} {df!r} {df2!r} 0', stats.f.ppf(p, df, df2)),
                            (f'f_p {abs(t)!r} {df!r} {df2!r} 0', stats.f.sf(abs(t), df, df2)),
                            (f'nct_cdf {t!r} {df!r} {shift!r} 0', noncentral_t(t, df, shift))):
            lines.append(line)
            expected.append(value)
    for line, found, value in zip(lines, probe(lines), expected):
        # scipy's t.ppf of broken degrees of freedom has eight digits; quadrature has nine.
        good = abs(found[0] - value) <= 1e-8 * abs(value) + 1e-9
        expect(good, f'{line}: found {found[0]}, expected {value}')


def sizes():
    def power(n, each, difference, sd, alpha):
        df = n - 1 if each == 1 else 2 * n - 2
        shift = math.sqrt(n / each) * difference / sd
        critical = stats.t.ppf(1 - alpha / 2, df)
        with np.errstate(all='ignore'):
            return stats.nct.sf(critical, df, shift) + stats.nct.cdf(-critical, df, shift)

    for _ in range(60):
        difference, sd = rng.uniform(0.2, 2), rng.uniform(0.3, 1.5)
        alpha, wanted = rng.choice([0.01, 0.05]), rng.choice([0.8, 0.9])
        for name, each in (('paired_size', 1), ('two_group_size', 2)):
            n = 2
            while power(n, each, difference, sd, alpha) < wanted:
                n += 1
            line = f'{name} {float(difference)!r} {float(sd)!r} {float(alpha)!r} {float(wanted)!r}'
            expect(probe([line])[0][1] == n, f'{line}: expected {n}')


def curves():
    def levelling(x, asymptote, gain, rate):
        return asymptote + gain * np.exp(-rate * (x - 1))

    def power(x, first, exponent):
        return first * x ** exponent

    models = {'levelling': (levelling, lambda: (rng.uniform(0.3, 1), rng.uniform(1, 3), rng.uniform(0.15, 0.8))),
              'power': (power, lambda: (rng.uniform(1, 3), rng.uniform(-0.9, -0.1)))}
    for _ in range(40):
        x = np.arange(1.0, float(rng.integers(10, 31)))
        for name, (model, draw) in models.items():
            parameters = draw()
            y = model(x, *parameters) + rng.normal(0, 0.05, size=len(x))
            best, covariance = optimize.curve_fit(model, x, y, p0=parameters, xtol=1e-14, ftol=1e-14, gtol=1e-14)
            expected = [*best, *np.sqrt(np.diag(covariance)), ((y - model(x, *best)) ** 2).sum()]
            found = probe([f'{name} {words(x)} {words(y)}'])[0]
            expect(len(found) == len(expected), f'{name}: found no fit for {parameters}')
            for one, other in zip(found, expected):
                near(one, other, 1e-5, name)


def agreements():
    for _ in range(30):
        n = int(rng.integers(3, 40))
        first, second = rng.normal(1, 1, size=(2, n))
        d = first - second
        sd, z, t = d.std(ddof=1), stats.norm.ppf(0.975), stats.t.ppf(0.975, n - 1)
        expected = [d.mean(), sd, d.mean() - z * sd, d.mean() + z * sd, d.mean() - t * sd / math.sqrt(n),
                    t * sd * math.sqrt(1 / n + z * z / (2 * (n - 1)))]
        for one, other in zip(probe([f'agreement {words(first)} {words(second)}'])[0], expected):
            near(one, other, 1e-8, 'agreement')


def in_r(folder):
    """Random tables without ties, and sample sizes, by R's own t, rank, variance and power functions."""
    if shutil.which('Rscript') is None:
        print('R is not installed (Debian package r-base-core): left out')
        return
    paths = [os.path.join(folder, f'r-{index}.csv') for index in range(12)]
    for path in paths:
        random_table(path, digits=9)
    script = os.path.join(os.path.dirname(os.path.abspath(__file__)), 'reference.R')
    done = subprocess.run(['Rscript', '--vanilla', script, *paths], capture_output=True, text=True, check=False)
    expect(done.returncode == 0, f'reference.R: found exit code {done.returncode}: {done.stderr[-300:]}')
    documents = {path: run('stats', path) for path in paths}
    for line in done.stdout.splitlines():
        subject, *name, value = line.split()
        if subject not in documents:
            difference, power = name
            found = probe([f'{subject} {difference} 0.7 0.05 {power}'])[0][1]
            expect(found == float(value), f'{line}: found {found}')
            continue
        document = documents[subject]
        first, *rest = name[0].split('.')
        at = document['paired'] if first == 'paired' else next(one for one in document['groups'] if one['approach'] == first)
        for key in rest:
            at = at[key]
        near(at, float(value), 1e-8, f'{os.path.basename(subject)}.{name[0]} by R')


print(f'SciPy {scipy.__version__}, NumPy {np.__version__}')
with tempfile.TemporaryDirectory() as scratch:
    tables(scratch)
    in_r(scratch)
for part in (nist_one_way, distributions, sizes, curves, agreements):
    part()
print(f'{passed} passed, {failed} failed')
sys.exit(0 if failed == 0 and passed > 0 else 1)
