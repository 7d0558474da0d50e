"""Repeats, lines and the odd one: against published examples, and what must always hold."""

import math
import statistics

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calc.lab.scale import Instruments, of_reading, rectangular
from calc.lab.statistics import odd_ones, straight_line, summary

# JCGM 100:2008 (the GUM), 4.4.3, table 1: twenty temperatures in degrees Celsius, and what the text makes of them.
# Recalled; the mean and the spread that the Guide prints come out of them.
GUM_TEMPERATURES = (
    *(96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07),
    *(100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72),
)

# The GUM, H.2, table H.2: five simultaneous readings. The readings were read in several public programs that quote the
# table; the means and their standard uncertainties as printed there are recalled.
GUM_IMPEDANCE = {
    "V": ((5.007, 4.994, 5.005, 4.990, 4.999), 4.9990, 0.0032),
    "mA": ((19.663, 19.639, 19.640, 19.685, 19.678), 19.6610, 0.0095),
    "rad": ((1.0456, 1.0438, 1.0468, 1.0428, 1.0433), 1.04446, 0.00075),
}

# NIST StRD, data set Norris (ozone monitors): data and certified values as quoted, alike, in the tests of several
# public statistics libraries.
NORRIS_X = (
    *(0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5),
    *(11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1),
    *(448.9, 0.5),
)
NORRIS_Y = (
    *(0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9),
    *(10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4),
    *(449.2, 0.2),
)
NORRIS = {"a": -0.262323073774029, "b": 1.00211681802045, "u_a": 0.232818234301152, "u_b": 0.429796848199937e-03}

# The GUM, H.3, table H.6: a thermometer's corrections against its readings less 20 degrees Celsius. The readings were
# read in several public programs that quote the table; the results as printed in H.3.3 are recalled.
GUM_THERMOMETER = (
    (21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511),
    (-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160),
)


def test_the_twenty_temperatures_of_the_guide() -> None:
    found = summary(GUM_TEMPERATURES, 0.0)
    assert found.n == 20
    assert round(found.mean, 3) == 100.145
    assert round(found.s, 3) == 1.489
    assert round(found.u_a, 3) == 0.333
    assert found.u == found.u_a


@pytest.mark.parametrize("name", GUM_IMPEDANCE)
def test_the_five_readings_of_the_guide(name: str) -> None:
    values, mean, u = GUM_IMPEDANCE[name]
    found = summary(values, 0.0)
    assert found.mean == pytest.approx(mean, abs=1e-9)
    assert float(f"{found.u_a:.2g}") == u


def test_a_rectangle_of_half_width_four_is_the_guides_two_point_three() -> None:
    """The GUM, 4.4.5: a temperature between 96 and 104 degrees Celsius has u = 4/sqrt(3) = 2.3 (recalled)."""
    assert round(rectangular(4), 1) == 2.3


def test_a_display_that_steps_by_one_leaves_a_doubt_of_0_29() -> None:
    """The GUM, F.2.2.1: a resolution of one step gives u = 0.29 of it (recalled)."""
    tools = Instruments(division=1.0, tape=1.0, calliper=1.0)
    for kind in ("force", "length", "calliper"):
        assert round(of_reading(kind, tools), 2) == 0.29
    assert of_reading("turns", tools) == 0


def test_parts_of_the_doubt_add_in_quadrature_as_for_the_guides_gauge_block() -> None:
    """The GUM, H.1.3.2: 5.8 nm, 3.9 nm and 6.7 nm together make 9.7 nm. The parts were read in public programs that
    quote the example; 9.7 is recalled. Here: repeats with u_A of 5.8, a scale with the other two."""
    tools = Instruments(division=3.9 * 2 * math.sqrt(3), accuracy=6.7 * math.sqrt(3))
    half = 5.8
    found = summary([100 - half, 100 + half], of_reading("force", tools))  # two readings: u_A is half their distance
    assert found.u_a == pytest.approx(5.8)
    assert round(found.u, 1) == 9.7


def test_one_reading_has_no_spread() -> None:
    found = summary([7.0], 0.5)
    assert (found.s, found.u_a, found.u) == (None, None, 0.5)
    with pytest.raises(ValueError, match="no readings"):
        summary([], 0.5)


def test_the_line_of_the_nist_norris_data() -> None:
    """The scatter is larger than the doubt given here, so the uncertainties are those of the scatter: NIST's."""
    line = straight_line(NORRIS_X, NORRIS_Y, [0.01] * len(NORRIS_X))
    for name, certified in NORRIS.items():
        assert getattr(line, name) == pytest.approx(certified, rel=1e-9), name


def test_the_line_of_the_guides_thermometer() -> None:
    readings, corrections = GUM_THERMOMETER
    line = straight_line([t - 20 for t in readings], corrections, [1e-4] * len(readings))
    assert (round(line.a, 4), round(line.u_a, 4)) == (-0.1712, 0.0029)
    assert (round(line.b, 5), round(line.u_b, 5)) == (0.00218, 0.00067)


def test_a_weighted_line_is_the_one_with_the_points_repeated() -> None:
    """A point with half the doubt counts as four points: least squares with repeated points is the other way."""
    x, y = [1.0, 2.0, 3.0, 4.0], [2.1, 3.9, 6.2, 7.8]
    weighted = straight_line(x, y, [1.0, 0.5, 1.0, 1.0])
    repeated = straight_line([1, 2, 2, 2, 2, 3, 4], [2.1, 3.9, 3.9, 3.9, 3.9, 6.2, 7.8], [1.0] * 7)
    assert (weighted.a, weighted.b) == pytest.approx((repeated.a, repeated.b), rel=1e-12)


def test_the_doubt_of_a_line_is_that_of_its_points() -> None:
    """Another way: a and b are linear in y, so each y's doubt can be carried through by moving it a little."""
    x, y, u = [10.0, 20.0, 30.0, 45.0], [4.0, 7.1, 10.0, 14.6], [0.4, 0.5, 0.3, 0.6]
    line = straight_line(x, y, u)
    moved = [straight_line(x, [q + (u[i] if i == j else 0) for j, q in enumerate(y)], u) for i in range(len(x))]
    assert line.u_a == pytest.approx(math.hypot(*(m.a - line.a for m in moved)), rel=1e-9)
    assert line.u_b == pytest.approx(math.hypot(*(m.b - line.b for m in moved)), rel=1e-9)


def test_a_line_needs_three_loads() -> None:
    with pytest.raises(ValueError, match="three"):
        straight_line([1, 2], [1, 2], [1, 1])
    with pytest.raises(ValueError, match="same"):
        straight_line([5, 5, 5], [1, 2, 3], [1, 1, 1])


def test_the_far_group_of_j37_is_found() -> None:
    """J37 of the reference calculations: 52.0 among six efficiencies has a robust z of -4.75, over 3.5."""
    groups = [78.2, 71.5, 74.9, 80.1, 76.3, 52.0]
    assert odd_ones(groups, 0.1) == [5]
    assert odd_ones([*groups[:5], 65.0], 0.1) == []  # by hand: median 75.6, MAD 3.55, so z = 0.6745 · 10.6/3.55 = 2.0


def test_steps_of_the_scale_are_no_outlier() -> None:
    assert odd_ones([12.5, 12.5, 12.5, 12.5, 13.0], 0.5) == []
    assert odd_ones([12.5, 12.5, 12.5, 12.5, 13.0], 0.1) == [4]
    assert odd_ones([12.5, 12.5, 16.5], 0.5) == [2]
    assert odd_ones([12.5, 16.5], 0.5) == []


SIZES = st.floats(0.5, 500)
SAMPLES = st.lists(SIZES, min_size=2, max_size=40)


@given(SAMPLES, st.floats(0, 5))
def test_a_doubt_is_never_negative_nor_smaller_than_a_part_of_it(values: list[float], u: float) -> None:
    found = summary(values, u)
    assert found.u >= max(found.u_a, u) * (1 - 1e-12) >= 0
    assert found.mean == pytest.approx(statistics.fmean(values), rel=1e-12)


@given(SAMPLES, st.integers(2, 6))
def test_more_repeats_with_the_same_scatter_leave_less_doubt(values: list[float], times: int) -> None:
    assume(max(values) - min(values) > 1e-3)
    assert summary(values * times, 0.0).u_a < summary(values, 0.0).u_a


@given(st.lists(SIZES, min_size=3, max_size=30), st.randoms())
def test_the_odd_one_is_the_same_in_any_order(values: list[float], chance) -> None:
    order = list(range(len(values)))
    chance.shuffle(order)
    shuffled = [values[i] for i in order]
    assert {shuffled[i] for i in odd_ones(shuffled, 0.5)} == {values[i] for i in odd_ones(values, 0.5)}


@given(st.lists(st.tuples(SIZES, SIZES), min_size=3, max_size=12), st.floats(0.1, 10))
def test_a_line_through_scaled_points_is_the_scaled_line(points: list[tuple[float, float]], times: float) -> None:
    x, y = [p for p, _ in points], [q for _, q in points]
    assume(max(x) - min(x) > 1)
    line = straight_line(x, y, [1.0] * len(x))
    scaled = straight_line([times * p for p in x], [times * q for q in y], [times] * len(x))
    assert scaled.b == pytest.approx(line.b, rel=1e-6, abs=1e-6)
    assert scaled.a == pytest.approx(times * line.a, rel=1e-6, abs=1e-4)
