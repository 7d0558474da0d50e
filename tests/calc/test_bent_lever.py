"""The bent lever against the straight one, and against moments as vector products."""

from __future__ import annotations

import cmath
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.calc.asking import ask, sizes, values

FORCE = st.floats(1, 5000)
ARM = st.floats(0.02, 5)
ANGLE = st.floats(3, 177)


def boxes(R: float, aR: float, psi_R: float, aE: float, psi_E: float) -> dict[str, str]:
    return {
        "R": f"{R!r} N",
        "aR": f"{aR!r} m",
        "psi_R": f"{psi_R!r} °",
        "aE": f"{aE!r} m",
        "psi_E": f"{psi_E!r} °",
    }


@given(FORCE, ARM, ARM)
def test_with_square_forces_it_is_the_straight_lever(R: float, aR: float, aE: float) -> None:
    """V19."""
    straight = values("lever", "si", R=f"{R!r} N", aR=f"{aR!r} m", aE=f"{aE!r} m")
    bent = values("bent-lever", "si", **boxes(R, aR, 90, aE, 90))
    assert [bent["E"], bent["IMA"]] == pytest.approx([straight["E"], straight["IMA"]], rel=1e-12)


@given(FORCE, ARM, ANGLE, ARM, ANGLE, sizes(0, 360))
def test_moments_as_vector_products_vanish(
    R: float, aR: float, psi_R: float, aE: float, psi_E: float, about: float
) -> None:
    """Another route than a sin(psi): arms and forces as vectors, turned any way, moment as a vector product."""
    v = values("bent-lever", "si", **boxes(R, aR, psi_R, aE, psi_E))
    load_arm = cmath.rect(aR, math.radians(about + 180))
    load = cmath.rect(R, math.radians(about + 180 + psi_R))
    effort_arm = cmath.rect(aE, math.radians(about + 90))
    effort = cmath.rect(v["E"], math.radians(about + 90 - psi_E))

    def moment(arm: complex, force: complex) -> float:
        return (arm.conjugate() * force).imag

    assert moment(load_arm, load) + moment(effort_arm, effort) == pytest.approx(0, abs=1e-9 * R * aR)


@given(FORCE, ARM, ANGLE, ARM, ANGLE)
def test_work_in_is_work_out_along_the_forces_own_lines(
    R: float, aR: float, psi_R: float, aE: float, psi_E: float
) -> None:
    """Numeric virtual work: each end turned by a small angle, its way projected on its force."""
    v = values("bent-lever", "si", **boxes(R, aR, psi_R, aE, psi_E))
    step = 1e-6

    def along(arm: float, psi: float) -> float:
        moved = arm * cmath.rect(1, step) - arm
        return abs((moved * cmath.rect(1, math.radians(psi)).conjugate()).real)

    assert v["E"] * along(aE, psi_E) == pytest.approx(R * along(aR, psi_R), rel=1e-4)
    assert v["dE"] / v["dR"] == pytest.approx(v["IMA"], rel=1e-12)


@given(FORCE, ARM, st.floats(3, 88), ARM, st.floats(3, 88), st.sampled_from(["R", "aR", "psi_R", "aE", "psi_E"]))
def test_it_solves_back(R: float, aR: float, psi_R: float, aE: float, psi_E: float, asked: str) -> None:
    """V3, for forces that lean outward; the other angle with the same sine is as good an answer."""
    full = boxes(R, aR, psi_R, aE, psi_E)
    v = values("bent-lever", "si", **full)
    assume(0.1 < v["E"] < 80000)
    rest = {symbol: text for symbol, text in full.items() if symbol != asked} | {"E": f"{v['E']!r} N"}
    assert values("bent-lever", "si", **rest)[asked] == pytest.approx(v[asked], rel=1e-7)


@given(FORCE, ARM, ANGLE, ARM)
def test_a_slanting_pull_is_never_easier(R: float, aR: float, psi_E: float, aE: float) -> None:
    square = values("bent-lever", "si", **boxes(R, aR, 90, aE, 90))["E"]
    slanting = values("bent-lever", "si", **boxes(R, aR, 90, aE, psi_E))["E"]
    assert slanting >= square * (1 - 1e-12)


def test_a_measured_effort_gives_the_efficiency() -> None:
    answer = ask("bent-lever", R="60", aR="1.5", psi_R="90", aE="12", psi_E="90", E="10")
    assert answer["errors"] == []
    assert answer["values"]["eta"]["text"] == "75.0 %"  # 7.5 of 10 lbf, by hand
