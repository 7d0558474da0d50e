"""Repeats put together: mean, spread, standard uncertainty; the odd one; a straight line through loads and efforts.

Sources: arithmetic mean, experimental standard deviation (n - 1) and s/sqrt(n): JCGM 100:2008, 4.2. Robust outlier rule
with the median absolute deviation and 3.5: Iglewicz and Hoaglin, How to Detect and Handle Outliers (1993), as restated
in the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17. Weighted straight line: any text on data reduction.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass

ODD = 3.5
MAD_TO_SIGMA = 1.4826


@dataclass(frozen=True)
class Summary:
    """A column of readings. ``s`` and ``u_a`` are None with one reading; ``u`` is the combined standard uncertainty."""

    n: int
    mean: float
    s: float | None
    u_a: float | None
    u: float


def summary(values: Sequence[float], u_instrument: float) -> Summary:
    """Mean and standard uncertainty of repeats (one unit throughout): u = sqrt(u_A^2 + u_instrument^2).

    Raises ValueError for no values.
    """
    if not values:
        raise ValueError("There are no readings.")
    mean = math.fsum(values) / len(values)
    if len(values) == 1:
        return Summary(1, mean, None, None, u_instrument)
    s = statistics.stdev(values)
    u_a = s / math.sqrt(len(values))
    return Summary(len(values), mean, s, u_a, math.hypot(u_a, u_instrument))


def odd_ones(values: Sequence[float], division: float) -> list[int]:
    """The places of readings far from the others; ``division`` keeps steps of the scale from looking like spread.

    From five readings on the published rule; three or four only give away a reading that is a fifth of the median off.
    """
    if len(values) < 3:
        return []
    median = statistics.median(values)
    off = [abs(value - median) for value in values]
    limit = ODD * MAD_TO_SIGMA * statistics.median(off)
    least = 3 * division if len(values) >= 5 else max(5 * division, 0.2 * abs(median))
    return [i for i, distance in enumerate(off) if distance > max(limit, least)]


@dataclass(frozen=True)
class StraightLine:
    """y = a + b x with the standard uncertainties of a and b."""

    a: float
    b: float
    u_a: float
    u_b: float


def straight_line(x: Sequence[float], y: Sequence[float], u: Sequence[float]) -> StraightLine:
    """The weighted least-squares line through three or more points; ``u`` are the standard uncertainties of ``y``.

    Where the points scatter more than ``u`` explains, the uncertainties grow with the scatter (Birge's ratio); they
    never shrink. Raises ValueError for fewer than three points, or if all ``x`` are one value.
    """
    if len(x) < 3:
        raise ValueError("A line needs three points.")
    weights = [1 / value**2 for value in u]
    total = math.fsum(weights)
    middle_x = math.fsum(w * value for w, value in zip(weights, x, strict=True)) / total
    middle_y = math.fsum(w * value for w, value in zip(weights, y, strict=True)) / total
    across = math.fsum(w * (value - middle_x) ** 2 for w, value in zip(weights, x, strict=True))
    if across <= 1e-12 * total * max(abs(value) for value in x) ** 2:
        raise ValueError("All loads are the same.")
    b = math.fsum(w * (p - middle_x) * (q - middle_y) for w, p, q in zip(weights, x, y, strict=True)) / across
    a = middle_y - b * middle_x
    scatter = math.fsum(w * (q - a - b * p) ** 2 for w, p, q in zip(weights, x, y, strict=True)) / (len(x) - 2)
    grow = math.sqrt(max(1.0, scatter))
    return StraightLine(a, b, grow * math.sqrt(1 / total + middle_x**2 / across), grow / math.sqrt(across))
