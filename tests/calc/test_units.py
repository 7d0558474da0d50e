"""Units: which words name one, what each measures, and how large it is."""

from __future__ import annotations

import math

import pytest

from calc.units import KINDS, factor, from_unit, in_unit, measures, same_dimension, size_of_one, unit_named


@pytest.mark.parametrize(
    ("word", "unit"),
    [
        ("lbf", "lbf"),
        ("LBF", "lbf"),
        ("Pounds-Force", "lbf"),
        ("in.", "in"),
        ("N⋅m", "N·m"),
        ("N•m", "N·m"),
        ("ft  lbf", "ft·lbf"),
        (" mm ", "mm"),
        ("MM", "mm"),
        ("m", "m"),
        ("M", None),
        (" M", None),
        ("tpi", "TPI"),
        ("Per Cent", "%"),
        ("cubit", None),
        ("", None),
    ],
)
def test_a_word_names_a_unit_in_any_case_but_a_lone_large_m(word: str, unit: str | None) -> None:
    assert unit_named(word) == unit


@pytest.mark.parametrize(
    ("unit", "words"),
    [
        ("°", "angle"),
        ("rad", "angle"),
        ("%", "a share of a hundred"),
        ("turns", "turns"),
        ("TPI", "threads"),
        ("yd", "length"),
        ("slug", "mass"),
        ("h", "time"),
        ("daN", "force"),
        ("ft·lbf", "work or torque"),
        ("lbf·in", "work or torque"),
        ("hp", "power"),
        ("rpm", "a speed of turning"),
        ("psi", "a stress"),
        ("kN/m³", "weight per volume"),
    ],
)
def test_a_unit_says_what_it_measures(unit: str, words: str) -> None:
    assert measures(unit) == words


@pytest.mark.parametrize(
    ("unit", "si", "digits"),
    [
        ("in", 0.0254, 12),
        ("ft", 0.3048, 12),
        ("yd", 0.9144, 12),
        ("lb", 0.45359237, 12),
        ("oz", 0.02834952, 7),
        ("slug", 14.59390, 7),
        ("lbf", 4.448222, 7),
        ("ozf", 0.2780139, 7),
        ("kgf", 9.80665, 12),
        ("ft·lbf", 1.355818, 7),
        ("lbf·in", 0.1129848, 7),
        ("hp", 745.6999, 7),
        ("psi", 6894.757, 7),
        ("lbf/ft³", 157.0875, 7),
        ("rpm", 0.1047198, 7),
        ("°", 0.01745329, 7),
        ("h", 3600, 12),
        ("kN", 1000, 12),
        ("g", 0.001, 12),
        ("%", 0.01, 12),
        ("turns", 1, 12),
        ("", 1, 12),
    ],
)
def test_a_unit_is_as_large_as_printed(unit: str, si: float, digits: int) -> None:
    """NIST SP 811, appendix B, to its printed digits, from memory; turns and plain numbers are counted."""
    assert factor(unit) == pytest.approx(si, rel=10.0 ** (1 - digits))


def test_threads_per_inch_count_the_other_way_round() -> None:
    """20 threads per inch are a pitch of 1/20 in; one thread more makes it 1/420 in smaller."""
    assert from_unit(20, "TPI") == pytest.approx(0.0254 / 20)
    assert in_unit(0.0254 / 20, "TPI") == pytest.approx(20)
    assert size_of_one("TPI", 0.0254 / 20) == pytest.approx(0.0254 / 420, rel=0.06)
    assert size_of_one("TPI", 0.0254 / 2000) == pytest.approx(0.0254 / 2000 / 2001, rel=1e-3)
    assert size_of_one("ft", 7.0) == pytest.approx(0.3048)
    with pytest.raises(ZeroDivisionError):
        from_unit(0, "TPI")


def test_a_number_of_a_unit_comes_back() -> None:
    assert from_unit(3, "ft") == pytest.approx(0.9144)
    assert in_unit(0.9144, "ft") == pytest.approx(3)
    assert in_unit(math.pi, "°") == pytest.approx(180)


@pytest.mark.parametrize(
    ("unit", "kinds"),
    [
        ("lbf", {"force"}),
        ("ft", {"length", "pitch"}),
        ("TPI", {"pitch"}),
        ("kg", {"mass"}),
        ("ft·lbf", {"work", "torque"}),
        ("N·m", {"work", "torque"}),
        ("W", {"power"}),
        ("min", {"time"}),
        ("rpm", {"speed"}),
        ("rad/s", {"speed"}),
        ("psi", {"stress"}),
        ("N/m³", {"heft"}),
        ("°", {"angle"}),
        ("rad", {"angle"}),
        ("%", {"efficiency"}),
        ("turns", {"turns"}),
    ],
)
def test_a_unit_measures_these_kinds_and_no_other(unit: str, kinds: set[str]) -> None:
    assert {name for name, kind in KINDS.items() if same_dimension(unit, kind)} == kinds
