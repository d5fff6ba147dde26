"""Fits the release of oil over time to curves.csv. README.md in this folder has the model; `fit`
runs it."""
import collections
import csv
import math
import pathlib

import numpy
import scipy.optimize
import scipy.stats

HERE = pathlib.Path(__file__).resolve().parent

LOG_HALF_LIVES = numpy.linspace(math.log(0.5), math.log(5000), 185)  # minutes; a step is 5 %

# The share that a printed time implies is released by then, and how precisely. LEVELLED is what a
# maximum in a test of means often comes to; the other values are our choice.
LEVELLED = 0.85  # at least this by the time after which no more came
HALF_EARLIER = 0.98  # at most this at half that time: times tried mostly double
ENDED = (0.70, 0.99)  # the range at the end of a run or at a stated optimum
RISING = 0.95  # at most this if the oil still increased at the end
EDGE = 0.05  # standard deviation of these
POINT = 0.06  # standard deviation of a published share at a time
HALF_LIFE = 0.2  # the same of the logarithm of a half-life from a printed rate constant

TO_90TH = float(scipy.stats.norm.ppf(0.9))

Curve = collections.namedtuple("Curve", "name source group method rows")


class Washing(collections.namedtuple("Washing", "share")):
    """Releases a share of the oil at once and the rest in first order. A share of 0 is pure first
    order."""

    def out(self, minutes, half_life):
        """Share released by this many minutes after first drop; half_life may be an array."""
        rate = math.log((1 - self.share) / 0.5)
        return 1 - (1 - self.share) * numpy.exp(-rate * minutes / half_life)


class Stages(collections.namedtuple("Stages", "fast slow")):
    """Two exponentials. `fast` is the fast fraction of the oil; `slow` is the ratio of the slow
    rate to the fast rate."""

    def scale(self):
        """The fast rate times the half-life: f exp(-x) + (1 - f) exp(-slow x) = 1/2."""
        if self not in SCALES:
            SCALES[self] = scipy.optimize.brentq(lambda x: self.left(x) - 0.5, 0, 100 / self.slow)
        return SCALES[self]

    def left(self, x, fast=None):
        fast = self.fast if fast is None else fast
        return fast * numpy.exp(-x) + (1 - fast) * numpy.exp(-self.slow * x)

    def out(self, minutes, half_life, fast=None):
        """As in Washing. `fast` is a different fast fraction at the same rates."""
        return 1 - self.left(self.scale() * minutes / half_life, fast)


SCALES = {}


def rows_of(name):
    """The rows of a table in this folder, each as a dictionary by column name."""
    with open(HERE / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def digits(value, count):
    return float(f"{value:.{count}g}")


def read_curves(use="fit"):
    """The curves of curves.csv, each with its rows."""
    by_name = collections.OrderedDict()
    for row in rows_of("curves.csv"):
        if row["use"] == use:
            by_name.setdefault(row["curve"], []).append(row)
    return [Curve(name, of[0]["source"], of[0]["class"], of[0]["method"], of)
            for name, of in by_name.items()]


def log_above(share, bound):
    return scipy.stats.norm.logcdf((share - bound) / EDGE)


def log_below(share, bound):
    return scipy.stats.norm.logcdf((bound - share) / EDGE)


def likelihood(curve, form):
    """Log-likelihood of each half-life of the grid by the curve's rows: of points, and of the
    rest."""
    half = numpy.exp(LOG_HALF_LIVES)
    of_points = numpy.zeros(len(half))
    rest = numpy.zeros(len(half))
    points = [r for r in curve.rows if r["kind"] == "point"]
    if points:
        shares = numpy.array([form.out(float(r["minutes"]), half) for r in points])
        values = numpy.array([float(r["value"]) for r in points])
        if points[0]["unit"] == "% of all":
            end = numpy.full(len(half), 100.0)
        else:  # the final yield, estimated by least squares
            end = (values[:, None] * shares).sum(axis=0) / (shares ** 2).sum(axis=0)
        misses = values[:, None] / end - shares
        of_points = -0.5 * (misses ** 2).sum(axis=0) / POINT ** 2
    for row in curve.rows:
        if row["kind"] == "point":
            continue
        minutes = float(row["minutes"])
        share = form.out(minutes, half)
        if row["kind"] == "half_life":
            rest += -0.5 * ((LOG_HALF_LIVES - math.log(minutes)) / HALF_LIFE) ** 2
        elif row["kind"] == "rising":
            rest += log_below(share, RISING)
        elif row["kind"] == "ended":
            rest += log_above(share, ENDED[0]) + log_below(share, ENDED[1])
        elif row["kind"] in ("levelled", "over_by"):
            rest += log_above(share, LEVELLED)
            if row["kind"] == "levelled":
                rest += log_below(form.out(minutes / 2, half), HALF_EARLIER)
        else:
            raise SystemExit(f"fit: {curve.name}: no such kind: {row['kind']}")
    return of_points, rest


class Release:
    """The logarithm of a curve's half-life: the sum of a class effect, a method effect and a normal
    difference between studies. A class with few curves is shrunk to the mean of all classes."""

    BETWEEN_CLASSES = 1.5  # standard deviation of classes' logarithms (our choice, by leaving out)
    METHODS = {"water-and-steam": 0.3, "hydro": 0.5}  # the same of a method over steam (our choice)

    def __init__(self, curves, likelihoods):
        self.names = ["all"] + sorted({c.group for c in curves}) + list(self.METHODS)
        logs = numpy.array([sum(likelihoods[c.name]) for c in curves])
        design = numpy.array([self._design(c.group, c.method) for c in curves])
        prior = numpy.diag([1e-6] + [self.BETWEEN_CLASSES ** -2] *
                           (len(self.names) - 1 - len(self.METHODS)) +
                           [sd ** -2 for sd in self.METHODS.values()])
        # Expectation-maximisation.
        effects = numpy.zeros(len(self.names))
        effects[0] = math.log(40)
        sigma = 1.0
        for _ in range(300):
            far = (LOG_HALF_LIVES[None, :] - (design @ effects)[:, None]) / sigma
            weights = logs - 0.5 * far ** 2
            weights = numpy.exp(weights - weights.max(axis=1, keepdims=True))
            weights /= weights.sum(axis=1, keepdims=True)
            mean, square = weights @ LOG_HALF_LIVES, weights @ LOG_HALF_LIVES ** 2
            joint = design.T @ design / sigma ** 2 + prior
            before = effects, sigma
            effects = numpy.linalg.solve(joint, design.T @ mean / sigma ** 2)
            middle = design @ effects
            # Include the errors of the class effects, or sigma would be too small.
            error = numpy.einsum("ij,jk,ik->i", design, numpy.linalg.inv(joint), design)
            sigma = math.sqrt(float(numpy.mean(square - 2 * middle * mean + middle ** 2 + error)))
            if abs(sigma - before[1]) < 1e-7 and numpy.max(numpy.abs(effects - before[0])) < 1e-7:
                break
        self.effects, self.sigma, self.joint = effects, sigma, joint

    def _design(self, group, method):
        return [1.0 if name in ("all", group, method) else 0.0 for name in self.names]

    def range(self, group, method):
        """Logarithm of the half-life of a class with this method: the median, and the distance from
        it to the 90th percentile of a run."""
        x = numpy.array(self._design(group, method))
        error = math.sqrt(float(x @ numpy.linalg.solve(self.joint, x)))
        if group not in self.names:
            error = math.hypot(error, self.BETWEEN_CLASSES)
        return float(x @ self.effects), TO_90TH * math.hypot(self.sigma, error)


Miss = collections.namedtuple("Miss", "curve source method minutes published middle low high")


def misses(curve, form, middle, width, fast_range):
    """The published and the predicted share at each real point. Shares are of all the oil, or of
    the last point of the curve if the end isn't known. `fast_range` has the 10th and 90th
    percentiles of the fast fraction."""
    points = [r for r in curve.rows if r["kind"] == "point"]
    result = []
    for row in points:
        minutes, published, last = float(row["minutes"]), float(row["value"]), None
        if row["unit"] == "% of all":
            published /= 100
            if published >= 1:
                continue
        elif row is points[-1]:
            continue
        else:
            published /= float(points[-1]["value"])
            last = float(points[-1]["minutes"])

        def at(half_life, **fast):
            out = form.out(minutes, half_life, **fast)
            return out / form.out(last, half_life, **fast) if last else out

        low, high = math.nan, math.nan
        if isinstance(form, Stages):
            # A run's half-life and its fast fraction, drawn independently.
            n = 400
            place = (numpy.arange(n) + 0.5) / n
            other = (numpy.arange(n) * 0.6180339887) % 1 * 0.998 + 0.001
            z = scipy.stats.norm.ppf(other) / TO_90TH
            fast = numpy.where(z < 0, form.fast + (form.fast - fast_range[0]) * z,
                               form.fast + (fast_range[1] - form.fast) * z).clip(0, 1)
            half_lives = numpy.exp(middle + width * scipy.stats.norm.ppf(place) / TO_90TH)
            low, high = numpy.quantile(at(half_lives, fast=fast), [0.1, 0.9])
        result.append(Miss(curve.name, curve.source, curve.method, minutes, published,
                           float(at(math.exp(middle))), float(low), float(high)))
    return result


def left_out(curves, form, fast_range):
    """Leaves out each study in turn. Returns the misses at its real points, and the log-likelihood
    of its other rows."""
    likelihoods = {c.name: likelihood(c, form) for c in curves}
    at_points, of_rest = [], 0.0
    for source in sorted({c.source for c in curves}):
        model = Release([c for c in curves if c.source != source], likelihoods)
        for curve in (c for c in curves if c.source == source):
            middle, width = model.range(curve.group, curve.method)
            at_points += misses(curve, form, middle, width, fast_range)
            sd = width / TO_90TH
            logs = likelihoods[curve.name][1] - 0.5 * ((LOG_HALF_LIVES - middle) / sd) ** 2
            step = (LOG_HALF_LIVES[1] - LOG_HALF_LIVES[0]) / (sd * math.sqrt(2 * math.pi))
            of_rest += logs.max() + math.log(numpy.exp(logs - logs.max()).sum() * step)
    return at_points, of_rest


def summary(name, at_points, of_rest):
    miss = numpy.array([100 * abs(m.published - m.middle) for m in at_points])
    inside = numpy.mean([m.low <= m.published <= m.high for m in at_points])
    band = "" if math.isnan(at_points[0].low) else f"   inside 10 to 90 % {100 * inside:3.0f} %"
    return (f"  {name:34} {numpy.median(miss):5.1f} {numpy.quantile(miss, 0.9):5.1f} "
            f"{math.sqrt(numpy.mean(miss ** 2)):5.1f}   censored rows {of_rest:7.1f}{band}")


def report(form, fast_range):
    """Compares the release form of design_defaults.json with others, and lists each real point."""
    curves = read_curves()
    lines = ["courses of the oil, each study left out in turn: points of share by which real points "
             "are missed (median, 90th percentile, root mean square); logarithm of how likely the "
             "other rows are"]
    forms = {"first order": Washing(0.0)}
    forms |= {f"{s:.0%} at once, then first order": Washing(s) for s in (0.1, 0.2, 0.3, 0.4)}
    forms |= {f"two stages, {f:.0%} fast, slow {s:.0%}": Stages(f, s)
              for f in (0.3, 0.4, 0.5, 0.6, 0.7, 0.8) for s in (0.03, 0.05, 0.1, 0.2)}
    for name, other in forms.items():
        lines.append(summary(name, *left_out(curves, other, fast_range)))
    at_points, of_rest = left_out(curves, form, fast_range)
    lines.append(summary("as in design_defaults.json", at_points, of_rest))
    for method in ("steam", "hydro"):
        lines.append(summary(f"of these, {method}", [m for m in at_points if m.method == method], 0))
    lines += ["", f"{'curve':36} {'min':>6} {'published':>9} {'predicted':>9}  10 to 90 %"]
    for m in at_points:
        out = "" if m.low <= m.published <= m.high else "  OUT"
        lines.append(f"{m.curve:36} {m.minutes:6.4g} {m.published:9.2f} {m.middle:9.2f}  "
                     f"{m.low:.2f} to {m.high:.2f}{out}")
    return lines


def half_lives(form):
    """The half-life of each class and method with a curve, as in its table entry."""
    curves = read_curves()
    model = Release(curves, {c.name: likelihood(c, form) for c in curves})
    figures = {}
    for group, method in sorted({(c.group, c.method) for c in curves}):
        middle, width = model.range(group, method)
        own = [c for c in curves if (c.group, c.method) == (group, method)]
        points = sum(any(r["kind"] == "point" for r in c.rows) for c in own)
        of_class = sum(c.group == group for c in curves)
        text = (f"fitted by data/evidence/fit to {len(own)} {'curve' if len(own) == 1 else 'curves'} of "
                f"this class and method, {points} with real points, {of_class} of the class in all; low "
                f"and high a factor {math.exp(width):.2f} from the middle: studies differ, and the middle "
                "is not quite known")
        figures.setdefault(group, {})[method] = {
            "low": digits(math.exp(middle - width), 3), "typical": digits(math.exp(middle), 3),
            "high": digits(math.exp(middle + width), 3), "unit": "min", "scale": "ratio", "basis": text,
            "source": sorted({c.source for c in own}), "known": "computed"}
    return figures


def steam_flows():
    """The steam flow of each class by steam whose runs print charge and flow, as in its table entry."""
    runs = collections.defaultdict(dict)
    for curve in read_curves():
        row = curve.rows[0]
        if curve.method == "steam" and row["charge_g"] and row["steam_g_per_min"]:
            runs[curve.group][curve.source] = row
    figures = {}
    for group, rows in runs.items():
        flows = {source: 60 * float(row["steam_g_per_min"]) / float(row["charge_g"])
                 for source, row in rows.items()}
        words = ", ".join(f"{rows[source]['charge_g']} g of {rows[source]['plant']} with "
                          f"{rows[source]['steam_g_per_min']} g/min gives {flow:.2f}"
                          for source, flow in flows.items())
        figures[group] = {
            "low": digits(min(flows.values()), 3),
            "typical": digits(math.exp(numpy.mean(numpy.log(list(flows.values())))), 2),
            "high": digits(max(flows.values()), 3), "unit": "1/h",
            "basis": f"kg steam per kg charge and hour in the {len(rows)} runs that print both: {words}; "
                     "typical is only their geometric mean; the other runs print no flow",
            "source": sorted(rows), "known": "computed"}
    return figures


def stated_end(form, figures):
    """The basis of stated_end in design_defaults.json, with half-lives as `half_lives` gives them."""
    times = [figures[group]["steam"]["typical"] for group in ("surface-glands", "internal-glands", "peel")]
    ends = [[100 * form.out(minutes, half_life) for half_life in (max(times), min(times))]
            for minutes in (60, 120, 180)]
    first, second, third = (f"{slow:.0f} to {fast:.0f} %" for slow, fast in ends)
    return ("share of the recoverable oil that has come over when people stop a run. Computed for leaf and "
            f"peel by steam (half-lives of {min(times):.1f} to {max(times):.1f} min): {first} after one "
            f"hour, {second} after two, {third} after three. Seed, wood and some flowers are slower")
