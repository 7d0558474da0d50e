"""Friction on a lever's pin: against the pin's own friction moment, and against the lever without it."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.calc.asking import ask, field, values

FORCE = st.floats(1, 5000)
ARM = st.floats(0.1, 5)
PIN = st.floats(0.001, 0.04)
MU = st.floats(0.01, 1.5)
CLASSES = st.sampled_from(["1", "2", "3"])


def boxes(R: float, a: float, b: float, order: str, r_p: float, mu: float) -> dict[str, str]:
    low, high = sorted((a, b))
    aR, aE = (low, high) if order != "3" else (high, low)
    return {"R": f"{R!r} N", "aR": f"{aR!r} m", "aE": f"{aE!r} m", "r_p": f"{r_p!r} m", "mu": f"{mu!r}"}


def length(boxes_: dict[str, str], symbol: str) -> float:
    return float(boxes_[symbol].partition(" ")[0])


@given(FORCE, ARM, ARM, PIN, MU, CLASSES)
def test_the_moment_of_the_pin_closes_the_balance(
    R: float, a: float, b: float, r_p: float, mu: float, order: str
) -> None:
    """About the pin's centre: effort x arm = load x arm + friction moment N r_p sin(arctan mu), N from the forces."""
    assume(abs(a - b) > 0.05)
    given_ = boxes(R, a, b, order, r_p, mu)
    v = values("pin-friction", "si", {"class": order}, **given_)
    pivot = {"1": R + v["E"], "2": R - v["E"], "3": v["E"] - R}[order]
    assume(pivot > 1e-3 * R)
    rubbing = pivot * r_p * math.sin(math.atan(mu))
    want = R * length(given_, "aR") + rubbing
    assert v["E"] * length(given_, "aE") == pytest.approx(want, rel=1e-9)


@given(FORCE, ARM, ARM, PIN, CLASSES)
def test_without_friction_it_is_the_ideal_lever(R: float, a: float, b: float, r_p: float, order: str) -> None:
    """V19."""
    assume(abs(a - b) > 0.05)
    given_ = boxes(R, a, b, order, r_p, 0.0)
    smooth = values("pin-friction", "si", {"class": order}, **given_)
    ideal = values("lever", "si", {"class": order}, **{s: given_[s] for s in ("R", "aR", "aE")})
    assert smooth["E"] == pytest.approx(ideal["E"], rel=1e-12)


@given(FORCE, ARM, ARM, PIN, MU, CLASSES, st.floats(1.01, 2))
def test_friction_and_a_thicker_pin_cost_effort(
    R: float, a: float, b: float, r_p: float, mu: float, order: str, more: float
) -> None:
    """V21."""
    assume(abs(a - b) > 0.1)

    def effort(radius: float, friction: float) -> float:
        return values("pin-friction", "si", {"class": order}, **boxes(R, a, b, order, radius, friction))["E"]

    ideal, base = effort(r_p, 0.0), effort(r_p, mu / more)
    assert ideal <= base * (1 + 1e-12)
    assert base <= effort(r_p, mu) * (1 + 1e-12)
    assert effort(r_p / more, mu) <= effort(r_p, mu) * (1 + 1e-12)


@given(FORCE, ARM, ARM, PIN, st.floats(0.02, 1.2), CLASSES, st.sampled_from(["R", "aR", "aE", "r_p", "mu"]))
def test_it_solves_back(R: float, a: float, b: float, r_p: float, mu: float, order: str, asked: str) -> None:
    """V3. A pin's size is a small difference of large forces: a class-2 lever close to class 3 leaves it open."""
    assume(abs(a - b) > 0.1)
    full = boxes(R, a, b, order, r_p, mu)
    v = values("pin-friction", "si", {"class": order}, **full)
    assume(0.1 < v["E"] < 80000)
    rest = {symbol: text for symbol, text in full.items() if symbol != asked} | {"E": f"{v['E']!r} N"}
    answer = ask("pin-friction", "si", {"class": order}, **rest)
    assert answer["values"][asked]["si"] == pytest.approx(v[asked], rel=1e-7), answer["errors"]


def test_a_pin_as_thick_as_the_arm_is_refused() -> None:
    answer = ask("pin-friction", R="40", aR="6", aE="0.2", r_p="1", mu="1")
    assert field(answer, "r_p")["error"]["code"] == "e-pinarm"
