"""Work and power: the angle's part, and the units of power against pint's own."""

from __future__ import annotations

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.formula import evaluate, parse_equation
from calc.work_and_power import WORK_AND_POWER
from tests.calc.asking import ask, sizes, values

FORCE = st.floats(0.1, 5000)
LENGTH = st.floats(0.01, 100)
UREG = pint.UnitRegistry()  # pint's own unit file: independent of ours


def boxes(F: float, d: float, gamma: float, t: float = 1.0) -> dict[str, str]:
    return {"F": f"{F!r} N", "d": f"{d!r} m", "gamma": f"{gamma!r} °", "t": f"{t!r} s"}


@given(FORCE, LENGTH)
def test_along_the_path_work_is_force_times_distance(F: float, d: float) -> None:
    """V14."""
    assert values("work-and-power", "si", **boxes(F, d, 0))["W"] == pytest.approx(F * d, rel=1e-12)


@given(FORCE, LENGTH)
def test_square_to_the_path_there_is_none(F: float, d: float) -> None:
    """V14: none at all, not the last bits of a cosine."""
    answer = ask("work-and-power", "si", **boxes(F, d, 90))
    assert (answer["values"]["W"]["si"], answer["values"]["P"]["si"]) == (0, 0)
    assert [note["code"] for note in answer["notes"]] == ["n-nowork"]


def test_square_to_the_path_a_doubtful_force_does_none_either() -> None:
    values_ = ask("work-and-power", F="30 ± 1", d="1 ft", gamma="90")["values"]
    assert [values_[symbol]["text"] for symbol in ("W", "F_d")] == ["0 ft·lbf", "0 lbf"]


@given(FORCE, LENGTH, st.floats(0.1, 180))
def test_it_does_not_matter_to_which_side_the_force_leans(F: float, d: float, gamma: float) -> None:
    """V14: even in gamma. A box takes sizes only, so the relations themselves are asked."""
    work = []
    for angle in (math.radians(gamma), -math.radians(gamma)):
        known = {"F": F, "d": d, "gamma": angle}
        for relation in WORK_AND_POWER.relations[:2]:
            left, right = parse_equation(relation.text)
            known[left.name] = evaluate(right, known)  # type: ignore[union-attr]
        work.append(known["W"])
    assert work[0] == work[1]
    assert values("work-and-power", "si", **boxes(F, d, gamma))["W"] == pytest.approx(work[0], rel=1e-12)


@given(FORCE, LENGTH, sizes(0, 180), st.floats(0.1, 3600))
def test_work_by_adding_up_small_steps(F: float, d: float, gamma: float, t: float) -> None:
    """Another route: the dot product of force and displacement, summed over unequal steps."""
    v = values("work-and-power", "si", **boxes(F, d, gamma, t))
    force = (F * math.cos(math.radians(gamma)), F * math.sin(math.radians(gamma)))
    shares = [0.1, 0.25, 0.4, 0.25]
    summed = sum(force[0] * d * share + force[1] * 0.0 for share in shares)
    assert v["W"] == pytest.approx(summed, rel=1e-9, abs=1e-9 * F * d)
    assert v["P"] == pytest.approx(summed / t, rel=1e-9, abs=1e-9 * F * d / t)


@given(FORCE, LENGTH, st.floats(1, 89), st.floats(0.1, 3600), st.sampled_from(["F", "d", "t", "gamma"]))
def test_it_solves_back_from_the_power(F: float, d: float, gamma: float, t: float, asked: str) -> None:
    """V3."""
    full = boxes(F, d, gamma, t)
    v = values("work-and-power", "si", **full)
    rest = {symbol: text for symbol, text in full.items() if symbol != asked} | {"P": f"{v['P']!r} W"}
    assert values("work-and-power", "si", **rest)[asked] == pytest.approx(v[asked], rel=1e-7)


def test_horsepower_is_550_foot_pounds_a_second() -> None:
    """Against pint's own unit file."""
    v = values("work-and-power", F="550", d="1 ft", gamma="0", t="1")
    watts = UREG.Quantity(1, "horsepower").to("watt").magnitude
    assert v["P"] == pytest.approx(watts, rel=1e-9)
    shown = ask("work-and-power", F="550", d="1 ft", gamma="0", t="1")["values"]
    assert (shown["P_hp"]["text"], shown["P_W"]["text"]) == ("1.000 hp", "746 W")


def test_an_empty_angle_is_taken_along_the_path() -> None:
    answer = ask("work-and-power", F="30", d="4 ft", t="5")
    assert answer["fields"]["gamma"]["state"] == "assumed"
    assert answer["values"]["W"]["text"] == "120.0 ft·lbf"


def test_a_force_that_holds_back_does_work_below_zero() -> None:
    answer = ask("work-and-power", F="30", d="4 ft", gamma="120", t="5")
    assert answer["errors"] == []
    assert answer["values"]["W"]["text"] == "-60.0 ft·lbf"
    assert [note["code"] for note in answer["notes"]] == ["n-heldback"]
