"""A load dragged on the level, beside the published examples that it answers (test_worked_examples.py)."""

from __future__ import annotations

import math

import pytest

from tests.calc.asking import LBF, ask, values


def pull(mu: float, degrees: float) -> float:
    return values("level-drag", R="40", mu=repr(mu), delta=f"{degrees!r} °")["E"] / LBF


@pytest.mark.parametrize("mu", [0.1, 0.3, 0.7])
def test_no_angle_is_easier_than_the_friction_angle(mu: float) -> None:
    """The least pull is R sin(phi), at the friction angle: the triangle of forces closes square (any statics text)."""
    phi = math.degrees(math.atan(mu))
    best = pull(mu, phi)
    assert best == pytest.approx(40 * math.sin(math.radians(phi)), rel=1e-9)
    assert min((pull(mu, degrees), degrees) for degrees in range(-40, 75))[0] >= best


@pytest.mark.parametrize("degrees", [-20.0, 0.0, 35.0])
def test_the_forces_on_the_load_sum_to_nothing(degrees: float) -> None:
    """Along the floor and square to it, summed as components (another way than the formula for the effort)."""
    v = values("level-drag", R="40", mu="0.3", delta=f"{degrees} °", d="8 ft")
    across = v["E"] * math.cos(math.radians(degrees)) - v["F_f"]
    up = v["N"] + v["E"] * math.sin(math.radians(degrees)) - 40 * LBF
    assert [across, up] == pytest.approx([0, 0], abs=1e-9)
    assert v["W"] == pytest.approx(v["F_f"] * 8 * 0.3048, rel=1e-9)


def test_a_push_that_slants_too_far_down_jams() -> None:
    """Where the slant is more than a right angle less the friction angle no push is enough (any statics text)."""
    for degrees, jams in ((-60.0, False), (-64.0, True)):  # 90° less atan(0.5) is 63.4°
        found = ask("level-drag", R="40", mu="0.5", delta=f"{degrees} °")
        assert [error["code"] for error in found["errors"]] == (["e-jam"] if jams else [])


def test_a_pull_that_lifts_the_load_is_refused() -> None:
    found = ask("level-drag", R="40", E="60", delta="60 °")
    assert [error["code"] for error in found["errors"]] == ["e-lift-level"]


def test_what_is_left_over_is_the_fall_of_friction() -> None:
    """Level: (mu_s - mu) R, by the two laws of friction (OpenStax College Physics 2e, ch. 5)."""
    v = values("level-drag", choices={"motion": "start"}, R="40", mu="0.3", mu_s="0.5", delta="0")
    assert v["F_over"] / LBF == pytest.approx(0.2 * 40, rel=1e-9)
