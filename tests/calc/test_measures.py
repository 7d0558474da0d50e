"""Measures: every box of a group holds the same size, by factors from pint's own unit file."""

from __future__ import annotations

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.figures import feet_and_inches, sixteenths
from calc.measure import read
from calc.measures import MEASURES
from calc.units import KINDS
from tests.calc.asking import ask, values

UREG = pint.UnitRegistry()  # independent of ours
GROUPS = {
    "length": {"L_in": "inch", "L_ft": "foot", "L_yd": "yard", "L_mm": "mm", "L_cm": "cm", "L_m": "m"},
    "force": {"F_lbf": "lbf", "F_ozf": "ounce_force", "F_N": "N", "F_kN": "kN", "F_kgf": "kgf"},
    "torque": {"T_in": "lbf*inch", "T_ft": "lbf*foot", "T_Nm": "N*m"},
    "work": {"W_ft": "lbf*foot", "W_in": "lbf*inch", "W_J": "joule"},
    "power": {"P_ft": "lbf*foot/s", "P_hp": "horsepower", "P_W": "watt", "P_kW": "kilowatt"},
}
PAIRS = [(of, a, b) for of, group in GROUPS.items() for a in group for b in group if a != b]
NUMBER = st.floats(0.01, 5000)


@pytest.mark.parametrize(("of", "typed", "asked"), PAIRS)
def test_one_box_fills_the_others_by_the_factor_of_another_unit_file(of: str, typed: str, asked: str) -> None:
    answer = ask("measures", choices={"of": of}, **{typed: "12.5"})
    assert answer["errors"] == []
    want = UREG.Quantity(12.5, GROUPS[of][typed]).to(GROUPS[of][asked]).magnitude
    six = ask("measures", choices={"of": of}, **{typed: "12.5"})["values"][asked]["si"]
    in_unit = six / UREG.Quantity(1, GROUPS[of][asked]).to_base_units().magnitude
    assert in_unit == pytest.approx(want, rel=1e-9)


@given(st.floats(0.001, 12000), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_a_fraction_read_back_is_the_length_to_half_a_part(inches: float, parts: int) -> None:
    """V7: both as inches and as feet and inches."""
    text = sixteenths(inches, parts=parts)
    if text != "0":
        back = read(f"{text} in", KINDS["length"], "Length", "in").nominal / 0.0254
        assert abs(back - inches) <= 0.5 / parts + 1e-9
    if inches >= 12:
        back = read(feet_and_inches(inches, parts), KINDS["length"], "Length", "in").nominal / 0.0254
        assert abs(back - inches) <= 0.5 / parts + 1e-9


@given(st.integers(1, 900))
def test_feet_are_twelve_inches_in_every_box(n: int) -> None:
    """V8."""
    assert values("measures", L_in=f"{n} ft")["L_m"] == values("measures", L_in=f"{12 * n} in")["L_m"]
    assert values("measures", L_ft=f"{n}")["L_m"] == pytest.approx(
        values("measures", L_in=f"{12 * n}")["L_m"], rel=1e-15
    )


def test_the_fractions_of_a_length_with_none_of_them_exact() -> None:
    """23/64 = 0.359375 in and a hair more: by hand."""
    v = ask("measures", L_in="0.36")["values"]
    want = ["1/2", "1/4", "3/8", "3/8", "3/8", "23/64"]
    assert [v[f"L_{n}"]["text"] for n in (2, 4, 8, 16, 32, 64)] == [f"{fraction} in" for fraction in want]


def test_a_tape_carries_over_to_the_next_foot() -> None:
    assert ask("measures", L_in="95.99")["values"]["L_tape"]["text"] == "8 ft 0 in"


@given(st.floats(0.02, 50))
def test_a_slope_as_ratio_angle_and_grade(n: float) -> None:
    """Against the arctangent of rise over run by atan2, and rise over run itself."""
    v = values("measures", choices={"of": "slope"}, n=f"{n!r}")
    assert v["theta"] == pytest.approx(math.atan2(1, n), rel=1e-12)
    assert v["theta_rad"] == v["theta"]
    assert v["grade"] == pytest.approx(100 / n, rel=1e-9)
    back = values("measures", choices={"of": "slope"}, grade=f"{v['grade']!r}")
    assert back["n"] == pytest.approx(n, rel=1e-9)


def test_a_wheelchair_slope_of_1_in_12_is_a_grade_of_8_33() -> None:
    """2010 ADA Standards, 405.2, give both: 1:12 and 8.33 %."""
    answer = ask("measures", choices={"of": "slope"}, n="12")
    assert answer["values"]["grade"]["text"] == "8.33"


def test_only_what_is_measured_has_boxes() -> None:
    answer = ask("measures", choices={"of": "force"}, F_lbf="40", L_in="63.5")
    assert answer["fields"]["L_in"]["state"] == "unused"
    assert set(answer["values"]) == set(GROUPS["force"])


def test_two_boxes_of_one_length_may_not_disagree() -> None:
    answer = ask("measures", L_in="63.5", L_m="1.7")
    assert [error["code"] for error in answer["errors"]] == ["e-over"]


def test_every_group_is_checked_here() -> None:
    options = {value for value, _ in MEASURES.choices[0].options}
    assert options == {*GROUPS, "slope"}
